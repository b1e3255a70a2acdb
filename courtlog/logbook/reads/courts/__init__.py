"""Look-ups of the courts of one clinic."""
