"""What marks a file as a book, and the shape this courtlog knows."""

from __future__ import annotations

APPLICATION_ID = 0x43_54_4C_47
"""`CTLG`, written into the file's header: this is a book and nothing else."""

SCHEMA = 2
"""How many migrations this courtlog knows; a book with more is of a later one."""
