"""`courtlog film pair` in hard cases: times alike, two strokes, days that share little, Ctrl+C."""

from __future__ import annotations

import html
import re
import shlex
import shutil
import signal
import sys
from pathlib import Path

import pytest

from courtlog.cli.ctrl_c import INTERRUPTED
from tests.cli.filmed_yardsticks import (
    BOTH,
    FIRST,
    LAST,
    NOW,
    SLATE_AT,
    Yardstick,
    filmed,
)
from tests.cli.program import Home
from tests.film.balls import needs_ffmpeg
from tests.film.bar_films import times_shown
from tests.reports.browser import browser
from tests.reports.html_checks import needs_browser

pytestmark = needs_ffmpeg

PAIR = ("film", "pair", "Maren", "--films", "phone")


def clips(home: Home) -> Path:
    return home.folder / "pairs" / "clips"


def refusal(home: Home, *words: str) -> str:
    said = home.run(*words)
    assert (said.code, said.out) == (1, "")
    assert not (home.folder / "pairs").exists()
    return " ".join(said.err.split())


def test_two_balls_of_one_second_are_told_apart_by_the_tenth(home: Home) -> None:
    """By who chooses one, and in the command on the page, which is obeyed as it stands there."""
    keys = (8, 16, 24.2, 24.7, 40)
    filmed(home, rounds=[BOTH[0]._replace(keys=keys), BOTH[1]])
    told = refusal(home, *PAIR, "--then", "turn=08:30:24")
    assert told.endswith(
        "Two balls were rated then: 08:30:24.2 and 08:30:24.7. Write the tenth too."
    )
    assert home.run(*PAIR, "--then", "turn=08:30:24.7").code == 0
    (still,) = times_shown(clips(home) / "maren_1-turn-then.jpg")
    assert still == pytest.approx(SLATE_AT + 22.7, abs=0.1)
    page = html.unescape((home.folder / "pairs" / "maren.html").read_text(encoding="utf-8"))
    commands = re.findall(r'data-ball-command="(courtlog .*?)"', page)
    first = shlex.split(commands[0])
    assert first[-1] == "08:30:24.7"
    assert home.run(*first[1:], "--later", "0.3").code == 0


def test_two_strokes_have_their_own_pairs_and_choices(home: Home) -> None:
    """Both strokes have a turn: a time says whose. The drill has one spot for all its balls."""
    backhand = [
        Yardstick(day, balls, keys=(42, 44, 46), drill="backhand-two/self-feed")
        for day, balls in ((FIRST, ["000", "111", "222"]), (LAST, ["111", "111", "111"]))
    ]
    filmed(home, rounds=[BOTH[0], backhand[0], BOTH[1], backhand[1]])
    plain = home.run(*PAIR).lines
    titles = [line.strip().partition(":")[0] for line in plain if line.startswith("  ")]
    assert [title.partition(" · ")[2] for title in titles].count("turn") == 2
    chosen = home.run(*PAIR, "--then", "turn=08:30:46", "--now", "turn=8:30:16").lines
    by_hand = [line for line in chosen if "by hand" in line]
    assert len(by_hand) == 2
    assert [line for line in chosen if line not in by_hand] == [
        line for line in plain if line.split(":")[0] not in {one.split(":")[0] for one in by_hand}
    ]
    said = home.run(*PAIR, "--then", "turn=08:31:59")
    assert "was rated at 08:31:59" in " ".join(said.err.split())


def test_days_that_share_no_ball_alike_have_no_pair(home: Home) -> None:
    filmed(home, rounds=[BOTH[0], Yardstick(LAST, [f"!{ball}" for ball in NOW])])
    assert refusal(home, *PAIR).endswith(
        "The two days share no ball of the same drill and spot, both usual or both tough."
        " Feed the same drill to the same spots on both days."
    )


def test_without_a_ball_of_the_middle_grade_on_film_nothing_else_is_shown(home: Home) -> None:
    """The film begins late: what it shows of that day are misses, and the middle one is made."""
    late = ["222", "222", "222", "000", "000"]
    filmed(home, rounds=[Yardstick(FIRST, late, keys=(-30, -20, -10, 8, 16)), BOTH[1]])
    assert refusal(home, *PAIR).endswith(
        "No two balls of each day's middle grade are on film and fed alike."
        " Choose two with --then and --now."
    )


@pytest.mark.skipif(sys.platform == "win32", reason="a script is no program there")
@pytest.mark.parametrize("again", [False, True])
def test_ctrl_c_while_cutting_leaves_no_half_page(home: Home, tmp_path: Path, again: bool) -> None:
    """On the fifth call of ffmpeg. A page that was there before stays as it was, with its clips."""
    filmed(home)
    if again:
        assert home.run(*PAIR).code == 0
        assert home.run("film", "hit", "first.mp4", "--later", "1").code == 0
    before = home.files()
    folder, real = tmp_path / "programs", shutil.which("ffmpeg")
    folder.mkdir()
    script = folder / "ffmpeg"
    script.write_text(
        f"#!/bin/sh\necho >> {tmp_path}/calls\n"
        f"[ $(wc -l < {tmp_path}/calls) -eq 5 ] && kill -{signal.SIGINT.value} $PPID\n"
        f'exec {real} "$@"\n'
    )
    script.chmod(0o700)
    # Behind `&` a shell has its programs ignore Ctrl-C, and so their own; this one has to heed it.
    heeding = "import signal; signal.signal(signal.SIGINT, signal.default_int_handler)"
    program = (sys.executable, "-c", f"{heeding}; from courtlog.cli.entry import main; main()")
    said = home.run(*PAIR, program=program, PATH=f"{folder}:/usr/bin:/bin")
    assert said.code == INTERRUPTED
    assert (tmp_path / "calls").read_text().count("\n") == 5
    assert home.files() == before
    assert home.run(*PAIR).code == 0


@pytest.mark.browser
@needs_browser
def test_the_commands_on_the_page_make_the_next_page_as_it_was_nudged(
    home: Home, tmp_path: Path
) -> None:
    """Nudged by keys in a browser, typed as shown, made again: each hit is where it was moved."""
    filmed(home)
    assert home.run(*PAIR).code == 0
    page = home.folder / "pairs" / "maren.html"
    hits = "return stages.map(stage => stage.clips.map(clip => clip.hitPanel"
    outputs = f"{hits}.querySelector('output').textContent))"
    codes = f"{hits}.querySelector('code').textContent))"
    with browser(tmp_path / "profile") as window:
        for far, moves in ((0.3, "fff"), (-0.2, "ddddd")):
            window.open(page)
            window.until("stages.every(stage => stage.shown.every(clip => !clip.isSeeking))")
            assert {word for two in window.run(outputs) for word in two} == {"hit as in the book"}
            window.press(*moves)
            if far > 0:
                window.press_with_shift("K")
            shown = {line for two in window.run(codes) for code in two for line in code.split("\n")}
            shown.discard("")
            assert len(shown) == (2 if far > 0 else 1)
            for line in sorted(shown):
                command, *words = shlex.split(line)
                assert command == "courtlog"
                assert home.run(*words).code == 0
            assert home.run(*PAIR).code == 0
            (then,) = times_shown(clips(home) / "maren_1-turn-then.jpg")
            assert then == pytest.approx(SLATE_AT + 14 + far, abs=0.06)
            for cue, key in (("1-turn", 16), ("2-spacing", 8), ("3-finish", 24)):
                (now,) = times_shown(clips(home) / f"maren_{cue}-now.jpg")
                assert now == pytest.approx(SLATE_AT + key - 2 + 0.1, abs=0.06)
        window.open(page)
        assert {word for two in window.run(outputs) for word in two} == {"hit as in the book"}
