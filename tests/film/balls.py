"""Balls on a film as tests draw them: hostile names, windows that overlap, two at one moment."""

from __future__ import annotations

import shutil

import pytest
from hypothesis import strategies as st

from courtlog.coaching.game.grades import LOOKS
from courtlog.film.film_balls import FilmBall

HOSTILE = (
    "Maren\nTove",
    "a\r\n\r\n1\n00:00:00,000 --> 00:00:09,000\nhello",
    "--> <i>Bo</i> &amp; {\\an8}\\N",
    "=;#\\ ]]> <!-- --> [CHAPTER]",
    "%5%100%,title=x;!no_chapters",
    "\u202eabc\u2066\u2028\u2029\x85\x00\x1b[2J",
    "نور ספיר",
    "\\",
    "",
    " ",
    "\ufffe\uffff\U0001f3be",
)
"""Line ends, control characters, markup, signs of every format, right-to-left letters."""

NAMES = st.one_of(
    st.sampled_from(HOSTILE),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=20),
    st.text("\\=;#\n\r<>&-%,:!{}[]/ .", max_size=20),
)
WORDS = [look.word for look in LOOKS.values()]


@st.composite
def film_balls(draw: st.DrawFn) -> list[FilmBall]:
    """Balls in any order, none of which begins and ends at once."""
    balls = []
    for number in range(1, draw(st.integers(0, 6)) + 1):
        start = draw(st.integers(0, 400_000_000) | st.integers(0, 9) | st.integers(0, 9000))
        balls.append(
            FilmBall(
                start_ms=start,
                end_ms=start + draw(st.integers(1, 5000)),
                player=draw(NAMES),
                drill=draw(NAMES),
                number=number,
                cues=tuple(draw(st.lists(st.tuples(NAMES, st.sampled_from(WORDS)), max_size=4))),
                tough=draw(st.booleans()),
                marked=draw(st.booleans()),
            )
        )
    return draw(st.permutations(balls))


def ball(start: float, end: float, **values: object) -> FilmBall:
    """One of Maren's balls, from and to these seconds."""
    usual: dict[str, object] = {
        "player": "Maren",
        "drill": "Racquet feed",
        "number": 7,
        "cues": (("turn", "made"), ("spacing", "missed")),
    }
    return FilmBall(
        start_ms=round(start * 1000),
        end_ms=round(end * 1000),
        **(usual | values),  # type: ignore[arg-type]
    )


TITLE = "Maren · Racquet feed · ball 7 · turn made · spacing missed"

needs_ffmpeg = pytest.mark.skipif(
    not (shutil.which("ffmpeg") and shutil.which("ffprobe")), reason="needs ffmpeg"
)
