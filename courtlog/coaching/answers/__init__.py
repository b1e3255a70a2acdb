"""What a player's balls say: cuts, comparisons, curves, the rung call."""
