"""What can honestly be computed from rated balls: numbers in, small frozen results out.

Knows no player, no disk and no screen. Import the module you need; this file imports nothing.
"""
