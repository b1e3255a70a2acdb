"""A disk that is really full: pages are read on, what would write says why it cannot."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, Home
from tests.faults.runs import FORKED, Ended, NotStartedError, Runs

READS = ("day", "player Maren", "sheet out", "roster list", "history --player Tove", "doctor")
WRITES = ("roster add Jorun", "erase Maren --yes", "backup", "doctor --mend")

SCRIPT = """
mount -t tmpfs -o size=3m none "$1/disk" || exit 77
cp "$1"/kept/* "$1/disk/"
dd if=/dev/zero of="$1/disk/fill" bs=4k 2>/dev/null
home="$1"
shift
"$@"
rm "$home/disk/fill"
ls "$home/disk" >"$home/left"
"""
"""In a space of mounts of its own; `left` says what lies on the disk in the end."""


def runs(home: Home, commands: tuple[str, ...]) -> dict[str, Ended]:
    """How each command ended on the full disk."""
    unshare = shutil.which("unshare")
    if unshare is None:
        pytest.skip("no unshare here")
    for name in ("disk", "tmp"):
        (home.folder / name).mkdir()
    on_disk = [unshare, "-rm", "sh", "-c", SCRIPT, "sh", str(home.folder), *FORKED]
    book = ("--book", str(home.folder / "disk" / "book.db"))
    try:
        with Runs(on_disk) as full:
            return {words: full.run(home, (*book, *words.split())) for words in commands}
    except NotStartedError:
        pytest.skip("nothing can be mounted here")


@pytest.mark.parametrize("log", [False, True], ids=["closed", "log left by a killed program"])
def test_pages_are_read_on_a_full_disk(home: Home, log: bool) -> None:
    (home.folder / "kept").mkdir()
    kept = home.folder / "kept" / "book.db"
    home.run("--book", kept, "sheet", "in", HARBOUR)
    if log:
        leave = "import os, sqlite3, sys; db = sqlite3.connect(sys.argv[1]);"
        leave += " db.execute(\"UPDATE player SET level = 'quick'\"); db.commit(); os._exit(0)"
        subprocess.run([sys.executable, "-c", leave, str(kept)], check=True)
        Path(f"{kept}-shm").unlink()
    said = runs(home, READS + WRITES)
    told = "The disk is full: the book is read from a copy in memory, and nothing can be stored."
    for words in READS:
        assert (said[words].err, said[words].code) == (f"{told}\n", 0), words
    for words in WRITES:
        ended = said[words]
        assert (ended.code, "Traceback" in ended.err) == (1, False), words
        assert "full" in ended.err or "No space" in ended.err, ended
        assert "damaged" not in ended.err, words
    left = (home.folder / "left").read_text().split()
    assert [name for name in left if name not in ("backups", "book.db")] in (
        [],
        ["book.db-wal"],
        ["book.db-shm", "book.db-wal"],
    )
