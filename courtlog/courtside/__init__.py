"""The court screen (Textual): screens, widgets, keymap, themes. Writes through the logbook only."""
