"""Courtlog: a court log for tennis coaches. Holds its version and nothing else."""

__version__ = "0.1.0"
