"""The round being fed: its feed order, its live state, and what the screen shows of it."""
