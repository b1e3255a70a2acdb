"""The only places where something is written; each entry is one transaction."""
