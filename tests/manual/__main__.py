"""Draw the manual's tables of keys, commands and settings again."""

from __future__ import annotations

from tests.manual.drawn import DRAWN, PAGES, with_drawn_parts

for name in DRAWN:
    path = PAGES / f"{name}.md"
    path.write_text(with_drawn_parts(name, path.read_text(encoding="utf-8")), encoding="utf-8")
