"""The page of a blind rating as one HTML file: clips by number, and a form to print.

Nothing on it tells a day, a time, a player, a drill or a grade.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from courtlog.coaching.game.drills import Cue
from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.film.clip import Clip
from courtlog.plain_text import capital, many
from courtlog.reports.layout.html_elements import escaped, paragraph, section
from courtlog.reports.layout.picture_words import PICTURE_WORDS
from courtlog.reports.stage.stage_html import StageVideo, stage
from courtlog.reports.stage.stage_keys import keys_list
from courtlog.reports.stage.stage_page import stage_page

HOW = (
    "These clips are of two days, as many of each, in shuffled order.",
    "Rate each one by itself, in the order of the numbers, and guess no day.",
    "What cannot be seen is not rated: write a dash.",
)
GIVES_AWAY = (
    "Clothes, light, the height of the sun, the court or the camera's place may still show the"
    " day.",
    "If possible, somebody should rate who was not there.",
)
TO_TYPE = (
    "Whoever types the form in writes a line for each clip: its number, then its digits, like"
    " “{line}”."
)
_BOX = '<span class="box"></span>'
_STYLE = """\
.clip-list h3 { font-size: 1.5rem; }
.form { border-collapse: collapse; }
.form th, .form td { border: 1px solid #000; padding: .7mm 1.5mm; text-align: center; }
.mark { display: inline-flex; align-items: center; gap: 1mm; margin: 0 1mm; }
.box { display: inline-block; width: 7.4mm; height: 7.4mm; border: 1px solid #000; }
@media print {
  .form td { white-space: nowrap; }
  .clip-list, .looks { display: none; }
  #paper, .form { break-inside: auto; }
  .form thead { display: table-header-group; }
  .form tr { break-inside: avoid; }
}
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindClips:
    """What the page shows."""

    code: str
    """The four letters that name it."""
    cues: Sequence[Cue]
    """What is rated on each clip."""
    clips: Sequence[Clip]
    """The clips by their number, from 1."""


def blind_html(page: BlindClips) -> str:
    """The whole file."""
    return stage_page(f"Clips to rate, page {page.code}", "\n".join(_body(page)), _STYLE)


def _body(page: BlindClips) -> Iterator[str]:
    yield f"<header><h1>Clips to rate, page {escaped(page.code)}</h1></header>\n<main>"
    yield from map(paragraph, HOW)
    yield section("looks", "What to look at", _looks(page.cues))
    yield keys_list(("clip",), hits_move=False)
    yield section("clip-list", many(len(page.clips), "clip"), _clips(page.clips))
    yield section("paper", "Form", _form(page))
    yield section("may-show", "What may show the day", map(paragraph, GIVES_AWAY))
    yield "</main>"
    yield f"<footer>{''.join(map(paragraph, PICTURE_WORDS))}</footer>"


def _looks(cues: Sequence[Cue]) -> Iterator[str]:
    for cue in cues:
        looks = {Grade.MISSED: cue.missed, Grade.NEAR: cue.near, Grade.MADE: cue.made}
        lines = "".join(
            f"<dt>{LOOKS[grade].digit} {LOOKS[grade].word}</dt><dd>{escaped(look)}</dd>"
            for grade, look in looks.items()
        )
        yield f"<h3>{escaped(capital(cue.name))}</h3>\n<dl>{lines}</dl>"


def _clips(clips: Sequence[Clip]) -> Iterator[str]:
    for number, clip in enumerate(clips, 1):
        label = f"Clip {number}"
        yield stage(label, [StageVideo(label=label, lines=(), clip=clip)])


def _form(page: BlindClips) -> Iterator[str]:
    """A row a clip with a box for each grade of each cue."""
    grades = [LOOKS[grade] for grade in Grade]
    line = f"7 {'2' * len(page.cues)}"
    yield paragraph(f"Page {page.code}, rated by: ______________________")
    yield paragraph(TO_TYPE.format(line=line))
    yield paragraph(", ".join(f"{look.digit} {look.word}" for look in grades) + ", - not seen")
    heads = "".join(f'<th scope="col">{escaped(capital(cue.name))}</th>' for cue in page.cues)
    boxes = "".join(f'<span class="mark">{look.digit}{_BOX}</span>' for look in grades)
    yield f'<table class="form"><thead><tr><th scope="col">Clip</th>{heads}</tr></thead>\n<tbody>'
    for number, _ in enumerate(page.clips, 1):
        cells = f"<td>{boxes}</td>" * len(page.cues)
        yield f'<tr><th scope="row">{number}</th>{cells}</tr>'
    yield "</tbody></table>"
