"""What pages say where they are about a minor: a word at the name, and the usual caution."""

from __future__ import annotations

MARK = "minor"

ON_A_DAY = (
    "Minors are on this page: show and keep it only as your local rules on minors' data allow."
)
ON_A_SHEET = (
    "This sheet is about a minor: for the player and a parent or guardian only, and kept as your"
    " local rules on minors' data ask."
)
