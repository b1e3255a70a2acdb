"""What marks a file as a book, and the shape this courtlog knows."""

from __future__ import annotations

APPLICATION_ID = 0x43_54_4C_47
"""`CTLG`, written into the file's header: this is a book and nothing else."""

SCHEMA = 2
"""How many migrations this courtlog knows; a book with more is of a later one."""

DIGESTS = {
    1: "738c885118736c43706b0ebbbce621705a7ca9376503791956f7e7a41ad59c64",
    2: "4e9989d8a2136fd46e6fe1ba1c1eb6343bab80a4d9edbaaef59fc9586ae30223",
}
"""A short name of each version's whole schema, so that a book of ours is known at once.

A test makes them from the migrations. Where SQLite words the same schema otherwise, the names
differ and the objects themselves are compared (schema_check.py).
"""
