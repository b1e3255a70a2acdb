"""One thing that is said, at three depths; pages show the first, and the others on request."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Statement:
    """The sentence for whoever reads, the reason for whoever asks why, the figures for who doubts.

    `sentence` holds one or two sentences of at most 20 words, with counts and without brackets.
    """

    sentence: str
    reason: str = ""
    figures: str = ""
    short: str = ""
    """The sentence for one line of a table, without capital and full stop."""

    def __bool__(self) -> bool:
        return bool(self.sentence)


SILENCE = Statement("")
"""Where nothing is to be said."""


@dataclass(frozen=True, slots=True)
class Depth:
    """What is shown beside the sentence."""

    why: bool = False
    figures: bool = False

    def below(self, statement: Statement) -> Iterator[str]:
        """What is shown below the sentence: reason and figures, as far as asked for and there."""
        if self.why and statement.reason:
            yield statement.reason
        if self.figures and statement.figures:
            yield statement.figures


SENTENCE_ONLY = Depth()
EVERYTHING = Depth(why=True, figures=True)
