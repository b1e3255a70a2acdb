"""One call of the system fails, or the program is killed there, in every command.

Whatever command, whatever call: it ends with a sentence and in time, a file under its final name
is the old one or the whole new one, and what was stored is not told as refused.
"""

from __future__ import annotations

import errno
import random
import re
import shutil
import signal
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from courtlog.logbook.file import backups
from tests.cli.program import Home
from tests.faults.figures import Figure
from tests.faults.library import MISSING, compiled
from tests.faults.runs import Ended, Runs
from tests.faults.table import COMMANDS, Command, sample_home, words_of
from tests.faults.traces import SIDE_FILES, Trace, ratings, side_files, traces, trouble

DOSE, LONG_DOSE = 10, 12
"""Commands that are tried once; trials of every command in the long version."""

DONE = "This is done:"
"""What a command says when something was stored before it failed."""

_ON_BACKUPS = {"backup", "restore", "erase", "damaged.db"}
"""Commands that are about what lies among the backups; others make one before they go to work."""

_PROBE = re.compile(r"tmp/[a-z0-9_]{8}")
"""Python tries whether it may write in the folder for temporary files, and may fail to tidy up."""

_WRITING = (errno.EIO, errno.ENOSPC, errno.EDQUOT)
_NAMING = (errno.EIO, errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EDQUOT)

ERRORS: Mapping[str, tuple[int, ...]] = {
    "open": (errno.EIO, errno.EACCES, errno.EMFILE),
    "create": (*_NAMING, errno.EMFILE),
    "opendir": (errno.EIO, errno.EACCES, errno.EMFILE),
    "close": (errno.EIO, errno.ENOSPC, errno.EDQUOT),
    "read": (errno.EIO,),
    "pread": (errno.EIO,),
    "write": _WRITING,
    "pwrite": _WRITING,
    "ftruncate": (errno.EIO,),
    "fsync": _WRITING,
    "fcntl": (errno.EIO, errno.ENOLCK),
    "flock": (errno.EIO, errno.ENOLCK),
    "rename": _NAMING,
    "link": (*_NAMING, errno.EPERM),
    "unlink": (errno.EIO, errno.EACCES, errno.EROFS),
    "rmdir": (errno.EIO, errno.EACCES, errno.EROFS),
    "mkdir": _NAMING,
    "chmod": (errno.EIO, errno.EPERM, errno.EROFS),
    "stat": (errno.EIO, errno.EACCES),
    "fstat": (errno.EIO,),
}
"""What each call may answer, by the names of failing.c."""


@dataclass(frozen=True, slots=True)
class Sample:
    """A command gone well: what the home held before and after, and its calls by their name."""

    command: Command
    before: Mapping[str, Trace]
    after: Mapping[str, Trace]
    calls: Mapping[str, int]

    def draw(self, dice: random.Random) -> tuple[str, int]:
        """One of its calls; a seldom kind of call as often as a common one."""
        call = dice.choice(sorted(self.calls))
        return call, dice.randint(1, self.calls[call])


def failing_calls(folder: Path, long: bool) -> Figure:
    """One call fails in every command."""
    figure = Figure("one failing call in every command")
    for bench, sample, dice in _benches(folder, figure, long):
        for _ in range(LONG_DOSE if long else 1):
            call, number = sample.draw(dice)
            error = dice.choice(ERRORS[call])
            what = f"{sample.command.name}: {call} {number} {errno.errorcode[error]}"
            with figure.trial(what), bench.home() as home:
                ended = bench.runs.run(
                    home, words_of(sample.command, home), f"{call} {number} {error}"
                )
                after = traces(home.folder)
                in_order(ended)
                _whole(sample, after)
                _nothing_left(sample, after, figure)
                _as_told(sample, ended, after)
                _kept(sample, bench.sample, home, figure)
    return figure


def killed_commands(folder: Path, long: bool) -> Figure:
    """Every command is killed at one of its calls, and then given once more."""
    figure = Figure("killed commands")
    for bench, sample, dice in _benches(folder, figure, long):
        for _ in range(LONG_DOSE if long else 1):
            call, number = sample.draw(dice)
            with figure.trial(f"{sample.command.name}: {call} {number}"), bench.home() as home:
                words = words_of(sample.command, home)
                killed = bench.runs.run(home, words, f"{call} {number} 0")
                if killed.struck:
                    assert killed.code == -signal.SIGKILL, killed
                _whole(sample, traces(home.folder), at_rest=False)
                in_order(bench.runs.run(home, words, "none 0 0"))
                _nothing_left(sample, traces(home.folder), figure)
                _kept(sample, bench.sample, home, figure)
    return figure


@dataclass(frozen=True, slots=True)
class Bench:
    """The sample home, and children to run commands on copies of it."""

    runs: Runs
    sample: Home
    folder: Path

    @contextmanager
    def home(self) -> Iterator[Home]:
        """A copy of the sample home, gone afterwards."""
        place = self.folder / "trial"
        place.mkdir()
        shutil.copytree(self.sample.folder, place / "home", copy_function=shutil.copy2)
        try:
            yield Home(place / "home")
        finally:
            shutil.rmtree(place)

    def look(self, command: Command) -> Sample:
        """What the command does when all goes well."""
        with self.home() as home:
            before = traces(home.folder)
            ended = self.runs.run(home, words_of(command, home))
            assert ended.code == command.code, ended
            calls = {call: ended.calls.count(call) for call in {*ended.calls}}
            return Sample(command, before, traces(home.folder), calls)


def _benches(
    folder: Path, figure: Figure, long: bool
) -> Iterator[tuple[Bench, Sample, random.Random]]:
    """Every command with what it does when all goes well; nothing where no library can be made."""
    library = compiled()
    if library is None:
        figure.skipped = MISSING
        return
    sample = sample_home(folder / "sample")
    dice = random.Random(f"{figure.fault} {long}")
    with Runs.under(library) as runs:
        bench = Bench(runs, sample, folder)
        for command in COMMANDS if long else dice.sample(COMMANDS, DOSE):
            yield bench, bench.look(command), dice


def in_order(ended: Ended) -> None:
    """A sentence, no traceback, and in time."""
    assert ended.code != -signal.SIGALRM, "it hung"
    assert ended.code in (0, 1, 2), f"it ended with {ended.code}\n{ended.err}"
    assert "Traceback" not in ended.out + ended.err, ended.err
    assert "Exception ignored" not in ended.err, ended.err
    if ended.code and not _on_streams(ended):
        assert ended.err or ended.out, "it ended without a word"


def _on_streams(ended: Ended) -> bool:
    """Whether the struck call was one on what it says."""
    return "/said-" in ended.struck


def _whole(sample: Sample, after: Mapping[str, Trace], at_rest: bool = True) -> None:
    """No file under its final name is empty, half written or another than before or after."""
    for name, trace in after.items():
        if _passes(name):
            continue
        wanted = [them[name].much for them in (sample.before, sample.after) if name in them]
        as_it_should = not wanted or trace.much in wanted or _is_blank(trace)
        # What cannot be read of a damaged book is left out, whatever keeps it from being read.
        as_it_should |= "saved-" in name and trace.much != "damaged"
        assert as_it_should, f"{name} is neither the old one nor the new one"
    gone = {name for name in sample.before if name in sample.after and name not in after}
    assert not gone or not at_rest, f"gone: {gone}"


def _is_blank(trace: Trace) -> bool:
    """A sound book in which nothing stands yet."""
    return isinstance(trace.much, dict) and not trace.much["clinic"]


def _passes(name: str) -> bool:
    """Drafts, and what is there while a program runs."""
    return ".new/" in name or name.startswith("tmp/") or name.endswith(("-holder", *SIDE_FILES))


def _nothing_left(sample: Sample, after: Mapping[str, Trace], figure: Figure) -> None:
    left = [name for name in after if name not in sample.before and name not in sample.after]
    left = [name for name in left if not _is_one_more(name, sample) and not _PROBE.fullmatch(name)]
    figure.left_behind += len(left)
    assert not left, f"left behind: {left}"


def _is_one_more(name: str, sample: Sample) -> bool:
    """A backup of another moment, which a second run makes when the first was killed after one.

    Or what the doctor saved, and told, of a book of which it could not read a page just then.
    """
    return name.rstrip("'") in {*sample.before, *sample.after} or "saved-" in name


def _as_told(sample: Sample, ended: Ended, after: Mapping[str, Trace]) -> None:
    """What is told as done is done, and what is told as refused is not."""
    aside = () if _ON_BACKUPS & {*sample.command.words} else ("backups", "stick")
    wanted = {
        name
        for name, trace in sample.after.items()
        if sample.before.get(name) != trace and not name.startswith(aside)
    }
    changed = {name for name in wanted if sample.before.get(name) != after.get(name)}
    changed |= {name for name in sample.before if name in wanted and name not in after}
    if ended.code:  # a new book in which nothing stands is as good as none
        changed -= {name for name in changed if name in after and _is_blank(after[name])}
    if ended.code == sample.command.code == 0:
        assert changed == wanted, f"told as done: {wanted - changed}"
    if ended.code and not sample.command.code and changed and not _on_streams(ended):
        assert DONE in ended.err, f"refused but done ({changed}): {ended.err}"
    if not changed:
        assert DONE not in ended.err, f"done but not seen: {ended.err}"


def _kept(sample: Sample, before: Home, home: Home, figure: Figure) -> None:
    """The books are sound, and every grade is there."""
    said = trouble(home.book)
    assert not said, f"the doctor says: {said}"
    for place in ("backups", "stick"):
        for copy in backups.backup_paths(home.folder / place):
            backups.read_backup(copy)
    if not sample.command.takes_away:
        lost = ratings(before.book) - ratings(home.book)
        figure.lost += len(lost)
        assert not lost, f"{len(lost)} grades are lost"
    beside = [name for name in side_files(home.folder) if name.startswith("book.db")]
    figure.left_behind += len(beside)
    assert not beside, f"left beside the book: {beside}"
