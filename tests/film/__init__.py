"""Tests of films."""
