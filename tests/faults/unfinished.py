"""An erase that is killed at any of its calls, and what every command makes of what stays.

A journal that is left undoes half a transaction. Nothing is told as damaged, nothing is put in the
book's place unasked, and what is set aside is whole.
"""

from __future__ import annotations

import random
import shutil
import signal
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from courtlog.logbook.file import backups, doctor
from tests.cli.program import Home
from tests.faults.calls import Bench, in_order
from tests.faults.figures import Figure
from tests.faults.library import MISSING, compiled
from tests.faults.runs import Runs
from tests.faults.table import sample_home
from tests.faults.traces import ratings, trouble

ERASE = ("erase", "Bo", "--yes", "--in-notes")
CALLS = ("pwrite", "fsync", "unlink", "ftruncate", "rename", "link", "write", "close")
LOOKS = ("restore", "doctor", "day")
DOSE = 3
"""Moments of each kind of call on each file."""

_WORST = [("pwrite", "book.db"), ("fsync", "book.db"), ("unlink", "book.db-journal")] * 2
"""In the middle of the book itself, or when all is in it but the journal still stands."""


def unfinished_erase(folder: Path, long: bool) -> Figure:
    """Killed at each call that writes, syncs or removes; then looked at, restored, read."""
    figure = Figure("an erase killed at each of its calls")
    library = compiled()
    if library is None:
        figure.skipped = MISSING
        return figure
    sample = sample_home(folder / "sample")
    # Newer balls than the backup has, so that a restore has something to lose.
    assert sample.run("sheet", "in", "sheet.txt").lines
    with Runs.under(library) as runs:
        bench = Bench(runs, sample, folder)
        dice, moments = random.Random(17), _moments(bench)
        drawn = [dice.choice(moments[group]) for group in _WORST if group in moments]
        if long:
            drawn += [dice.choice(some) for some in moments.values() for _ in range(DOSE)]
        for number, strike in enumerate(drawn):
            looks = LOOKS if long else LOOKS[number % len(LOOKS) :][:1]
            with figure.trial(strike), bench.home() as home:
                _killed(bench, home, strike, looks, figure)
    return figure


def _moments(bench: Bench) -> dict[tuple[str, str], list[str]]:
    """Every moment by the kind of call and the file: a transaction writes some files seldom."""
    found: dict[tuple[str, str], list[str]] = {}
    counted: Counter[str] = Counter()
    with bench.home() as home:
        ended = bench.runs.run(home, ERASE)
        assert ended.code == 0, ended
        lines = (home.folder.parent / "calls-0").read_text(encoding="utf-8").splitlines()
    for line in lines:
        call, _, path = line.partition(" ")
        counted[call] += 1
        if call in CALLS:
            found.setdefault((call, Path(path).name), []).append(f"{call} {counted[call]} 0")
    return found


def _killed(bench: Bench, home: Home, strike: str, looks: Sequence[str], figure: Figure) -> None:
    killed = bench.runs.run(home, ERASE, strike)
    assert killed.code == -signal.SIGKILL, killed
    kept = home.folder.parent / "kept"
    shutil.copytree(home.folder, kept)
    for first in looks:
        shutil.rmtree(home.folder)
        shutil.copytree(kept, home.folder)
        _looked_at(bench, home, first, figure)
    shutil.rmtree(kept)
    again = bench.runs.run(home, ERASE, "none 0 0")
    in_order(again)
    assert again.code == 0 or "no player called 'Bo'" in again.err, again
    assert not trouble(home.book)


def _looked_at(bench: Bench, home: Home, first: str, figure: Figure) -> None:
    (copy, *_) = backups.backup_paths(home.folder / "backups")
    words = {"restore": ("restore", copy.name)}.get(first, (first,))
    ended = bench.runs.run(home, words, "none 0 0")
    in_order(ended)
    assert "damaged" not in ended.out + ended.err, ended
    if first == "restore":
        assert ended.code == 1, f"it went on unasked: {ended.out}"
        assert "The book holds" in ended.err, ended
        before = ratings(home.book)
        done = bench.runs.run(home, (*words, "--yes"), "none 0 0")
        assert done.code == 0, done
        (aside,) = (home.folder / "backups").glob("replaced-*.db")
        assert doctor.damage(aside) is None
        lost = before - ratings(aside)
        figure.lost += len(lost)
        assert not lost, f"{len(lost)} grades are not in what was set aside"
    else:
        assert ended.code == 0, ended
    assert not trouble(home.book)
