"""Drill and sheet files in and out; problems are values with a file and a line."""
