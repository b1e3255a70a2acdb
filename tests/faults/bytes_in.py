"""Any bytes as any file that is read: it is taken, or refused in a sentence; never a traceback.

Each file is one that is right first, so that what is spoilt of it is read to the place.
"""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Callable
from pathlib import Path

from tests.cli.program import PROGRAM, Home
from tests.faults.figures import Figure
from tests.faults.words import check, demand_a_sound_book, small_home
from tests.library.shelf import ladder

SECONDS = "09:00:07 Maren 212\n"
ROSTER = 'name,short,hand,limit,age,contact\nAda,A,left,90,minor,07 12\n"Bo, jr",,right,,adult,\n'
SETTINGS = '{"pad": "left", "basket": 70, "coach": "Ines", "second_backup": "stick"}\n'
HOLDER = '{"who": "Ines", "host": "court", "process": 1, "since": 1778571000000}\n'

Spoil = Callable[[bytes, random.Random, int], bytes]

SPOILS: dict[str, Spoil] = {
    "nothing": lambda _data, _dice, _much: b"",
    "random bytes": lambda _data, dice, _much: dice.randbytes(dice.randrange(1, 4000)),
    "bytes turned over": lambda data, dice, _much: _turned(data, dice),
    "a piece left out": lambda data, dice, _much: _cut(data, dice),
    "pieces swapped": lambda data, dice, _much: _swapped(data, dice),
    "a hostile piece": lambda data, dice, _much: _put_in(data, dice, dice.choice(PIECES)),
    "UTF-16": lambda data, dice, _much: data.decode().encode("utf-16"),
    "UTF-16 without a mark": lambda data, dice, _much: data.decode().encode("utf-16-be"),
    "UTF-32": lambda data, dice, _much: data.decode().encode("utf-32"),
    "Latin-1": lambda data, dice, _much: _put_in(data, dice, "Björn é".encode("latin-1")),
    "NULs alone": lambda _data, _dice, much: bytes(much),
    "one long line": lambda data, dice, much: _put_in(data, dice, b"x" * much),
    "one long blank": lambda data, dice, much: _put_in(data, dice, b" " * much),
    "many empty lines": lambda data, dice, much: data + b"\n" * much,
    "many quotes": lambda data, dice, much: _put_in(data, dice, b'"' * (much // 20)),
    "many commas": lambda data, dice, much: _put_in(data, dice, b"," * (much // 20)),
    "many digits": lambda data, dice, much: _put_in(data, dice, b"9" * (much // 20)),
    "deep brackets": lambda data, dice, much: _put_in(data, dice, b"[" * (much // 20)),
    "deep braces": lambda data, dice, much: _put_in(data, dice, b'{"a":' * (much // 20)),
}

PIECES: tuple[bytes, ...] = (
    *(b"\x00", b"\x1b[2J", b"\xef\xbb\xbf", b"\r"),
    *(b"\x0c", b"\x1a", b"\xff", b"\xc3", b"\xed\xa0\x80"),
    *map(str.encode, "\u2028\u2029\x85\u202e\u200b\ufffe\U0010ffff"),
    *(b"\\ud800", b'"\\ud83d"', b"\\u0000", b"\\", b'"', b"'", b"=1+1", b"nan", b"inf", b"-1"),
    *(b"1e999", b"Infinity", b"NaN", b"null", b"true", b"{}", b"[]", b"9" * 400, b"1e-400"),
    *("٣".encode(), "½".encode(), b"2026-02-30", b"99:99:99", b"--", b"[[drill]]", b"#"),
)  # fmt: skip


def bytes_in(folder: Path, long: bool) -> Figure:
    """Every kind of file with every kind of spoiling; long: many of each, and 100 MB of them."""
    figure = Figure("words from outside: bytes of files")
    dice = random.Random(11)
    whole = _whole(folder)
    rounds = ((1, 1_000_000), (1, 100_000_000)) if long else ((1, 200_000),)
    files = sorted(_readers(whole).items())
    for times, much in rounds:
        for file, pages in files:
            few = 3 if long else 1
            every_kind = long and not file.startswith("folder/")
            names = list(SPOILS) if every_kind else dice.sample(list(SPOILS), few)
            if much > 1_000_000 and file.startswith("folder/") and "ball" not in file:
                continue
            for name in names * times:
                if much > 1_000_000 and not name.startswith(("one", "NUL", "many e")):
                    continue
                with figure.trial(f"{file}: {name}, seed {figure.tried}"):
                    home = _anew(folder)
                    path = home.folder / file
                    here = random.Random(figure.tried)
                    path.write_bytes(SPOILS[name](path.read_bytes(), here, much))
                    for page in pages:
                        _read(home, page, figure)
    return figure


def _whole(folder: Path) -> Home:
    """A home with a right file of every kind."""
    whole = small_home(folder / "whole")
    (whole.folder / "again.txt").write_text(SECONDS)
    (whole.folder / "roster.csv").write_text(ROSTER)
    whole.settings.write_text(SETTINGS)
    whole.folder.joinpath("book.db-holder").write_text(HOLDER)
    (whole.folder / "stick").mkdir()
    whole.drills.mkdir()
    (whole.drills / "lob.toml").write_text(ladder("lob"))
    assert whole.run("export", "folder").lines
    return whole


def no_files(folder: Path, long: bool) -> Figure:
    """A pipe, a device, a folder or a loop of links under the name of a file that is read."""
    figure = Figure("words from outside: what is no file")
    dice = random.Random(3)
    whole = _whole(folder)
    readers = {
        file: pages
        for file, pages in _readers(whole).items()
        if file.count("/") == 0 or file.endswith((".toml", "/ball.csv", ".json"))
    }
    every = [(file, kind, page) for file in readers for kind in NO_FILES for page in readers[file]]
    for file, kind, page in every if long else dice.sample(every, 4):
        with figure.trial(f"{file}: {kind}, {' '.join(page)}"):
            home = _anew(folder)
            path = home.folder / file
            path.unlink()
            NO_FILES[kind](path)
            said = home.run(*page, program=PROGRAM)  # a pipe would be waited for
            check(said, "")
            assert not said.code or not (home.folder / "new.db").exists()
    return figure


NO_FILES: dict[str, Callable[[Path], None]] = {
    "a pipe": os.mkfifo,
    "a device without an end": lambda path: path.symlink_to("/dev/zero"),
    "a device that is full": lambda path: path.symlink_to("/dev/full"),
    "a folder": Path.mkdir,
    "a link to itself": lambda path: path.symlink_to(path.name),
    "a link to nothing": lambda path: path.symlink_to("nothing"),
}


def _readers(home: Home) -> dict[str, list[tuple[str, ...]]]:
    """The files of the home, and the commands that read each."""
    found: dict[str, list[tuple[str, ...]]] = {
        "sheet.txt": [("sheet", "in", "sheet.txt", "--book", "new.db")],
        "again.txt": [("agree", "in", "again.txt", "--coach", "Bo")],
        "roster.csv": [("roster", "import", "roster.csv")],
        "settings.json": [("settings",), ("backup",), ("roster", "add", "Zoe")],
        "drills/lob.toml": [
            ("drills", "check"),
            ("drills", "list"),
            ("drills", "show", "lob/first"),
        ],
        "book.db-holder": [("roster", "add", "Zoe"), ("backup",)],
    }
    for file in sorted((home.folder / "folder").iterdir()):
        found[f"folder/{file.name}"] = [("import", "folder", "--book", "new.db")]
    return found


def _read(home: Home, page: tuple[str, ...], figure: Figure) -> None:
    before = home.files()
    said = home.run(*page)
    check(said, "")
    after = home.files()
    if said.code and page != ("drills", "check"):
        new = after.keys() - before.keys()
        figure.left_behind += len(new)
        assert after == before, f"{page} changed or new: {new} {said.err}"
    elif "--book" in page:
        demand_a_sound_book(home, page[-1])


def _turned(data: bytes, dice: random.Random) -> bytes:
    changed = bytearray(data)
    for _ in range(dice.choice((1, 2, 10))):
        changed[dice.randrange(len(changed))] = dice.randrange(256)
    return bytes(changed)


def _cut(data: bytes, dice: random.Random) -> bytes:
    start = dice.randrange(len(data))
    return data[:start] + data[start + dice.randrange(1, 40) :]


def _swapped(data: bytes, dice: random.Random) -> bytes:
    one, two = sorted(dice.sample(range(len(data)), 2))
    return data[two:] + data[one:two] + data[:one]


def _put_in(data: bytes, dice: random.Random, piece: bytes) -> bytes:
    at = dice.randrange(len(data) + 1)
    return data[:at] + piece + data[at:]


def _anew(folder: Path) -> Home:
    shutil.rmtree(folder / "home", ignore_errors=True)
    shutil.copytree(folder / "whole", folder / "home")
    return Home(folder / "home")
