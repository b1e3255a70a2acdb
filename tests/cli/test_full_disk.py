"""A disk that is really full: pages are read on, what would write says why it cannot."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, Home

READS = ("day", "player Maren", "sheet out", "roster list", "history --player Tove", "doctor")
WRITES = ("roster add Jorun", "erase Maren --yes", "backup", "doctor --mend")

SCRIPT = """
mount -t tmpfs -o size=3m none disk || exit 77
cp kept/* disk/
dd if=/dev/zero of=disk/fill bs=4k 2>/dev/null
while IFS= read -r words; do
    echo "@$words"
    "$0" -m courtlog $words 2>&1 >said </dev/null
    echo "=$?"
done
rm disk/fill
echo "@left"
ls disk
"""
"""In a space of mounts of its own; standard output is what the commands said of trouble."""


def runs(home: Home, words: tuple[str, ...]) -> dict[str, list[str]]:
    """What each command said on standard error, with its exit code; `left`: the files there."""
    unshare = shutil.which("unshare")
    if unshare is None:
        pytest.skip("no unshare here")
    (home.folder / "disk").mkdir()
    done = subprocess.run(
        [unshare, "-rm", "sh", "-c", SCRIPT, sys.executable],
        input="\n".join(words) + "\n",
        env=home.environment(COURTLOG_BOOK=str(home.folder / "disk" / "book.db")),
        cwd=home.folder,
        capture_output=True,
        text=True,
        check=False,
    )
    if "@left" not in done.stdout:
        pytest.skip("nothing can be mounted here")
    blocks = (block.splitlines() for block in done.stdout.split("@")[1:])
    return {lines[0]: lines[1:] for lines in blocks}


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
        assert said[words] == [told, "=0"], words
    for words in WRITES:
        *sentences, code = said[words]
        assert (code, "Traceback" in "".join(sentences)) == ("=1", False), words
        assert "full" in "".join(sentences) or "No space" in "".join(sentences), sentences
        assert "damaged" not in "".join(sentences), words
    assert [name for name in said["left"] if name not in ("backups", "book.db")] in (
        [],
        ["book.db-wal"],
        ["book.db-shm", "book.db-wal"],
    )
