"""Names that no file may have, since a system keeps them for something else."""

from __future__ import annotations

DEVICES = frozenset(
    {"con", "prn", "aux", "nul"}
    | {f"{port}{number}" for port in ("com", "lpt") for number in "0123456789¹²³"}
)
"""Names that Windows keeps for devices, whatever their case and ending.

learn.microsoft.com, "Naming Files, Paths, and Namespaces"; 0 is kept free as well.
"""
