"""The exported folder: what the standards say of it, what stays at home, what would be run."""

from __future__ import annotations

import csv
import json
import stat
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import frictionless
import pytest

from courtlog.coaching.game.drills import UsedDrill
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange import parquet
from courtlog.logbook.exchange.export import export
from courtlog.logbook.exchange.export_choice import ExportOptions
from courtlog.logbook.exchange.import_folder import import_folder
from courtlog.logbook.rows.row_changes import drill_id
from courtlog.logbook.schema.tables import tables
from courtlog.values import take_json
from tests.court import LIBRARY, START
from tests.logbook.exchange.books import awkward_book, content, empty_book, full_book

ALL = ExportOptions(with_minors=True)
PUBLIC = ("Maren", "Tove", "Ruben", "Ines", "Harbour", "Mar,", "knee", "Jorun", "slow", "HYPERLINK")
PRIVATE = (*PUBLIC, "said by", "left shin", "hits hard", "because", "Pilou", "rest it", "pain 6")


def table_of(folder: Path, name: str) -> list[dict[str, str]]:
    csv.field_size_limit(1 << 20)
    with (folder / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def bytes_of(folder: Path) -> bytes:
    return b"".join(file.read_bytes() for file in sorted(folder.iterdir()))


@pytest.mark.parametrize("wish", [ALL, ExportOptions(), ExportOptions(anonymous=True)])
def test_a_reader_of_the_standard_finds_nothing_wrong(tmp_path: Path, wish: ExportOptions) -> None:
    """Outside check: frictionless (the standard's own reader) on types, keys and references."""
    export(full_book(tmp_path / "b"), tmp_path / "out", wish, START)
    report = frictionless.validate(str(tmp_path / "out" / "datapackage.json"))
    assert report.valid, report.flatten(["name", "type", "note"])
    assert len(report.tasks) == len(list((tmp_path / "out").glob("*.csv"))) > 20


def test_no_table_goes_untried(tmp_path: Path) -> None:
    empty = [name for name, rows in content(full_book(tmp_path / "b").db).items() if not rows]
    assert empty == [], "a table without a row in full_book: nobody knows whether it can go out"


def test_the_same_reader_finds_a_reference_that_leads_nowhere(tmp_path: Path) -> None:
    export(full_book(tmp_path / "b"), tmp_path / "out", ALL, START)
    note = tmp_path / "out" / "note.csv"
    (first, *_) = table_of(tmp_path / "out", "note")
    note.write_text(note.read_text().replace(first["round_id"], "12345"))
    report = frictionless.validate(str(tmp_path / "out" / "datapackage.json"))
    assert {error for (error,) in report.flatten(["type"])} == {"foreign-key"}


def test_files_are_of_their_owner_alone(tmp_path: Path) -> None:
    export(full_book(tmp_path / "b"), tmp_path / "out", ExportOptions(parquet=True), START)
    assert stat.S_IMODE((tmp_path / "out").stat().st_mode) == 0o700
    assert {stat.S_IMODE(file.stat().st_mode) for file in (tmp_path / "out").iterdir()} == {0o600}


def test_lines_and_times_are_as_the_standards_have_them(tmp_path: Path) -> None:
    """RFC 4180: CRLF after every line; ISO 8601: 1778571000000 ms is half past seven UTC."""
    book = full_book(tmp_path / "b")
    export(book, tmp_path / "out", ALL, START)
    raw = (tmp_path / "out" / "heat.csv").read_bytes().split(b"\r\n")
    assert raw[0] == b"id,day_id,celsius,humidity,wbgt,at"
    assert raw[1].endswith(b",31.5,60.0,,2026-05-12T07:30:00.000Z")
    assert raw[2:] == [b""]
    descriptor = json.loads((tmp_path / "out" / "datapackage.json").read_text(encoding="utf-8"))
    assert descriptor["created"] == "2026-05-12T07:30:00.000+00:00"


def test_a_spreadsheet_finds_nothing_to_run(tmp_path: Path) -> None:
    """OWASP, "CSV Injection" (from memory): the first character decides."""
    book = awkward_book(tmp_path / "b")
    export(book, tmp_path / "out", ALL, START)
    texts = {
        table.name: [column.name for column in table.columns if column.kind == "string"]
        for table in tables(book.db)
    }
    cells = [
        row[name]
        for table in texts
        for row in table_of(tmp_path / "out", table)
        for name in texts[table]
    ]
    assert "'=1+1" in cells
    assert [cell for cell in cells if cell.startswith(tuple("=+-@\t\r\n"))] == []


def test_minors_stay_at_home_with_all_that_is_theirs(tmp_path: Path) -> None:
    book = full_book(tmp_path / "b")
    out = export(book, tmp_path / "out", ExportOptions(), START)
    (minor,) = book.db.execute("SELECT id FROM player WHERE age_group = 'minor'").fetchone()
    assert out.minors_left_out == 1
    assert str(minor).encode() not in bytes_of(tmp_path / "out")
    assert b"Ruben" not in bytes_of(tmp_path / "out")
    of_the_minor = {
        str(id_)
        for (id_,) in book.db.execute(
            "SELECT ball.id FROM ball JOIN round ON round.id = round_id WHERE player_id = ?",
            [minor],
        )
    }
    for name, column in (("ball", "id"), ("rating", "ball_id"), ("journal", "ball_id")):
        kept = {row[column] for row in table_of(tmp_path / "out", name)}
        assert kept
        assert not kept & of_the_minor
    assert export(book, tmp_path / "all", ALL, START).minors_left_out == 0
    assert b"Ruben" in bytes_of(tmp_path / "all")


def test_a_folder_without_names_holds_none(tmp_path: Path) -> None:
    book = full_book(tmp_path / "b")
    export(book, tmp_path / "named", ALL, START)
    export(
        book, tmp_path / "out", ExportOptions(with_minors=True, anonymous=True, parquet=True), START
    )
    named, nameless = bytes_of(tmp_path / "named"), bytes_of(tmp_path / "out")
    for word in PRIVATE:
        assert word.encode() in named, f"{word} would prove nothing"
        assert word.encode() not in nameless
    (uuid,) = book.db.execute("SELECT uuid FROM book").fetchone()
    assert uuid.encode() not in nameless
    players = [row["name"] for row in table_of(tmp_path / "out", "player")]
    assert players == ["player 1", "player 2", "player 3"]


def test_no_text_of_a_drill_goes_out_without_names(tmp_path: Path) -> None:
    """Every text of two own drills holds a name, and they differ in nothing else."""
    book = full_book(tmp_path / "b")
    ladder, drill = LIBRARY.drill("forehand/hand-feed")
    card = UsedDrill.of(ladder, drill)
    for name in ("Jorun's own way", "Pilou's own way"):
        texts: dict[str, Any] = dict.fromkeys(("name", "run", "look", "caution"), name)
        cue_texts: dict[str, Any] = dict.fromkeys(
            ("name", "made", "near", "missed", "say_inner", "say_outer"), name
        )
        own = replace(
            card,
            title=name,
            drill=replace(drill, spots=(name,) * len(drill.spots), kit=(name,), **texts),
            cues=tuple(replace(cue, **cue_texts) for cue in card.cues),
        )
        with book.writing() as db:
            drill_id(db, book.ids, START, own)
    export(book, tmp_path / "named", ALL, START)
    export(book, tmp_path / "out", ExportOptions(anonymous=True, parquet=True), START)
    assert b"own way" in bytes_of(tmp_path / "named")
    assert b"own way" not in bytes_of(tmp_path / "out")
    keys = {row["name"] for row in table_of(tmp_path / "out", "drill_used")}
    assert {"forehand/racquet-feed", "forehand/hand-feed"} <= keys
    new = empty_book(tmp_path)
    import_folder(new, tmp_path / "out")
    cards = [text for (text,) in new.db.execute("SELECT card FROM drill_used ORDER BY id")]
    read = [take_json(UsedDrill, text) for text in cards]
    assert [one.drill.name for one in read] == [f"drill {n}" for n in range(1, len(read) + 1)]
    assert {one.drill.balls for one in read if one.drill.key == drill.key} == {drill.balls}


def test_one_clinic_goes_out_without_the_others(tmp_path: Path) -> None:
    book = full_book(tmp_path / "b")
    book.db.execute("INSERT INTO clinic (id, name, zone) VALUES (7, 'Hill Week', 'UTC')")
    book.db.execute("INSERT INTO player (id, name) VALUES (8, 'Anouk')")
    book.db.execute("INSERT INTO roster (clinic_id, player_id, place) VALUES (7, 8, 1)")
    export(book, tmp_path / "hill", ExportOptions(clinic=7), START)
    assert [row["name"] for row in table_of(tmp_path / "hill", "clinic")] == ["Hill Week"]
    assert [row["name"] for row in table_of(tmp_path / "hill", "player")] == ["Anouk"]
    assert table_of(tmp_path / "hill", "ball") == []
    report = frictionless.validate(str(tmp_path / "hill" / "datapackage.json"))
    assert report.valid


def test_what_is_there_is_never_written_over(tmp_path: Path) -> None:
    book = full_book(tmp_path / "b")
    (tmp_path / "out").mkdir()
    export(book, tmp_path / "out", ALL, START)
    before = bytes_of(tmp_path / "out")
    with pytest.raises(CourtlogError, match="not empty"):
        export(book, tmp_path / "out", ALL, START)
    with pytest.raises(CourtlogError, match="is a file"):
        export(book, tmp_path / "out" / "ball.csv", ALL, START)
    with pytest.raises(CourtlogError, match="cannot be written"):
        export(book, tmp_path / "no" / "such" / "place", ALL, START)
    assert bytes_of(tmp_path / "out") == before


def test_a_failure_in_the_middle_leaves_nothing(tmp_path: Path) -> None:
    book = full_book(tmp_path / "b")
    before = content(book.db)
    book.db.execute("PRAGMA ignore_check_constraints = ON")
    book.db.execute("UPDATE note SET text = CAST(x'ff' AS TEXT)")
    with pytest.raises(CourtlogError):
        export(book, tmp_path / "out", ExportOptions(), START)
    assert [path.name for path in tmp_path.iterdir()] == ["b"]
    book.db.execute("UPDATE note SET text = 'slow'")
    book.db.execute("DELETE FROM former")
    assert set(content(book.db)) == set(before)
    export(book, tmp_path / "out", ExportOptions(), START)


def test_parquet_files_hold_the_same_rows(tmp_path: Path) -> None:
    """Outside check: pyarrow reads back what the book holds."""
    from pyarrow import parquet as reader

    book = awkward_book(tmp_path / "b")
    export(book, tmp_path / "out", ExportOptions(with_minors=True, parquet=True), START)
    notes = reader.read_table(tmp_path / "out" / "note.parquet").to_pylist()
    texts = [text for (text,) in book.db.execute("SELECT text FROM note ORDER BY id")]
    assert [note["text"] for note in notes] == texts
    (first, *_) = reader.read_table(tmp_path / "out" / "heat.parquet").to_pylist()
    assert first["at"].isoformat() == "2026-05-12T07:30:00+00:00"


def test_without_pyarrow_a_sentence_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    with pytest.raises(CourtlogError, match="not installed here"):
        parquet.check_installed("`pip install pyarrow`")
