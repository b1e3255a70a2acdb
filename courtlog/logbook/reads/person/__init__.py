"""All that a book holds on one person."""
