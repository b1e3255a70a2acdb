"""Which version of a round is kept, where book and sheet differ: by options, or asked."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from courtlog.cli.opening import has_terminal
from courtlog.coaching.game.round_versions import Keep, TwoVersions
from courtlog.errors import CourtlogError
from courtlog.plain_text import listed, many
from courtlog.reports.layout.versions_text import versions_text

_WORDS = ", ".join(Keep)
_LETTERS = {"b": Keep.BOOK, "s": Keep.SHEET, "2": Keep.BOTH} | {str(keep): keep for keep in Keep}


@dataclass(frozen=True, slots=True)
class KeptVersions:
    """What the options say: for every round, and for single ones by their numbers."""

    every: Keep | None
    single: Mapping[int, Keep]

    @classmethod
    def typed(cls, options: Sequence[str]) -> KeptVersions:
        """`both` is for every round, `2=sheet` for the second one. Raises CourtlogError."""
        every, single = None, {}
        for option in options:
            number, sign, word = option.rpartition("=")
            if word not in set(Keep) or (sign and not number.isdecimal()):
                raise CourtlogError(
                    f"{option!r} is not what --keep takes.",
                    f"Write one of {_WORDS}, or for one round 2=sheet.",
                )
            if sign:
                single[int(number)] = Keep(word)
            else:
                every = Keep(word)
        return cls(every, single)

    def answers(self, versions: Sequence[TwoVersions]) -> dict[TwoVersions, Keep]:
        """The version to keep of each round; shows and asks those that no option names.

        Raises CourtlogError where nobody can be asked, or nobody answers.
        """
        beyond = [number for number in self.single if not 1 <= number <= len(versions)]
        if beyond:
            raise CourtlogError(
                f"--keep names round {min(beyond)}, but {many(len(versions), 'round')}"
                f" {'differs' if len(versions) == 1 else 'differ'}.",
                "Nothing was written.",
            )
        answers = {}
        unasked = []
        for number, pair in enumerate(versions, 1):
            keep = self.single.get(number, self.every)
            if keep is None:
                can_ask = has_terminal()
                (sys.stdout if can_ask else sys.stderr).write(versions_text(number, pair))
                keep = _asked() if can_ask else None
            if keep is None:
                unasked.append(number)
            else:
                answers[pair] = keep
        if unasked:
            which = listed([str(number) for number in unasked])
            raise CourtlogError(
                f"Book and sheet differ in {many(len(unasked), 'round')} ({which});"
                " nothing was written.",
                f"--keep book, --keep sheet or --keep both decides all of them,"
                f" --keep {unasked[0]}=both one.",
            )
        return answers


def _asked() -> Keep:
    """What the coach keeps of the round that was just shown. Raises CourtlogError for nothing."""
    question = "Keep the book's (b), take the sheet's (s), or keep both as two rounds (2)? "
    while True:
        try:
            answer = input(question).strip().casefold()
        except EOFError:
            answer = ""
        if not answer:
            raise CourtlogError("Nothing was read in, and nothing was changed.")
        if answer in _LETTERS:
            return _LETTERS[answer]
