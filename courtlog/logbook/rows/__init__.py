"""Rules that single rows keep: ids, journal, tallies, numbers, and whether they are sound."""
