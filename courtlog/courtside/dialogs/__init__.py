"""Questions and forms over a screen, and what every screen of ours keeps to."""
