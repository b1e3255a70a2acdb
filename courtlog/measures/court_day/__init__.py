"""A day on court: feed orders and rotations, load, heat."""
