"""`courtlog drills list|show|check`."""

from __future__ import annotations

import sys
import textwrap
from pathlib import Path

import typer

from courtlog import locations
from courtlog.cli.common import drill_folders, library
from courtlog.coaching.game.drills import Cue, Drill, Ladder
from courtlog.errors import UnknownNameError
from courtlog.library.drill_files import read_folders
from courtlog.plain_text import plain

WIDTH = 78


def list_drills(stroke: str | None) -> None:
    """Print one line a drill."""
    held = library()
    ladders = [held.ladder(stroke)] if stroke else [held.ladders[s] for s in sorted(held.ladders)]
    for ladder in ladders:
        print(f"{plain(ladder.title)}")
        for drill in ladder.in_rung_order():
            name = f"{ladder.stroke}/{drill.key}"
            print(
                f"  {drill.rung}  {name:<30} {plain(drill.name):<34}"
                f"{drill.station:<6} {drill.balls:>3}"
            )


def show_drill(name: str) -> None:
    """Print one drill as a page."""
    ladder, drill = library().drill(name)
    print("\n".join(_page(ladder, drill)))


def check_drills(folder: Path | None) -> None:
    """Print every mistake of every drill file; the exit code is 1 if there is one."""
    if folder is not None and not folder.is_dir():
        raise UnknownNameError(f"There is no folder {folder}.", "Name a folder of drill files.")
    folders = [locations.shipped_drills(), folder] if folder else drill_folders()
    held, problems = read_folders(folders)
    for problem in problems:
        print(plain(str(problem)), file=sys.stderr)
    if problems:
        count = len(problems)
        print(f"courtlog: {count} mistake{'s' * (count > 1)}.", file=sys.stderr)
        raise typer.Exit(1)
    print(f"{len(held.names())} drills of {len(held.ladders)} strokes: no mistakes.")


def _page(ladder: Ladder, drill: Drill) -> list[str]:
    kit = ", ".join(drill.kit) or "nothing"
    order = "" if len(drill.spots) == 1 else f" ({drill.order})"
    lines = [
        *_wrapped("", f"{ladder.title} · {drill.name}"),
        "=" * WIDTH,
        f"rung {drill.rung} of {ladder.top} · {drill.feed} feed · {drill.balls} balls a round · "
        + ("at the feed" if drill.station == "feed" else "alone"),
        *_wrapped("spots", ", then ".join(drill.spots) + order),
        *(
            _wrapped("tough", f"{drill.tough} of {drill.balls} balls planned")
            if drill.tough
            else ()
        ),
        *_wrapped("kit", kit),
        "",
        *_wrapped("", drill.run),
        "",
        *_wrapped("look at", drill.look),
        *_wrapped("caution", drill.caution),
    ]
    for key in ladder.first_cues:
        cue = ladder.cue(key)
        if cue is not None:
            lines += ["", *_cue(cue)]
    others = [plain(cue.name) for cue in ladder.cues if cue.key not in ladder.first_cues]
    if others:
        lines += ["", *_wrapped("", f"Other cues of this stroke: {', '.join(others)}.")]
    return lines


def _cue(cue: Cue) -> list[str]:
    return [
        *_wrapped("", f"{cue.name} ({cue.part}): say “{cue.say_inner}” or “{cue.say_outer}”"),
        *_wrapped("  made", cue.made),
        *_wrapped("  near", cue.near),
        *_wrapped("  missed", cue.missed),
    ]


def _wrapped(label: str, text: str) -> list[str]:
    indent = " " * 10 if label else ""
    return textwrap.wrap(
        plain(" ".join(text.split())),
        WIDTH,
        initial_indent=f"{label:<10}" if label else "",
        subsequent_indent=indent,
    )
