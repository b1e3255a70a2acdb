"""Take-home sheets of the sample clinics and of clinics of a few lines."""

from __future__ import annotations

import re
import tempfile
from dataclasses import replace
from functools import cache
from pathlib import Path

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.library.sheet_in import read_sheet
from courtlog.locations import shipped_samples
from courtlog.logbook.reads import lookups
from courtlog.reports.takehome.takehome_facts import TakeHome, take_home
from courtlog.reports.takehome.takehome_sheet import DATE, RATER
from courtlog.reports.takehome.takehome_text import takehome_text
from tests.court import LIBRARY, START, open_book

SHEETS = sorted(shipped_samples().glob("*.txt"), key=lambda file: file.name)
SHEETS = [file for file in SHEETS if file.name != "README.txt"]


def facts_in(folder: Path, sheet: str, minors: bool = False) -> list[TakeHome]:
    """The sheets of everybody on the roster of this clinic; all of them adults, or all minors."""
    folder.mkdir(exist_ok=True)
    book = open_book(folder)
    put_in(book, read_sheet(sheet, "test", LIBRARY, "UTC"), LIBRARY, START)
    if minors:
        book.db.execute("UPDATE player SET age_group = 'minor'")
    clinic = lookups.clinics(book)[-1]
    roster = lookups.players(book, clinic.id)
    found = [take_home(book, clinic, player.name, LIBRARY) for player in roster]
    book.close()
    return found


def pages() -> list[TakeHome]:
    """The sheets of every player of every sample."""
    return list(_pages())


@cache
def _pages() -> tuple[TakeHome, ...]:
    """The same, worked out once."""
    with tempfile.TemporaryDirectory() as folder:
        return tuple(
            facts
            for file in SHEETS
            for facts in facts_in(Path(folder) / file.stem, file.read_text(encoding="utf-8"))
        )


def text_of(folder: Path, round_: str, player: str = "Maren") -> str:
    """The sheet's front and back of a clinic of one forehand round of Maren, on one line."""
    balls = re.sub(r"(\S+)\*(\d+)", lambda m: " ".join([m[1]] * int(m[2])), round_)
    sheet = (
        "clinic Harbour\nroster Maren\nroster Tove\nday 2026-05-12  coach Ines\n"
        f"player Maren  drill forehand/hand-feed  cues turn spacing finish  {balls}\n"
    )
    found = {facts.player: facts for facts in facts_in(folder, sheet)}
    return takehome_text(found[player], EVERYTHING).replace("\n  ", " ")


def sheet_of(text: str) -> str:
    """The sheet that is printed on a page."""
    return text[text.index("\nclinic ") + 1 : text.index("\n\nTAKE CARE")]


def filled(sheet: list[str], ball: str) -> str:
    """The sheet as a player gives it back: each blank a ball, dates and rater written."""
    dates = iter(["2026-06-20", "2026-07-20"])
    lines = [
        re.sub(r"(?<= )_+$|(?<![\w_])_{2,4}(?![\w_-])", ball, line)
        if line.startswith("_")
        else line.replace(RATER, "Ada")
        for line in sheet
    ]
    return "\n".join(line.replace(DATE, next(dates)) if DATE in line else line for line in lines)


def of_every_kind(folder: Path) -> list[TakeHome]:
    """Who hit nothing, who left with pain, a child, and a front with all that it can hold."""
    sheet = SHEETS[0].read_text(encoding="utf-8")
    sore = sheet + '\ncheckin Maren  pain "left elbow" 4  when end  time 17:30\n'
    (maren, *_) = facts_in(folder / "sore", sore)
    (child, *_) = facts_in(folder / "child", sheet, minors=True)
    full = crowded(folder / "full")
    assert full.pain is not None
    words = f"Your coach wrote on day one: “{'she never stops moving and ' * 7}stays calm”."
    pain = replace(full.pain, place="left shoulder and both elbows")
    return [maren, child, replace(full, written=(words,), pain=pain, minor=False)]


def crowded(folder: Path) -> TakeHome:
    """The sheet of a player with a long name, twelve days, four cues, pain and a second stroke."""
    name, cues = "Marie-Antoinette " * 4 + "Lund", "turn low-to-high spacing finish"
    lines = [f"clinic {'Long Harbour Summer Week ' * 3}", f"roster {name}", "roster Tove"]
    for day in range(1, 13):
        lines.append(f"day 2026-06-{day:02}  court {day}  coach Ines Maria Alvares")
        for purpose in ("yardstick", "practice"):
            lines.append(
                f"player {name}  drill forehand/racquet-feed  purpose {purpose}  cues {cues}"
            )
            lines.append(" ".join(["2201!", "0120", "222-", "1012"] * (4 + day // 2)))
        lines.append(f"player {name}  drill backhand-two/hand-feed  purpose yardstick")
        lines.append(" ".join(["220"] * (20 + day)))
        lines.append('pain "left shoulder and elbow" 2')
    return facts_in(folder, "\n".join(lines))[0]
