"""Shares and how they compare: intervals, like for like, trends, association, agreement."""
