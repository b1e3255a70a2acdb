"""Look-ups: what stands in the book, as values of the coaching floor."""
