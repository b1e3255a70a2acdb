"""What a court does to a laptop, done on purpose: every fault has its figure."""
