"""Books that somebody has crafted: any object of the schema another, any value another.

Every command that takes a book from outside either refuses it in a sentence, and then the coach's
own book is as before, or takes it, and then every command still works on the coach's own book.
"""

from __future__ import annotations

import csv
import json
import random
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.schema.tables import tables
from tests.court import START, desk_in, feed
from tests.faults.bounded import Run, load_everything, run
from tests.faults.figures import Figure
from tests.logbook.exchange.books import full_book

Craft = Callable[[sqlite3.Connection], None]

SCHEMAS, VALUES = 2, 2
"""How many of each are drawn for the short run; the long one takes every schema and more values."""
VALUES_LONG = 400
IMPORTS, IMPORTS_LONG = 3, 300

_COMMANDS = ("day", "gather", "restore", "doctor", "mend", "export")

_ENDLESS = "WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) SELECT {} FROM n"
_HOSTILE_NAMES = (
    *("two words", 'with"quote', "it's", "x; DROP TABLE ball", "select", "\x1b[31mred", "ball\n"),
    *("é\u202e", "%s", "a" * 5000, "[", "--"),
)
_WHOLE = (0, -1, 1, 2**31, 2**40 - 1, 2**62, 2**63 - 1, -(2**63), (2**23 - 1) << 40, 1 << 62)
_MEASURES = (-1.0, 1e308, -1e308, float("inf"), float("-inf"), 5e-324)
_TEXTS = (
    *("", " ", "\0", "\x1b[31m", "=1+1", "'", '"', "x" * 300_000, "é\u202e", "-", "?", "/", "[]"),
    *("null", "{}", "[1e999]", "[" * 100_000, "9999-12-31", "0001-01-01", "Europe", "../../x"),
    *("2@99999999999999999999", "222!?", "9" * 5000, "player", "2026-05-12", "left", "\ud7ff"),
)


@dataclass(frozen=True, slots=True)
class Crafted:
    """One way to craft a book."""

    name: str
    craft: Craft


@dataclass(frozen=True, slots=True)
class Spoilt:
    """One way to spoil an exported folder."""

    name: str
    craft: Callable[[Path], None]


def schemas(folder: Path, long: bool) -> Figure:
    """Each object of the schema dropped, renamed, or made into something that never ends."""
    figure = Figure("a crafted schema: opened, joined, restored, examined")
    everything = list(_schemas(_Sound(folder).path))
    random.Random(13).shuffle(everything)
    return _tried(figure, folder, everything if long else everything[:SCHEMAS])


def values(folder: Path, long: bool) -> Figure:
    """Each column of each table holds what nobody wrote, past every check of the schema."""
    figure = Figure("crafted values: opened, joined, restored, examined")
    everything = list(crafted_values(_Sound(folder).path))
    random.Random(14).shuffle(everything)
    return _tried(figure, folder, everything[: VALUES_LONG if long else VALUES])


def imports(folder: Path, long: bool) -> Figure:
    """A file of an exported folder is not there, or a cell of it says what nobody wrote.

    Either nothing comes in, or every command works on what came in.
    """
    figure = Figure("a crafted folder, imported")
    load_everything()
    sound = _Sound(folder)
    whole = folder / "whole"
    sound.start()
    assert not sound.run("export", whole, "--with-minors", "--book", sound.path).code
    everything = list(_folders(whole))
    random.Random(15).shuffle(everything)
    for one in everything[: IMPORTS_LONG if long else IMPORTS]:
        sound.start()
        sound.own.unlink()
        out = sound.own.parent / "out"
        shutil.copytree(whole, out)
        one.craft(out)
        with figure.trial(one.name):
            done = sound.run("import", out)
            assert not done.trouble, done.trouble
            if done.code:
                assert not sound.own.exists(), "a refused folder left a book behind"
                continue
            for words in (("day",), ("doctor",), ("sheet", "out"), ("export", out / "again")):
                later = sound.run(*words)
                assert not later.trouble, f"then {words[0]} {later.trouble}"
                assert later.code == 0, f"then {words[0]}: {later.said}"
                assert "\x1b" not in later.said, f"then {words[0]} printed what a terminal obeys"
    return figure


def _tried(figure: Figure, folder: Path, every: list[Crafted]) -> Figure:
    load_everything()
    sound = _Sound(folder)
    for one in every:
        path = folder / "crafted.db"
        shutil.copyfile(sound.path, path)
        with closing(sqlite3.connect(path, isolation_level=None)) as db:
            try:
                one.craft(db)
            except sqlite3.Error:
                continue  # not even SQLite makes such a file
        for command in _COMMANDS:
            with figure.trial(f"{one.name}: {command}"):
                sound.try_it(path, command)
    return figure


class _Sound:
    """A sound book to craft from, and the coach's own, which knows some of the same people."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.path = folder / "sound.db"
        self.own = folder / "own" / "book.db"
        self.kept = folder / "kept.db"
        if self.path.exists():
            return
        full_book(folder / "full").close()
        _copy(folder / "full" / "book.db", self.path)
        desk = desk_in(folder / "mine", ("Maren", "Anouk"))
        feed(desk, "222 _ 012 !_")
        desk.book.close()
        _copy(folder / "mine" / "book.db", self.kept)

    def try_it(self, crafted: Path, command: str) -> None:
        """One command on a crafted book, from the same start."""
        self.start()
        book = self.own.parent / "crafted.db"
        shutil.copyfile(crafted, book)
        before = _content(self.own)
        match command:
            case "day":
                done = self.run("day", "--book", book)
            case "gather":
                done = self.run(
                    "gather", book, "--same", "Maren", "--same", "Harbour Week", "--yes"
                )
            case "restore":
                done = self.run("restore", book, "--yes")
            case "doctor":
                done = self.run("doctor", "--book", book)
            case "mend":
                done = self.run("doctor", "--mend", "--book", book)
            case _:
                done = self.run("export", self.own.parent / "out", "--book", book)
        assert not done.trouble, done.trouble
        if done.code or command not in ("gather", "restore"):
            assert _content(self.own) == before, f"the own book was changed: {done.said}"
        if done.code == 0 and command in ("gather", "restore"):
            for words in (("day",), ("doctor",), ("export", self.own.parent / "later")):
                later = self.run(*words)
                assert not later.trouble, f"then {words[0]} {later.trouble}"
                assert command == "restore" or later.code == 0, f"then {words[0]}: {later.said}"

    def start(self) -> None:
        """The coach's own book as it was, and nothing beside it."""
        shutil.rmtree(self.own.parent, ignore_errors=True)
        self.own.parent.mkdir()
        shutil.copyfile(self.kept, self.own)

    def run(self, *words: str | Path) -> Run:
        env = {
            "HOME": str(self.own.parent),
            "COURTLOG_BOOK": str(self.own),
            "COURTLOG_SETTINGS": str(self.own.parent / "settings.json"),
            "COURTLOG_DRILLS": str(self.own.parent / "drills"),
            "TZ": "UTC",
        }
        return run(self.own.parent, env, *words)


def _copy(book: Path, to: Path) -> None:
    with closing(sqlite3.connect(book)) as source, closing(sqlite3.connect(to)) as target:
        source.backup(target)
        target.execute("PRAGMA journal_mode = DELETE")


def _content(book: Path) -> list[str]:
    with closing(sqlite3.connect(book)) as db:
        return list(db.iterdump())


def _schemas(sound: Path) -> Iterator[Crafted]:
    with closing(sqlite3.connect(sound)) as db:
        objects = db.execute(
            "SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name"
        ).fetchall()
    for kind, name, sql in objects:
        yield Crafted(f"no {kind} {name}", partial(_dropped, kind, name))
        yield Crafted(f"{name} told otherwise", partial(_told, name, f"{sql} "[:-4]))
        yield Crafted(f"{name} in other letters", partial(_renamed, name, name.upper()))
        if kind == "table":
            for what, craft in _TABLES.items():
                yield Crafted(f"{name} {what}", partial(craft, name, sql))
    for hostile in _HOSTILE_NAMES:
        quoted = '"' + hostile.replace('"', '""') + '"'
        short = repr(hostile[:20])
        for sql in (
            f"CREATE TABLE {quoted} (id INTEGER PRIMARY KEY)",
            f"CREATE TABLE {quoted} (id INTEGER PRIMARY KEY, ball_id REFERENCES ball (id))",
            f"CREATE VIEW {quoted} AS {_ENDLESS.format('x AS id')}",
            f"CREATE TRIGGER {quoted} AFTER DELETE ON ball BEGIN DELETE FROM player; END",
            f"CREATE INDEX {quoted} ON ball (number)",
        ):
            yield Crafted(f"{sql[:13]} {short}", partial(_done, sql))


def _done(sql: str, db: sqlite3.Connection) -> None:
    db.execute(sql)


def _dropped(kind: str, name: str, db: sqlite3.Connection) -> None:
    db.execute("PRAGMA foreign_keys = OFF")
    db.execute(f"DROP {kind} {name}")


def _told(name: str, sql: str, db: sqlite3.Connection) -> None:
    """Another text in the list of objects, whatever SQLite would say of it."""
    db.execute("PRAGMA writable_schema = ON")
    db.execute("UPDATE sqlite_master SET sql = ? WHERE name = ?", [sql, name])


def _renamed(name: str, new: str, db: sqlite3.Connection) -> None:
    db.execute("PRAGMA writable_schema = ON")
    db.execute(
        "UPDATE sqlite_master SET name = ?2, sql = replace(sql, ?1, ?2) WHERE name = ?1",
        [name, new],
    )
    db.execute("UPDATE sqlite_master SET tbl_name = ?2 WHERE tbl_name = ?1", [name, new])


def _instead(new: str, name: str, _sql: str, db: sqlite3.Connection) -> None:
    columns = [row[1] for row in db.execute(f"PRAGMA table_info({name})")]
    db.execute("PRAGMA foreign_keys = OFF")
    db.execute("PRAGMA legacy_alter_table = ON")
    values = ", ".join(f"x AS {column}" for column in columns)
    made = new.format(name=name, endless=_ENDLESS.format(values), values=values)
    db.execute(f"DROP TABLE {name}")
    db.execute(made)


def _virtual(name: str, _sql: str, db: sqlite3.Connection) -> None:
    """A virtual table of a module that nobody has."""
    db.execute(f"DROP TABLE {name}")
    db.execute("PRAGMA writable_schema = ON")
    db.execute(
        "INSERT INTO sqlite_master VALUES ('table', ?1, ?1, 0, 'CREATE VIRTUAL TABLE '"
        " || ?1 || ' USING nobody_has(a)')",
        [name],
    )


def _in_its_sql(old: str, new: str, name: str, sql: str, db: sqlite3.Connection) -> None:
    """One place of its text changed, the last one."""
    head, found, tail = sql.rpartition(old)
    if not found:
        raise sqlite3.OperationalError("it has no such place")
    _told(name, head + new + tail, db)


def _after(event: str, name: str, _sql: str, db: sqlite3.Connection) -> None:
    db.execute(
        f'CREATE TRIGGER "x of {name}" AFTER {event} ON {name} BEGIN'
        f" INSERT INTO coach (name) {_ENDLESS.format('x')}; END"
    )


def _mutual(name: str, _sql: str, db: sqlite3.Connection) -> None:
    db.execute(f"CREATE TABLE one_{name} (id INTEGER PRIMARY KEY, o REFERENCES other_{name} (id))")
    db.execute(f"CREATE TABLE other_{name} (id INTEGER PRIMARY KEY, o REFERENCES one_{name} (id))")


_TABLES: dict[str, Callable[[str, str, sqlite3.Connection], None]] = {
    "as a view": partial(_instead, "CREATE VIEW {name} AS SELECT {values} FROM (SELECT 1 AS x)"),
    "as an endless view": partial(_instead, "CREATE VIEW {name} AS {endless}"),
    "with every column of no type": partial(
        _instead, "CREATE TABLE {name} AS SELECT {values} FROM (SELECT 1 AS x)"
    ),
    "as a virtual table": _virtual,
    "with a generated column": partial(
        _in_its_sql, ")", ", made TEXT AS (hex(zeroblob(500000000))) VIRTUAL)"
    ),
    "with a check that takes all memory": partial(
        _in_its_sql, ")", " CHECK (length(hex(zeroblob(500000000))) > 0))"
    ),
    "with a reference to nowhere": partial(_in_its_sql, ")", ", x INTEGER REFERENCES gone (id))"),
    "with a reference to itself": partial(_in_its_sql, ")", ", x INTEGER REFERENCES {name} (id))"),
    "with a reference in other letters": partial(
        _in_its_sql, ")", ", x INTEGER REFERENCES PLAYER (ID))"
    ),
    "with a column of a hostile name": partial(
        _in_its_sql, ")", ', "a""; DROP TABLE ball; --" INTEGER)'
    ),
    "without its types": partial(_in_its_sql, "STRICT", ""),
    "with a trigger after each delete": partial(_after, "DELETE"),
    "with a trigger after each insert": partial(_after, "INSERT"),
    "beside two that name each other": _mutual,
}


def crafted_values(sound: Path) -> Iterator[Crafted]:
    with closing(create_or_open(sound, START)) as book:
        every = [(table.name, table.columns) for table in tables(book.db)]
        every += [("home", ()), ("tally", ())]
        columns = {
            name: book.db.execute(f"SELECT name, type FROM pragma_table_info('{name}')").fetchall()
            for name, _ in every
        }
    of_kind = {"INTEGER": _WHOLE, "REAL": _MEASURES, "TEXT": _TEXTS}
    for table, names in columns.items():
        for column, kind in names:
            for value in (*of_kind[kind], None, b"\xff\x00"):
                short = repr(value)[:30]
                yield Crafted(f"{table}.{column} = {short}", partial(_put, table, column, value))
                yield Crafted(
                    f"{table}.{column} = {short} in one more row",
                    partial(_added, table, column, value),
                )


def _put(table: str, column: str, value: object, db: sqlite3.Connection) -> None:
    """In the last row of the table, as if there were no types and no checks."""
    with_loose_types(db, table)
    db.execute(
        f'UPDATE {table} SET "{column}" = ? WHERE ({_key(db, table)}) ='
        f" (SELECT {_key(db, table)} FROM {table} ORDER BY 1 DESC LIMIT 1)",
        [value],
    )
    with_types_again(db, table)


def _added(table: str, column: str, value: object, db: sqlite3.Connection) -> None:
    """A copy of a row with one other value, or a first row."""
    with_loose_types(db, table)
    names = [row[1] for row in db.execute(f"PRAGMA table_info({table})")]
    found = db.execute(f"SELECT * FROM {table} LIMIT 1").fetchone()
    row = dict(zip(names, found or [1] * len(names), strict=True)) | {column: value}
    if "id" in row and column != "id":
        row["id"] = 77
    marks = ", ".join("?" * len(names))
    db.execute(f"INSERT OR REPLACE INTO {table} VALUES ({marks})", [row[name] for name in names])
    with_types_again(db, table)


def _key(db: sqlite3.Connection, table: str) -> str:
    rows = db.execute(f"PRAGMA table_info({table})").fetchall()
    return ", ".join(f'"{row[1]}"' for row in rows if row[5])


_KEPT: dict[str, str] = {}


def with_loose_types(db: sqlite3.Connection, table: str) -> None:
    """From here on the table takes anything."""
    (sql,) = db.execute("SELECT sql FROM sqlite_master WHERE name = ?", [table]).fetchone()
    _KEPT[table] = sql
    db.execute("PRAGMA ignore_check_constraints = ON")
    db.execute("PRAGMA foreign_keys = OFF")
    for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        _KEPT[name] = db.execute("SELECT sql FROM sqlite_master WHERE name = ?", [name]).fetchone()[
            0
        ]
        db.execute(f"DROP TRIGGER {name}")
    loose = sql.replace("STRICT, WITHOUT", "WITHOUT").replace("STRICT", "").replace("NOT NULL", "")
    _text(db, table, loose)


def with_types_again(db: sqlite3.Connection, table: str) -> None:
    """The schema as it was, around what the table holds now."""
    _text(db, table, _KEPT.pop(table))
    for name in sorted(_KEPT):
        db.execute(_KEPT.pop(name))


def _text(db: sqlite3.Connection, table: str, sql: str) -> None:
    (version,) = db.execute("PRAGMA schema_version").fetchone()
    db.execute("PRAGMA writable_schema = ON")
    db.execute("UPDATE sqlite_master SET sql = ? WHERE name = ?", [sql, table])
    db.execute(f"PRAGMA schema_version = {version + 1}")
    db.execute("PRAGMA writable_schema = RESET")


def _folders(whole: Path) -> Iterator[Spoilt]:
    for file in sorted(whole.glob("*.csv")):
        yield Spoilt(f"no {file.name}", partial(_left_out, file.name))
        heading, *rows = _rows(file)
        for place, column in enumerate(heading):
            for text in (*_TEXTS, *map(str, (*_WHOLE, *_MEASURES))):
                if rows and "\x00" not in text:
                    name = f"{file.stem}.{column} = {text[:30]!r}"
                    yield Spoilt(name, partial(_written, file.name, place, text))


def _left_out(name: str, folder: Path) -> None:
    (folder / name).unlink()
    descriptor = folder / "datapackage.json"
    package = json.loads(descriptor.read_text(encoding="utf-8"))
    package["resources"] = [one for one in package["resources"] if one["path"] != name]
    descriptor.write_text(json.dumps(package), encoding="utf-8")


def _written(name: str, place: int, text: str, folder: Path) -> None:
    """In the last row of the file."""
    rows = _rows(folder / name)
    rows[-1][place] = text
    with (folder / name).open("w", encoding="utf-8", newline="", errors="surrogatepass") as file:
        csv.writer(file).writerows(rows)


def _rows(file: Path) -> list[list[str]]:
    csv.field_size_limit(1 << 24)
    with file.open(encoding="utf-8", newline="") as text:
        return list(csv.reader(text))
