"""The books of a clinic's courts: written in the morning, told to one another over a stick."""
