"""Keys as a hand in a hurry would press them, and what each means by the design."""

from __future__ import annotations

import random

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.on_court.feeding import (
    CleanBall,
    Meaning,
    Rate,
    TakeBall,
    ToughLast,
    ToughOpen,
)
from courtlog.courtside.desk.keymap import PADS

BACKSPACE = b"\x7f"

MEANINGS: dict[bytes, Meaning | None] = {
    PADS["right"].key_of(row, grade).encode(): Rate(row, grade)
    for row in range(3)
    for grade in Grade
} | {
    b" ": CleanBall(),
    b"\r": TakeBall(),
    b"t": ToughOpen(),
    b"=": ToughLast(),
    BACKSPACE: None,
}
"""What each key means by the design, written down here once more; None takes the last one back."""


def mixed_keys(count: int, seed: int) -> list[bytes]:
    """Mostly grades, some of every other key, and now and then a run of Backspace."""
    dice = random.Random(seed)
    keys: list[bytes] = []
    while len(keys) < count:
        drawn = dice.random()
        if drawn < 0.02:
            keys += [BACKSPACE] * dice.randint(2, 9)
        elif drawn < 0.75:
            keys.append(dice.choice("uiojklm,.").encode())
        else:
            keys.append(dice.choice((b" ", b" ", b"\r", b"t", b"=", BACKSPACE)))
    return keys[:count]
