"""What the coach can ask for besides rating: one command, one small class."""
