"""Look-ups: what the book holds, as values that coaching works with."""
