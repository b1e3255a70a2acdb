"""A roster file in: comma-separated text to player cards, or every mistake with its line number.

    name,short,hand,backhand,level,goal,usual week,complaints,limit,age,contact,filming
    Maren,,left,two-handed,plays on Sundays,a calm finish,3 hours,elbow in spring,150,adult,,yes

The first line names the columns, in any order; only `name` is needed.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from courtlog.coaching.game.cards import FIELDS, PlayerCard, card_of
from courtlog.errors import LibraryError, Problem
from courtlog.names import folded_name
from courtlog.plain_text import many

MOST_BYTES = 1_000_000
MOST_PLAYERS = 200

COLUMNS = {field.key.replace("_", " "): field.key for field in FIELDS}
"""The names of columns, which may stand in any order; only `name` is needed."""

SEPARATORS = ",;\t"

LONGEST_CELL = 131_072
"""Most characters of a cell."""


def read_roster(data: bytes, file: str, there: Iterable[str] = ()) -> list[PlayerCard]:
    """The cards of a roster file; a name that is `there` already is a mistake.

    Raises LibraryError with every mistake of the file.
    """
    reader = _Reader(file, frozenset(map(folded_name, there)))
    cards = reader.read(data)
    if reader.problems:
        raise LibraryError(
            f"The roster has {many(len(reader.problems), 'mistake')}; nothing was written.",
            reader.problems,
            "Mend the file and read it in again.",
        )
    return cards


@dataclass(slots=True)
class _Reader:
    """Collects all mistakes instead of stopping at the first."""

    file: str
    there: frozenset[str]
    problems: list[Problem] = field(default_factory=list)

    def read(self, data: bytes) -> list[PlayerCard]:
        text = self._text(data)
        if text is None:
            return []
        rows = self._rows(text)
        head = next(rows, None)
        if head is None:
            if not self.problems:
                self._wrong(1, "the file is empty; its first line names the columns")
            return []
        columns = self._columns(*head)
        return [] if self.problems else self._cards(columns, rows)

    def _wrong(self, line: int, sentence: str) -> None:
        self.problems.append(Problem(self.file, str(line), f"{sentence}."))

    def _text(self, data: bytes) -> str | None:
        if len(data) > MOST_BYTES:
            self._wrong(1, f"the file is larger than {MOST_BYTES // 1_000_000} MB")
            return None
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            line = data[: error.start].count(b"\n") + 1
            self._wrong(line, "this line holds bytes that are not UTF-8; save the file as UTF-8")
            return None
        if "\0" in text:
            self._wrong(text[: text.index("\0")].count("\n") + 1, "this line is no text")
            return None
        return text

    def _rows(self, text: str) -> Iterator[tuple[int, list[str]]]:
        """Every row that holds something, and the line it begins on."""
        head = text.lstrip("\r\n").split("\n", 1)[0]
        separator = max(SEPARATORS, key=head.count)
        csv.field_size_limit(
            LONGEST_CELL
        )  # csv has one limit for the whole program, and other code may raise it
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
        line = 1
        try:
            for cells in reader:
                if any(map(str.strip, cells)):
                    yield line, cells
                line = reader.line_num + 1
        except csv.Error as error:
            self._wrong(line, f"from here on this is no CSV ({error})")

    def _columns(self, line: int, cells: list[str]) -> list[str]:
        names = [folded_name(cell) for cell in cells]
        for name in dict.fromkeys(names):
            if name not in COLUMNS:
                self._wrong(line, f"{name!r} is no column; there are {', '.join(COLUMNS)}")
            elif names.count(name) > 1:
                self._wrong(line, f"the column {name!r} stands twice")
        if "name" not in names:
            self._wrong(line, "there is no column called 'name'")
        return names

    def _cards(self, columns: list[str], rows: Iterator[tuple[int, list[str]]]) -> list[PlayerCard]:
        cards: list[PlayerCard] = []
        first: dict[str, int] = {}
        for line, cells in rows:
            if len(cards) == MOST_PLAYERS:
                self._wrong(line, f"a roster has {MOST_PLAYERS} players at most")
                break
            if len(cells) > len(columns):
                self._wrong(line, f"{len(cells)} values, and the first line names {len(columns)}")
                continue
            try:
                card = card_of({COLUMNS[n]: cell for n, cell in zip(columns, cells, strict=False)})
            except ValueError as error:
                for sentence in error.args:
                    self._wrong(line, sentence)
                continue
            name = folded_name(card.name)
            if first.setdefault(name, line) != line:
                self._wrong(line, f"{card.name} stands on line {first[name]} already")
            elif name in self.there:
                self._wrong(line, f"{card.name} is on the roster already")
            cards.append(card)
        if not cards and not self.problems:
            self._wrong(1, "there is nobody under the first line")
        return cards
