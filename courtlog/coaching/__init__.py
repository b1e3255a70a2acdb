"""The game: its values, what balls say, what comes next, the live round. No disk or screen."""
