"""Whole books in and out: export, import, and the joining of two."""
