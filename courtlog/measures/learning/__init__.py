"""Balls in their order: the skill curve, the test for moving up, the watch for slipping."""
