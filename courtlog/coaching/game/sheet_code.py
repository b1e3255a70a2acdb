"""The short code of a paper sheet: what it is, and where it belongs when it is typed in.

`K7D-3MX-2P4`: nine signs, the last one a check. The check is the pure system of ISO/IEC 7064 with
modulus 29 and radix 2. One wrong sign, or two signs that changed places, is always told.

A code holds names and no row ids: books that were begun apart have other ids, but the same names.
Clinic and player are a digest of both, so that a code found on the fence names nobody.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from hashlib import sha256

from courtlog.coaching.game.rounds import Purpose
from courtlog.errors import CourtlogError
from courtlog.names import folded_name

SIGNS = "0123456789ACDEFGHJKMNPQRTVWXY"
"""29 signs, a prime number, as the check asks for. None of them looks like another one."""

LOOK_ALIKES = {"O": "0", "I": "1", "L": "1", "S": "5", "Z": "2", "B": "8", "U": "V"}
"""Letters that no code has; whoever reads one has seen the sign after it."""

LENGTH = 9
GROUP = 3
_RADIX = 2
_BASE = len(SIGNS)

_FIRST = date(2020, 1, 1)
_DATE_SIGNS = 3
LAST = _FIRST + timedelta(days=_BASE**_DATE_SIGNS - 1)
"""The last date that a code can hold: 9 October 2086."""

_OWNER_SIGNS = 3
_OWNERS = _BASE**_OWNER_SIGNS


class SheetKind(StrEnum):
    """What stands on a sheet."""

    COURT = "court sheet"
    HOME = "home yardstick"
    CARD = "cue card"
    FORM = "form"


MOST: dict[SheetKind, int] = {
    SheetKind.COURT: 22,
    SheetKind.HOME: 4,
    SheetKind.CARD: 1,
    SheetKind.FORM: 1,
}
"""Sheets of a kind that one player can have on a date: together they are the first sign."""


class SheetCodeError(CourtlogError):
    """What was typed is no code, or one sign of it is wrong."""


@dataclass(frozen=True, slots=True)
class SheetCode:
    """A sheet's kind, date, clinic and player, its number of that day, and what it was printed for.

    `owner` stands for clinic and player, `task` for drill, purpose, balls and cues (0: blank).
    """

    kind: SheetKind
    on: date
    owner: int
    number: int = 1
    task: int = 0

    @classmethod
    def of(
        cls,
        kind: SheetKind,
        on: date,
        clinic: str,
        player: str = "",
        number: int = 1,
        task: str = "",
    ) -> SheetCode:
        """The code of a sheet; no player: it is for the whole clinic. Raises CourtlogError."""
        if not _FIRST <= on <= LAST:
            raise CourtlogError(
                f"A sheet's code cannot hold the date {on.isoformat()}.",
                f"Name a date from {_FIRST.year} to {LAST.year}.",
            )
        if not 1 <= number <= MOST[kind]:
            raise CourtlogError(
                f"A player has at most {MOST[kind]} sheets of this kind a day.",
                "Write further rounds on a blank sheet.",
            )
        return cls(kind, on, _owner(clinic, player), number, _task(task))

    @classmethod
    def from_text(cls, text: str) -> SheetCode:
        """The code as typed, in any case, with blanks and hyphens or without.

        Raises SheetCodeError.
        """
        values = list(_values(text))
        if _weighed(values) != 1:
            raise SheetCodeError(
                f"{text.strip()!r} is no sheet's code: a sign is wrong, or two changed places.",
                "Read it once more from the top of the sheet.",
            )
        first, rest = values[0], values[1:-1]
        days, rest = _number(rest[:_DATE_SIGNS]), rest[_DATE_SIGNS:]
        for kind, most in MOST.items():
            if first < most:
                return cls(kind, _FIRST + timedelta(days), _number(rest[:-1]), first + 1, rest[-1])
            first -= most
        raise SheetCodeError(
            f"{text.strip()!r} is a code of a later courtlog.", "Update courtlog to type it in."
        )

    def belongs_to(self, clinic: str, player: str = "") -> bool:
        """Whether the sheet was printed for this player of this clinic, by their names."""
        return self.owner == _owner(clinic, player)

    def printed_for(self, task: str) -> bool:
        """Whether the sheet was printed for this task (`round_task`); False of a blank sheet."""
        return bool(task) and self.task == _task(task)

    @property
    def blank(self) -> bool:
        """Whether the sheet was printed for no drill, as a spare round is."""
        return self.task == 0

    def __str__(self) -> str:
        kinds = list(MOST)
        first = sum(MOST[kind] for kind in kinds[: kinds.index(self.kind)]) + self.number - 1
        values = [
            first,
            *_digits((self.on - _FIRST).days, _DATE_SIGNS),
            *_digits(self.owner, _OWNER_SIGNS),
            self.task,
        ]
        # The check has weight 1, so that it is what is missing for a rest of 1.
        check = (1 - _weighed([*values, 0])) % _BASE
        signs = "".join(SIGNS[value] for value in (*values, check))
        return "-".join(signs[start : start + GROUP] for start in range(0, LENGTH, GROUP))


def round_task(drill: str, purpose: Purpose, balls: int, cues: Sequence[str]) -> str:
    """What a round on paper was printed for: full name of the drill, and keys of the cues."""
    return " ".join((drill, purpose, str(balls), *cues))


def _values(text: str) -> Iterable[int]:
    signs = re.sub(r"[\s\-\u2010-\u2015]", "", text).upper()
    signs = "".join(LOOK_ALIKES.get(sign, sign) for sign in signs)
    strange = next((sign for sign in signs if sign not in SIGNS), None)
    if strange is not None:
        raise SheetCodeError(
            f"{strange!r} stands in no sheet's code.", "A code has letters and digits only."
        )
    if len(signs) != LENGTH:
        raise SheetCodeError(
            f"A sheet's code has {LENGTH} signs, and {len(signs)} were typed.",
            "Read it once more from the top of the sheet.",
        )
    return map(SIGNS.index, signs)


def _weighed(values: Sequence[int]) -> int:
    """The sum that the check makes 1: each value doubled once for every sign behind it."""
    total = 0
    for value in values:
        total = (total * _RADIX + value) % _BASE
    return total


def _digits(number: int, signs: int) -> list[int]:
    digits: list[int] = []
    for _ in range(signs):
        number, digit = divmod(number, _BASE)
        digits.insert(0, digit)
    return digits


def _number(digits: Iterable[int]) -> int:
    number = 0
    for digit in digits:
        number = number * _BASE + digit
    return number


def _owner(clinic: str, player: str) -> int:
    return _digest("\n".join(map(folded_name, (clinic, player))), _OWNERS)


def _task(task: str) -> int:
    """0 of nothing, else 1 to 28: an edited plan is noticed 27 times in 28."""
    return _digest(task, _BASE - 1) + 1 if task else 0


def _digest(text: str, below: int) -> int:
    # A name may hold half a character (a lone surrogate); it is a name all the same.
    return int.from_bytes(sha256(text.encode(errors="surrogatepass")).digest(), "big") % below
