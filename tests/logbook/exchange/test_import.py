"""The exported folder comes back as the same book, or line by line what is wrong with it."""

from __future__ import annotations

import contextlib
import hashlib
import itertools
import json
import os
import re
import sqlite3
import sys
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import settings as asked
from hypothesis import strategies as st

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.clinic_record import ClinicRecord
from courtlog.errors import BookError, CourtlogError, LibraryError
from courtlog.logbook.exchange.export import export
from courtlog.logbook.exchange.export_choice import ExportOptions
from courtlog.logbook.exchange.import_folder import import_folder, is_empty
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.soundness import faults
from courtlog.logbook.schema.cells import iso_moment, read_sql
from courtlog.logbook.schema.tables import Column, Kind, tables
from courtlog.logbook.writes import ball_repairs
from tests.court import START
from tests.doses import dose
from tests.library.clinics import clinics
from tests.library.shelf import shipped
from tests.logbook.exchange.books import awkward_book, content, counts, empty_book, full_book
from tests.measures.steady import steady

ALL = ExportOptions(with_minors=True)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An exported book with a row in every table; never changed."""
    home = tmp_path_factory.mktemp("exported")
    export(full_book(home / "b"), home / "out", ALL, START)
    return home / "out"


@contextlib.contextmanager
def copied(folder: Path) -> Iterator[Path]:
    """A copy that may be spoilt, with room for a book beside it."""
    with tempfile.TemporaryDirectory() as scratch:
        (Path(scratch) / "out").mkdir()
        for file in folder.iterdir():
            (Path(scratch) / "out" / file.name).write_bytes(file.read_bytes())
        yield Path(scratch) / "out"


def changed(file: Path, old: str, new: str) -> None:
    text = file.read_bytes().decode()
    assert old in text, text
    with file.open("w", encoding="utf-8", newline="") as to:
        to.write(text.replace(old, new, 1))


def looked_at(book: Book) -> None:
    """Every look-up of the court and of the pages works on it."""
    for clinic in lookups.clinics(book):
        day_lookups.record(book, clinic)
    for (round_id,) in book.db.execute("SELECT id FROM round").fetchall():
        lookups.live_round(book, round_id)
    lookups.bookmark(book)


@pytest.mark.parametrize(
    ("change", "sound"),
    [({"tough": 5}, True), ({"tough": 6}, False), ({"balls": 0}, False), ({"wind": 1}, False)],
)
def test_a_card_in_the_book_holds_what_a_drill_may(
    tmp_path: Path, change: dict[str, int], sound: bool
) -> None:
    book = full_book(tmp_path / "b")
    row, text = book.db.execute("SELECT id, card FROM drill_used").fetchone()
    card = json.loads(text)
    card["drill"] |= {"balls": 10} | change
    text = json.dumps(card)
    digest = hashlib.sha256(text.encode()).hexdigest()
    book.db.execute("UPDATE drill_used SET card = ?, digest = ? WHERE id = ?", [text, digest, row])
    found = [fault.sentence for fault in faults(book.db, tables(book.db))]
    assert found == ([] if sound else ["the card is no drill."])


@pytest.mark.parametrize("make", [full_book, awkward_book])
def test_a_book_comes_back_equal(tmp_path: Path, make: object) -> None:
    assert callable(make)
    book = make(tmp_path / "b")
    export(book, tmp_path / "out", ALL, START)
    again = empty_book(tmp_path)
    import_folder(again, tmp_path / "out")
    assert content(again.db) == content(book.db)
    assert counts(again.db) == counts(book.db)
    assert tallies.proof(again.db) == []


@given(clinics())
@asked(steady, max_examples=dose(6, 15))
def test_any_clinic_comes_back_equal(clinic: ClinicRecord) -> None:
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        book, again = empty_book(folder, "book"), empty_book(folder, "again")
        put_in(book, clinic, shipped(), START)
        assert list(faults(book.db, tables(book.db))) == []
        export(book, folder / "out", ALL, START)
        import_folder(again, folder / "out")
        assert content(again.db) == content(book.db)
        book.close()
        again.close()


def test_a_part_of_a_book_comes_in_too(tmp_path: Path) -> None:
    export(full_book(tmp_path / "b"), tmp_path / "out", ExportOptions(anonymous=True), START)
    again = empty_book(tmp_path)
    assert import_folder(again, tmp_path / "out").clinics == 1
    looked_at(again)


@pytest.mark.parametrize(
    "later",
    [
        ("main_cue",),
        ("film", "moved_hit", "filming_consent", "film_court"),
        ("blind_page", "blind_ball", "blind_sitting"),
        ("home_yardstick",),
        ("sheet_round",),
        ("player_court",),
        ("film_court",),
    ],
    ids=["main cue", "films", "blind pages", "at home", "sheets", "courts", "film courts"],
)
def test_an_export_from_before_a_table_comes_in_as_it_did(
    tmp_path: Path, folder: Path, later: tuple[str, ...]
) -> None:
    with copied(folder) as out:
        for name in later:
            (out / f"{name}.csv").unlink()
        descriptor = json.loads((out / "datapackage.json").read_text())
        descriptor["resources"] = [r for r in descriptor["resources"] if r["name"] not in later]
        (out / "datapackage.json").write_text(json.dumps(descriptor))
        today, older = empty_book(tmp_path, "today"), empty_book(tmp_path, "older")
        import_folder(today, folder)
        import_folder(older, out)
    assert all(content(today.db).pop(name) != [] for name in later)
    assert content(older.db) == content(today.db) | {name: [] for name in later}
    looked_at(older)


def test_what_was_put_right_and_who_is_who_come_in_without_names_too(tmp_path: Path) -> None:
    book = full_book(tmp_path / "b")
    (row,) = book.db.execute("SELECT min(id) FROM round").fetchone()
    ball_repairs.strike_ball(book, row, 1, "Ines", START)
    book.db.execute("INSERT INTO matched VALUES ('player', 1, 2, 0)")
    book.db.commit()
    export(book, tmp_path / "out", ExportOptions(anonymous=True), START)
    again = empty_book(tmp_path)
    import_folder(again, tmp_path / "out")
    looked_at(again)
    assert again.db.execute("SELECT kind, who FROM amendment WHERE kind = 'strike'").fetchall() == [
        ("strike", "")
    ]
    assert again.db.execute("SELECT count(*) FROM amended").fetchone() > (0,)


def test_a_book_with_content_is_refused(tmp_path: Path, folder: Path) -> None:
    book = full_book(tmp_path / "b")
    before = content(book.db)
    with pytest.raises(BookError, match="has content already"):
        import_folder(book, folder)
    assert content(book.db) == before


def test_what_a_spreadsheet_does_to_times_and_the_first_bytes_is_understood(
    tmp_path: Path, folder: Path
) -> None:
    with copied(folder) as out:
        changed(out / "heat.csv", "id,day", "\ufeffid,day")
        changed(out / "heat.csv", "2026-05-12T07:30:00.000Z", "2026-05-12 09:30:00+02:00")
        book = empty_book(tmp_path)
        import_folder(book, out)
        assert book.db.execute("SELECT at FROM heat").fetchall() == [(START,)]


@pytest.mark.parametrize(
    ("file", "old", "new", "sentence"),
    [
        ("heat.csv", "2026-05-12T", "2026-05-32T", r"heat.csv:2: at is no time"),
        ("main_cue.csv", "forehand,turn", "forehand,t n", r"main_cue.csv:2: 't n' is no key of a"),
        ("main_cue.csv", "forehand,turn", "forehand,", r"main_cue.csv:2: .*cue <> ''"),
        ("heat.csv", "2026-05-12T", "2026-02-31T", r"heat.csv:2: at is no time"),
        ("heat.csv", "2026-05-12T", "1912-05-12T", r"heat.csv:2: at is not a time from 1970"),
        ("heat.csv", "31.5", "hot", r"heat.csv:2: celsius is no number"),
        ("heat.csv", "60.0", "101", r"heat.csv:2: .*humidity BETWEEN 0 AND 100"),
        ("heat.csv", "1,", "1,1,", r"heat.csv:2: the row has 7 cells, not 6"),
        ("heat.csv", "wbgt", "temperature", r"heat.csv:1: 'temperature' is no column of heat"),
        ("heat.csv", "id,", "", r"heat.csv:1: the column id is missing"),
        ("heat.csv", "\r\n1", '\r\n1"', r"heat.csv:2: "),
        ("day.csv", "2026-05-12", "2026-02-31", r"day.csv:2: date is no date"),
        ("day.csv", "2026-05-12", "", r"day.csv:2: date is empty"),
        ("clinic.csv", "Europe/Lisbon", "Europe/Nowhere", r"clinic.csv:2: .* is no time zone"),
        ("player.csv", "Maren,", "Maren,upper", r"player.csv:2: .*hand"),
        ("note.csv", "too slow", "too\r\nslow", r"note.csv:2: the row has 4 cells, not 5"),
        ("drill_used.csv", "racquet", "racket", r"drill_used.csv:2: "),
        ("check_in.csv", "Z,\r\n", "Z,limp\r\n", r"check_in.csv:2: signs are .*, not 'limp'"),
        ("journal.csv", "'---?", "'----?", r"journal.csv:2: the line speaks of no ball"),
        ("journal.csv", "'---?", "mañana", r"journal.csv:2: the line speaks of no ball"),
        ("book.csv", "1,", "2,", r"book.csv:2: "),
    ],
)
def test_a_mistake_is_named_by_its_line_and_nothing_is_written(
    tmp_path: Path, folder: Path, file: str, old: str, new: str, sentence: str
) -> None:
    with copied(folder) as out:
        changed(out / file, old, new)
        book = empty_book(tmp_path)
        with pytest.raises(LibraryError, match="nothing was written") as refused:
            import_folder(book, out)
        told = "\n".join(map(str, refused.value.problems))
        assert re.search(sentence, told), told
        assert is_empty(book)


def test_a_cell_that_slipped_into_the_line_before_is_a_mistake_of_both(
    tmp_path: Path, folder: Path
) -> None:
    with copied(folder) as out:
        head, one, two, *rest = (out / "rating.csv").read_text().splitlines()
        slipped = [head, f"{one},{two.split(',')[0]}", two.partition(",")[2], *rest]
        (out / "rating.csv").write_text("\n".join(slipped))
        with pytest.raises(LibraryError) as refused:
            import_folder(empty_book(tmp_path), out)
        told = [(problem.place, problem.sentence) for problem in refused.value.problems]
        assert told[:2] == [
            ("2", "the row has 4 cells, not 3."),
            ("3", "the row has 2 cells, not 3."),
        ]


def test_every_day_reads_as_the_calendar_has_it() -> None:
    """Against Python's datetime, in a leap year and one that is none."""
    with contextlib.closing(sqlite3.connect(":memory:")) as db:
        db.create_function("iso_moment", 1, iso_moment)
        value = read_sql(Column("at", Kind.MOMENT, True, None, None), 1)
        for year, month, day in itertools.product((2027, 2028), range(1, 13), range(32)):
            cell = f"{year}-{month:02}-{day:02}T07:30:01.001Z"
            (got,) = db.execute(f"SELECT {value}", [cell]).fetchone()
            try:
                wanted = datetime(year, month, day, 7, 30, 1, 1000, tzinfo=UTC)
            except ValueError:
                assert got == cell, "no time, and so refused"
            else:
                assert got == round(wanted.timestamp() * 1000)


def test_every_mistake_is_told_at_once(tmp_path: Path, folder: Path) -> None:
    with copied(folder) as out:
        changed(out / "heat.csv", "31.5", "hot")
        changed(out / "solo.csv", "shadow,20", "shadow,-20")
        changed(out / "ball.csv", ",1,0,", ",2,0,")
        book = empty_book(tmp_path)
        with pytest.raises(LibraryError) as refused:
            import_folder(book, out)
        files = [Path(problem.file).name for problem in refused.value.problems]
        assert files == ["ball.csv", "solo.csv", "heat.csv"]


@pytest.mark.parametrize(
    "path",
    [
        "../heat.csv",
        "/etc/passwd",
        "sub/heat.csv",
        "..\\heat.csv",
        "file:heat.csv",
        "link.csv",
        "pipe.csv",
        "",
        7,
        None,
        "heat\0.csv",
        ["heat.csv"],
        "folder.csv",
    ],
)
def test_no_path_leads_out_of_the_folder(tmp_path: Path, folder: Path, path: object) -> None:
    with copied(folder) as out:
        (out.parent / "heat.csv").write_bytes((out / "heat.csv").read_bytes())
        (out / "sub").mkdir()
        (out / "folder.csv").mkdir()
        (out / "link.csv").symlink_to(out.parent / "heat.csv")
        if sys.platform != "win32":
            os.mkfifo(out / "pipe.csv")
        where = out / "datapackage.json"
        package = json.loads(where.read_text(encoding="utf-8"))
        (heat,) = (one for one in package["resources"] if one["name"] == "heat")
        heat["path"] = path
        where.write_text(json.dumps(package), encoding="utf-8")
        book = empty_book(tmp_path)
        with pytest.raises(LibraryError) as refused:
            import_folder(book, out)
        assert "is no file of this folder" in str(refused.value.problems[0])
        assert is_empty(book)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[]",
        "null",
        "7",
        '{"resources": 1}',
        '{"resources": [1], "courtlog": {}}',
        "[" * 100_000,
        '{"resources": [], "courtlog": {"format": "1"}}',
        "\udcff",
    ],
)
def test_a_folder_that_is_no_export_is_refused(tmp_path: Path, text: str) -> None:
    (tmp_path / "datapackage.json").write_bytes(text.encode("utf-8", "surrogateescape"))
    with pytest.raises(BookError, match="There is no datapackage"):
        import_folder(empty_book(tmp_path), tmp_path)


def test_a_later_way_of_writing_is_refused(tmp_path: Path) -> None:
    (tmp_path / "datapackage.json").write_text('{"resources": [], "courtlog": {"format": 2}}')
    with pytest.raises(BookError, match="A later courtlog"):
        import_folder(empty_book(tmp_path), tmp_path)


CELLS = st.sampled_from(
    [
        "",
        "0",
        "1",
        "-1",
        "2",
        "9223372036854775807",
        "9223372036854775808",
        "1e400",
        "nan",
        "'",
        "2026-05-12",
        "2026-05-12T07:30:00.000Z",
        "=1+1",
        "\0",
        '"',
        "---?",
        "222",
        "key",
        "[]",
        "{}",
    ]
) | st.text(max_size=5)


@st.composite
def spoilt(draw: st.DrawFn) -> tuple[str, str, int, int, str]:
    """A file, what is done to it, where, and with what."""
    names = [
        "ball",
        "rating",
        "journal",
        "round",
        "round_cue",
        "day",
        "clinic",
        "drill_used",
        "book",
        "bookmark",
        "note",
        "check_in",
        "red_flag",
        "former",
        "matched",
    ]
    what = draw(st.sampled_from(["cell", "cut", "drop", "twice", "bytes", "swap", "gone"]))
    place, column = draw(st.integers(0, 10**6)), draw(st.integers(0, 30))
    return draw(st.sampled_from(names)), what, place, column, draw(CELLS)


def spoil(file: Path, what: str, place: int, column: int, cell: str) -> None:
    raw = file.read_bytes()
    lines = raw.split(b"\r\n")[:-1]
    if not lines:
        return
    line = place % len(lines)
    match what:
        case "cell":
            cells = lines[line].split(b",")
            cells[column % len(cells)] = cell.encode("utf-8", "replace")
            lines[line] = b",".join(cells)
        case "cut":
            file.write_bytes(raw[: place % len(raw)])
            return
        case "drop":
            del lines[line]
        case "twice":
            lines.append(lines[line])
        case "bytes":
            at = place % len(raw)
            file.write_bytes(raw[:at] + bytes([place % 256, column]) + raw[at + 1 :])
            return
        case "swap":
            lines[line], lines[-1] = lines[-1], lines[line]
        case "gone":
            file.unlink()
            return
    file.write_bytes(b"".join(line + b"\r\n" for line in lines))


@given(st.lists(spoilt(), min_size=1, max_size=3))
@asked(steady, max_examples=dose(60, 200))
def test_a_spoilt_folder_is_refused_whole_or_is_a_sound_book(
    folder: Path, all_of_it: list[tuple[str, str, int, int, str]]
) -> None:
    with copied(folder) as out:
        for name, *how in all_of_it:
            file = out / f"{name}.csv"
            if file.exists() and file.stat().st_size:
                spoil(file, *how)  # type: ignore[arg-type]
        book = empty_book(out.parent)
        before = content(book.db)
        try:
            import_folder(book, out)
        except CourtlogError as error:
            told = not isinstance(error, LibraryError) or error.problems
            assert content(book.db) == before
            assert told
        else:
            assert tallies.proof(book.db) == []
            looked_at(book)
        book.close()
