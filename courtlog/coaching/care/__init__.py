"""Arms and heat: what is recorded, and the cautions that follow. It clears nobody to play."""
