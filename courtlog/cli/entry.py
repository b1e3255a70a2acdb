"""The entry point: Ctrl+C is handled before anything slow is loaded."""

from __future__ import annotations

# The part of `signal` that needs no loading; the rest takes milliseconds.
import _signal  # type: ignore[import-not-found]
import os


def main() -> None:
    """Run a command."""
    if _signal.getsignal(_signal.SIGINT) is _signal.default_int_handler:
        _signal.signal(_signal.SIGINT, lambda *_: os._exit(130))
    from courtlog.cli.start import main  # after Ctrl+C has its answer

    main()
