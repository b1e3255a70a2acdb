"""The first step into the program: Ctrl+C has an answer before anything else is loaded."""

from __future__ import annotations

from courtlog.cli.ctrl_c import leave_at_once


def main() -> None:
    """Run a command."""
    leave_at_once()
    from courtlog.cli.start import main

    main()
