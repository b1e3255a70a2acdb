"""Writes the sample clinics afresh: `python -m tests.samples`."""

from __future__ import annotations

from tests.samples.generator import FOLDER, sheets


def main() -> None:
    """Every sample file, as bytes: the line ends are the same on every system."""
    for file, text in sheets().items():
        (FOLDER / file).write_bytes(text.encode("utf-8"))


if __name__ == "__main__":
    main()
