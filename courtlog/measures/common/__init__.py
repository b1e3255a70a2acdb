"""What all measures share: checked arguments, tail chances, the table of minimums."""
