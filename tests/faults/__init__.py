"""What a court does to a laptop, done on purpose: each fault leaves a figure, and no rating lost."""
