"""Writers for what comes back on paper and is no round at the court."""
