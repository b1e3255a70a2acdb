"""Roster files: every mistake with the line it stands on, and text that is only text.

The rules of quotes and line breaks are those of RFC 4180; Python's csv reads them.
"""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.game.cards import PlayerCard
from courtlog.errors import LibraryError
from courtlog.library.roster_in import COLUMNS, MOST_BYTES, MOST_PLAYERS, read_roster

ALL = (
    "name,short,hand,backhand,level,goal,usual week,complaints,limit,age,contact\r\n"
    'Maren,Mar,left,two-handed,b,"a calm,\r\nlong finish",3 hours,elbow,150,minor,"home ""7"""\r\n'
)
CARD = PlayerCard(
    name="Maren",
    short="Mar",
    hand="left",
    backhand="two-handed",
    level="b",
    goal="a calm, long finish",
    usual_week="3 hours",
    complaints="elbow",
    limit=150,
    age="minor",
    contact='home "7"',
)


def mistakes(data: bytes, there: tuple[str, ...] = ()) -> list[str]:
    """`line: sentence` of everything that is wrong."""
    try:
        read_roster(data, "r.csv", there)
    except LibraryError as error:
        return [f"{problem.place}: {problem.sentence}" for problem in error.problems]
    return []


def names(text: str) -> list[str]:
    return [card.name for card in read_roster(text.encode(), "r.csv")]


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "byte order mark"])
def test_every_column_is_read(mark: bytes) -> None:
    assert read_roster(mark + ALL.encode(), "r.csv") == [CARD]


def test_columns_stand_in_any_order_and_any_case() -> None:
    (card,) = read_roster(b"Hand ,NAME\nleft,Tove\n", "r.csv")
    assert card == PlayerCard(name="Tove", hand="left")


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_spreadsheets_separate_in_three_ways(separator: str) -> None:
    text = f"name{separator}goal\nTove{separator}calm\n"
    assert read_roster(text.encode(), "r.csv") == [PlayerCard(name="Tove", goal="calm")]


def test_every_row_that_is_wrong_is_said_with_its_line() -> None:
    text = (
        "name,hand,limit\n"
        '"Ma\nren",both,x\n'
        "\n"
        ",left,\n"
        "Tove,left,1,2\n"
        'Ruben,,"\n12"\n'
        "ruben,,\n"
        "Ilse,,\n"
    )
    assert mistakes(text.encode(), ("ILSE",)) == [
        "2: hand is right or left, not 'both'.",
        "2: ball limit is a whole number from 1 to 2000, not 'x'.",
        "5: a name is needed.",
        "6: 4 values, and the first line names 3.",
        "9: ruben stands on line 7 already.",
        "10: Ilse is on the roster already.",
    ]


def test_what_is_wrong_with_the_first_line() -> None:
    known = ", ".join(COLUMNS)
    assert mistakes(b"") == ["1: the file is empty; its first line names the columns."]
    assert mistakes(b"\n\n") == ["1: the file is empty; its first line names the columns."]
    assert mistakes(b"name\n") == ["1: there is nobody under the first line."]
    assert mistakes(b"\nname,size,name\nA,,\n") == [
        "2: the column 'name' stands twice.",
        f"2: 'size' is no column; there are {known}.",
    ]
    assert mistakes(b"hand\nleft\n") == ["1: there is no column called 'name'."]


def test_what_is_no_roster_at_all() -> None:
    assert mistakes(b"name\nA\n\xff\n") == [
        "3: this line holds bytes that are not UTF-8; save the file as UTF-8."
    ]
    assert mistakes("name\nA\n".encode("utf-16")) != []
    assert mistakes(b"name\nA\nB\0\n") == ["3: this line is no text."]
    assert mistakes(b"name\n" + b"x" * MOST_BYTES) == ["1: the file is larger than 1 MB."]
    (open_quote,) = mistakes(b'name\nAda\n"Bo\nCy\n')
    assert open_quote.startswith("3: from here on this is no CSV")
    (long_cell,) = mistakes(b"name\n" + b"x" * 200_000)
    assert long_cell.startswith("2: from here on this is no CSV")
    many = "name\n" + "".join(f"P{n}\n" for n in range(MOST_PLAYERS + 1))
    assert mistakes(many.encode()) == [
        f"{MOST_PLAYERS + 2}: a roster has {MOST_PLAYERS} players at most."
    ]


def test_formulas_markup_and_escapes_are_text() -> None:
    wild = ["=1+1", "@cmd", "[red]x[/]", "\x1b[31mred", "../../x", "木村花", "מרן"]
    assert names("name\n" + "\n".join(wild) + "\n") == wild


CELLS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=8)


@given(
    st.binary(max_size=200)
    | st.lists(st.lists(CELLS, max_size=4), max_size=6).map(
        lambda rows: written([["name", "hand"], *rows])
    )
)
def test_any_bytes_give_cards_or_sentences(data: bytes) -> None:
    lines = data.count(b"\n") + data.count(b"\r") + 1
    for mistake in mistakes(data):
        assert 1 <= int(mistake.split(":")[0]) <= lines + 1


def written(rows: list[list[str]]) -> bytes:
    """The rows as Python's csv writes them."""
    text = io.StringIO(newline="")
    csv.writer(text).writerows(rows)
    return text.getvalue().encode()
