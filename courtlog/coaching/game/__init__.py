"""The values of the game: grades, balls, rounds, drills, people, cards."""
