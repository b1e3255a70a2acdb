"""Numbers in, numbers out. Knows no player, no disk, no screen; changes nothing in place."""
