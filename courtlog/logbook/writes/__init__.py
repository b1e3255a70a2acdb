"""The only doors by which something is written; each entry is one transaction."""
