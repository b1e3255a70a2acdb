"""What comes next: the next round, a plan of the day, the rotation, the clinic, the homework."""
