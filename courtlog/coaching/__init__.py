"""The game: grades, players, drills, rounds, the live feeding state. No clock, disk or screen."""
