"""Sheets of paper as they are typed in."""
