"""What can be typed: every command with its options and help."""
