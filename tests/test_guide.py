"""The contributors' guide is true: its tours are walked and its example of joining is played."""

from __future__ import annotations

import json
import re
import shlex
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from types import FrameType

from textual.pilot import Pilot

import courtlog
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.app.terminal_reader import TerminalReader
from courtlog.logbook.schema import row_versions
from courtlog.logbook.schema.row_versions import version_columns, versioned_tables
from tests.cli.program import Home, home_with
from tests.court import desk_in
from tests.courtside.screen import on_court
from tests.manual.prose import length, sentences

PACKAGE = Path(courtlog.__file__).parent
PAGES = {
    "DEVELOPERS.md": PACKAGE.parent / "DEVELOPERS.md",
    "bench": PACKAGE.parent / "tests/bench/FIGURES.md",
    "faults": PACKAGE.parent / "tests/faults/FIGURES.md",
}
TEXT = PAGES["DEVELOPERS.md"].read_text(encoding="utf-8")
MOST_LINES = 360
TWO_DAYS = """
clinic Harbour Week
day 2026-05-11
player Maren   drill forehand/day-one-feed   purpose yardstick   cues turn spacing finish
    222 211 220 002 111
day 2026-05-15
player Maren   drill forehand/day-one-feed   purpose yardstick   cues turn spacing finish
    222 221 222 202 121
"""
MOST_WORDS = 25
Calls = list[tuple[str, str]]
"""Files below `courtlog/`, and the qualified names of functions in them."""


def part_of(heading: str) -> str:
    """What stands below a heading or a line in bold, up to the next one."""
    below = TEXT.partition(f"{heading}")[2]
    return re.split(r"^(?:#+ |\*\*)", below, maxsplit=1, flags=re.MULTILINE)[0]


def test_it_is_read_in_one_sitting() -> None:
    assert len(TEXT.splitlines()) <= MOST_LINES


def test_no_sentence_is_too_long() -> None:
    found = [
        f"{name}: {length(sentence)} words: {sentence}"
        for name, page in PAGES.items()
        for sentence in sentences(page.read_text(encoding="utf-8"))
        if length(sentence) > MOST_WORDS
    ]
    assert not found, "\n".join(found)


def test_every_room_is_on_the_map() -> None:
    rooms = {
        folder.name
        for depth in ("*", "*/*")
        for folder in PACKAGE.glob(depth)
        if any(folder.glob("*.py")) or any(folder.glob("*.sql"))
    }
    assert len(rooms) > 40
    assert {room for room in rooms if not re.search(rf"\b{room}/", part_of("## Map"))} == set()


def stops(tour: str) -> Calls:
    """Every function of a tour in its order, with its file."""
    beside = re.findall(r"`([\w/]+\.py)` \((`[\w.]+`(?:, `[\w.]+`)*)\)", part_of(tour))
    return [(file, name) for file, names in beside for name in re.findall(r"[\w.]+", names)]


@contextmanager
def noted(calls: Calls) -> Iterator[None]:
    """Note every call of a function of the program, by file and qualified name."""

    def note(frame: FrameType, event: str, _: object) -> None:
        code = frame.f_code
        if event == "call" and code.co_filename.startswith(str(PACKAGE)):
            calls.append((Path(code.co_filename).relative_to(PACKAGE).as_posix(), code.co_qualname))

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        yield
    finally:
        sys.setprofile(before)


def missed(tour: Calls, calls: Calls) -> Calls:
    """The first stop that the calls do not come to after those before it, and all that follow."""
    later = iter(calls)
    for index, stop in enumerate(tour):
        if stop not in later:
            return tour[index:]
    return []


def test_a_key_goes_the_way_of_the_tour(tmp_path: Path) -> None:
    calls: Calls = []

    async def press(pilot: Pilot[None], app: CourtlogApp) -> None:
        with noted(calls):
            (key,) = TerminalReader(lambda: (80, 24)).read(b"o")
            app.take(key)
            await app.keys.emptied()
            await pilot.pause()

    on_court(desk_in(tmp_path), ("l",), then=press)
    assert len(stops("**One key's way.**")) > 8
    assert missed(stops("**One key's way.**"), calls) == []


def test_an_answer_goes_the_way_of_the_tour(tmp_path: Path) -> None:
    (tmp_path / "days.txt").write_text(TWO_DAYS, encoding="utf-8")
    home, calls = home_with(tmp_path, tmp_path / "days.txt"), Calls()
    with noted(calls):
        assert home.run("player", "maren").lines
    assert len(stops("**One answer's way.**")) > 9
    assert missed(stops("**One answer's way.**"), calls) == []


def in_versions(book: Path, what: str) -> str:
    """`1 left, 1 right; was 0 empty`: the versions of `Maren's hand in player`, newest first."""
    who, column, name = re.findall(r"(\w+)'s (\w+) in (\w+)", what)[0]
    with closing(sqlite3.connect(book)) as db:
        (table,) = (table for table in versioned_tables(db) if table.name == name)
        place = version_columns(table).index(column)
        (person,) = db.execute("SELECT id FROM player WHERE name = ?", [who]).fetchone()
        for (of, key), history in row_versions.load_histories(db).items():
            texts = [json.loads(text) for _, text in history.current | history.former]
            if of == name and any(person in [*json.loads(key), *text] for text in texts):
                now, was = (
                    ", ".join(
                        f"{revision} {json.loads(text)[place] or 'empty'}"
                        for revision, text in sorted(versions, reverse=True)
                    )
                    for versions in (history.current, history.former)
                )
                return "; was ".join(filter(None, (now, was)))
    return "none"


def typed_in(block: str) -> Iterator[tuple[str, list[str]]]:
    """Each line behind a `$`, and the lines that answer it."""
    for typed, answer in re.findall(r"^    \$ (.*)\n((?: {4}(?!\$).*\n)*)", block, re.MULTILINE):
        yield typed, [line[4:] for line in answer.splitlines()]


def cells(table: str) -> list[list[str]]:
    """The cells of a Markdown table, row by row, without the line below the first."""
    rows = [[cell.strip(" `") for cell in row.split("|")[1:-1]] for row in table.splitlines()]
    return [rows[0], *rows[2:]]


def test_the_example_of_joining_is_what_the_program_does(tmp_path: Path) -> None:
    """What stands in the guide is typed and compared: commands, answers, and row versions."""
    home = Home(tmp_path)
    blocks = re.findall(r"(?:^(?: {4}|\|).*\n)+", part_of("### Joining, by one"), re.MULTILINE)
    assert len(blocks) > 5
    for block in blocks:
        if block.startswith("|"):
            (_, *names), *rows = cells(block)
            for what, *told in rows:
                assert [in_versions(tmp_path / name, what) for name in names] == told, what
        for typed, told in typed_in(block):
            program, *words = shlex.split(typed)
            if program == "cat":
                (tmp_path / words[0]).write_text("\n".join(told) + "\n", encoding="utf-8")
                continue
            for said, line in zip(home.run(*words).lines, told, strict=True):
                assert said == line or said.startswith(line.removesuffix(" ...") + " "), typed
