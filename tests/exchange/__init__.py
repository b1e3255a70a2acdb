"""The book out of courtlog, back in, and joined with others."""
