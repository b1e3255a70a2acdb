"""The command line. It imports the court screen only to open it."""
