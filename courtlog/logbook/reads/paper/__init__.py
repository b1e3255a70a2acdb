"""Look-ups for what comes back on paper."""
