"""Look-ups for films: which balls have a moment, and when that was."""
