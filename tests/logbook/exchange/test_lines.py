"""A line of an exported file is what Python's csv module writes of the same row (RFC 4180)."""

from __future__ import annotations

import contextlib
import csv
import io
import sqlite3
import unicodedata
from datetime import UTC, datetime, timedelta
from itertools import cycle, product

from hypothesis import example, given
from hypothesis import strategies as st

from courtlog.logbook.schema.cells import GUARD, RISKY, add_functions, line_sql, read_sql, text_cell
from courtlog.logbook.schema.tables import LATEST_MOMENT, Column, Kind, Table
from tests.logbook.exchange.books import AWKWARD

UNSEEN = "".join(
    character
    for character in map(chr, range(0x110000))
    if unicodedata.category(character)[0] in "CMZ" or character in "\u115f\u1160\u2800\u3164\uffa0"
)
"""What a spreadsheet may drop before a formula: all that draws nothing by itself.

Categories and the default ignorable code points are those of the Unicode Character Database; the
five letters and symbols at the end are from memory.
"""

INTEGERS = st.integers(-(2**63), 2**63 - 1)
TEXTS = st.one_of(st.text(), st.text(f'{RISKY}a,"\r\n\0'), st.sampled_from(AWKWARD))
TEXTS |= st.builds(
    "".join,
    st.tuples(
        st.text(" \t\f\v\xa0\u2003\u200b\ufeff\u3164\u034f\x00", max_size=3),
        st.sampled_from(RISKY),
        st.text(),
    ),
)
VALUES = {
    Kind.INTEGER: INTEGERS,
    Kind.NUMBER: st.floats(allow_nan=False),
    Kind.STRING: TEXTS,
    Kind.DATE: st.dates().map(str),
    Kind.MOMENT: st.integers(0, LATEST_MOMENT),
    Kind.YES_NO: st.integers(0, 1),
}
COLUMNS = tuple(
    Column(f"{kind}_{required}", kind, required, None, None)
    for kind in VALUES
    for required in (True, False)
)
ROWS = st.tuples(
    *(
        VALUES[column.kind] if column.required else st.none() | VALUES[column.kind]
        for column in COLUMNS
    )
)


def cell(column: Column, value: object) -> object:
    """What is told of cells in the descriptor, said once more without SQL."""
    match column.kind, value:
        case Kind.MOMENT, int():
            moment = datetime(1970, 1, 1, tzinfo=UTC) + timedelta(milliseconds=value)
            return moment.isoformat(timespec="milliseconds").replace("+00:00", "Z")
        case Kind.STRING, "":
            return "" if column.required else GUARD
        case Kind.STRING, str() if value.startswith(tuple(RISKY)) or (
            value.lstrip(UNSEEN).startswith(tuple(RISKY))
        ):
            return GUARD + value
    return value


@given(ROWS)
@example((0, None, 0.1 + 0.2, 1e300, 'a,"b', "", "2026-05-12", None, 1778571000001, None, 1, None))
def test_a_line_is_what_the_csv_module_writes(row: tuple[object, ...]) -> None:
    wanted = io.StringIO()
    csv.writer(wanted, lineterminator="\r\n").writerow(map(cell, COLUMNS, row))
    with contextlib.closing(sqlite3.connect(":memory:")) as db:
        add_functions(db)
        names = dict(zip(COLUMNS, (f"v{n}" for n in range(len(COLUMNS))), strict=True))
        stored = ", ".join(f"?{n} AS v{n - 1}" for n in range(1, len(COLUMNS) + 1))
        told = line_sql(Table("row", COLUMNS, ()), names.__getitem__)
        ((got,),) = db.execute(f"SELECT {told} FROM (SELECT {stored})", row)
    assert f"{got}\r\n" == wanted.getvalue()


FORMULAS = ("=1+1", "+1", "-1", "@SUM(A1)", "＝1+1")


def test_no_formula_hides_behind_what_is_not_seen(long_run: bool) -> None:
    """Each character behind which nothing is seen, with each formula in turn, or with all."""
    unseen = [one for one in UNSEEN if unicodedata.category(one) != "Cs"]
    pairs = product(unseen, FORMULAS) if long_run else zip(unseen, cycle(FORMULAS), strict=False)
    texts = [one + formula for one, formula in pairs]
    bare = [text for text in texts if not text_cell(text).strip('"').startswith(GUARD)]
    assert bare == []


def test_a_guarded_text_comes_back_as_it_was() -> None:
    column = Column("note", Kind.STRING, True, None, None)
    with contextlib.closing(sqlite3.connect(":memory:")) as db:
        for unseen in " \t\r\n\f\v\x00\xa0\u2003\u2028\u200b\u200f\ufeff\u3164\u034f":
            text = f"{unseen}=1+1"
            ((cell,),) = csv.reader(io.StringIO(text_cell(text), newline=""))
            assert cell == GUARD + text
            assert db.execute(f"SELECT {read_sql(column, 1)}", [cell]).fetchone() == (text,)
