"""What the court screen is drawn of: themes, letters, lines and strips."""
