"""One new file is asked of several commands at once: only one of them says that it wrote it."""

from __future__ import annotations

import shutil
from pathlib import Path

from courtlog import stale_drafts
from tests.cli.program import Home
from tests.faults.calls import in_order
from tests.faults.figures import Figure
from tests.faults.library import MISSING, compiled
from tests.faults.runs import Runs
from tests.faults.table import sample_home

TIMES, LONG_TIMES = 1, 30

PROMISED = (
    "backup copy.db",
    "takehome Maren --html page.html",
    "sheet out --to out.txt",
    "export folder",
)
"""Commands that write a new file or folder, or say that they did not."""

AT_ONCE = 4


def one_new_file(folder: Path, long: bool) -> Figure:
    """Each of the commands several times at once, again and again."""
    figure = Figure("one new file asked of several commands at once")
    library = compiled()
    if library is None:
        figure.skipped = MISSING
        return figure
    sample = sample_home(folder / "sample")
    with Runs.under(library) as runs:
        for words in PROMISED * (LONG_TIMES if long else TIMES):
            place = folder / "trial"
            place.mkdir()
            shutil.copytree(sample.folder, place / "home")
            home = Home(place / "home")
            with figure.trial(words):
                ends = runs.run_together(home, [words.split()] * AT_ONCE, "none 0 0")
                for ended in ends:
                    in_order(ended)
                told = {ended.code: ended.err for ended in ends}
                well = sum(ended.code == 0 for ended in ends)
                assert well == 1, f"{well} say that they wrote it: {told}"
                places = _folders(home.folder)
                left = [str(draft) for place in places for draft in stale_drafts.left_in(place)]
                figure.left_behind += len(left)
                assert not left, left
            shutil.rmtree(place)
    return figure


def _folders(folder: Path) -> list[Path]:
    return [folder, *(path for path in folder.rglob("*") if path.is_dir())]
