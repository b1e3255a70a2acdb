"""The application: the court screen, its queue of keys, and the terminal it runs in."""
