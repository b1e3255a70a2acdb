"""The block of a cue on the close look: its strip has the height of the block, words stay whole."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.surface.layout import CourtLayout
from courtlog.reports.layout.cue_strip import cue_strip
from tests.court import DAY, LIBRARY, SHIPPED, desk_in, feed, player
from tests.courtside.screen import on_court, stands_in
from tests.logbook.reads.test_trend_lookups import play_on

YARDSTICK, PRACTICE = Purpose.YARDSTICK, Purpose.PRACTICE


def third_day(folder: Path) -> Desk:
    """Two days with a yardstick and a practice each, then six balls of a practice today."""
    desk = desk_in(folder)
    here = desk.view.clinic.id
    for days in (2, 1):
        on = DAY - timedelta(days)
        play_on(desk, here, on, "222 222 222 222 000 000 000 000", purpose=YARDSTICK)
        play_on(desk, here, on, "222 222 222 222 222 222")
        play_on(desk, here, on, "200 200 200")
    desk.clinic.open_day(here, DAY, "2", "Ines")
    desk.rounds.start(player(desk, "Maren"), LIBRARY.drill("forehand/hand-feed"), PRACTICE)
    feed(desk, "222 222 222 000 000 000")
    return desk


def seen_on(days: int, purpose: Purpose, made: int, seen: int) -> CueRound:
    return CueRound(DAY - timedelta(days), purpose, made, seen)


EARLIER = [
    seen_on(days, purpose, made, seen)
    for days in (2, 1)
    for purpose, made, seen in ((YARDSTICK, 4, 8), (PRACTICE, 6, 6), (PRACTICE, 3, 3))
]


@pytest.mark.parametrize(
    ("size", "rows", "width"),
    [((80, 24), 3, 20), ((100, 30), 5, 16), ((120, 40), 9, 16), ((200, 60), 14, 60)],
)
def test_a_strip_has_the_height_of_its_block(
    tmp_path: Path, size: tuple[int, int], rows: int, width: int
) -> None:
    text = on_court(third_day(tmp_path), size=size)
    turn = cue_strip([*EARLIER, seen_on(0, PRACTICE, 3, 6)], DAY, rows, width, 3)
    assert len(turn) == rows
    assert stands_in(turn, text), text
    assert "▀ yardstick" in text


def test_a_ball_changes_the_last_column_as_a_restart_would(tmp_path: Path) -> None:
    desk = third_day(tmp_path)
    feed(desk, "022 022")
    turn = cue_strip([*EARLIER, seen_on(0, PRACTICE, 3, 8)], DAY, 3, 20, 3)
    assert stands_in(turn, on_court(desk))
    feed(desk, "<<<<<<<<")
    turn = cue_strip([*EARLIER, seen_on(0, PRACTICE, 3, 6)], DAY, 3, 20, 3)
    assert stands_in(turn, on_court(desk))


def test_a_yardstick_on_court_hides_the_strip(tmp_path: Path) -> None:
    desk = third_day(tmp_path)
    desk.rounds.start(player(desk, "Maren"), LIBRARY.drill("forehand/hand-feed"), YARDSTICK)
    text = on_court(desk)
    assert "no running share" in text
    assert not set("█░▀▬") & set(text)


def test_four_cues_have_their_strips_beside_them_and_both_phrases_whole(tmp_path: Path) -> None:
    desk = third_day(tmp_path)
    lines = on_court(desk, ["f3", "down", "down", "space", "enter"]).splitlines()
    strips = [line for line in lines if line.endswith("░ ▅█░ ▅")]
    assert len(strips) == 3, "the fourth cue was never watched"
    under = [lines[lines.index(line) + 1].strip() for line in strips]
    assert [words[0] + words[-1] for words in under] == ["“”"] * 3


@pytest.mark.parametrize("size", [(80, 24), (100, 30), (120, 40), (200, 60)])
def test_no_phrase_of_any_drill_is_cut(tmp_path: Path, size: tuple[int, int]) -> None:
    for stroke, ladder in SHIPPED.ladders.items():
        desk = desk_in(tmp_path / stroke, drill=None)
        desk.rounds.start(None, (ladder, ladder.drills[-1]), PRACTICE)
        live = desk.view.live
        assert live is not None
        text = on_court(desk, size=size)
        for cue in live.cues:
            assert f"“{cue.say_inner}”" in text, text
            assert f"“{cue.say_outer}”" in text, text


def test_no_two_parts_of_any_size_overlap(tmp_path: Path) -> None:
    desk = third_day(tmp_path)
    layout = CourtLayout([], [])
    for width in range(40, 210, 7):
        for height in range(8, 66, 3):
            boxes = [box for _, box in layout(width, height, desk.view)]
            for index, box in enumerate(boxes):
                assert box.right <= width, (width, height, box)
                assert not any(box.overlaps(other) for other in boxes[:index]), (width, height)
