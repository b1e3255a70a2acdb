"""The facts that are printed and given as JSON, put together from the book."""
