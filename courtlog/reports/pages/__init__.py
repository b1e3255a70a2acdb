"""The printed pages, in words."""
