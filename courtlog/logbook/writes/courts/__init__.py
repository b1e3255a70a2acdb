"""Changes about the courts of one clinic."""
