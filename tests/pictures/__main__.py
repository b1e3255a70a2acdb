"""Draws the README's pictures again: `python -m tests.pictures`."""

from __future__ import annotations

from tests.pictures.scenes import FOLDER, SCENES, picture


def main() -> None:
    """Every picture, as bytes: the line ends are the same on every system."""
    FOLDER.mkdir(exist_ok=True)
    for name in SCENES:
        (FOLDER / f"{name}.svg").write_bytes(picture(name).encode("utf-8"))


if __name__ == "__main__":
    main()
