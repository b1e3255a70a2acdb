"""The door: commands of the terminal. Imports the court screen only when it opens it."""
