"""Tests of the screens for filming."""
