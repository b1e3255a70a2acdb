"""The file itself: opening, locking, copying, backups, and what can be saved of a damaged one."""
