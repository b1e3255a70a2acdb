"""What is said of a player, at three depths: the sentence, the reason, the figures."""
