"""No place shows days of different drills beside each other without saying so: random clinics."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path
from random import Random

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.court_state import earlier_rounds
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.trend_player import WORKING, StrokeView, page
from courtlog.courtside.surface.trend_charts import axis_slots
from courtlog.courtside.surface.trend_lines import any_other_drills, list_lines, shared_axis
from courtlog.courtside.surface.trend_strips import player_strips
from courtlog.logbook.reads.trend_lookups import roster_trends
from courtlog.reports.facts.cue_facts import trend_facts
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.pages.cue_table import trend_text
from courtlog.reports.pages.day_text import day_text
from courtlog.reports.takehome.takehome_facts import take_home
from courtlog.reports.takehome.takehome_html import takehome_html
from courtlog.values import jsonable
from tests.court import DAY, LIBRARY, desk_in, player
from tests.logbook.reads.test_trend_lookups import play_on

DRILLS = ("forehand/hand-feed", "forehand/racquet-feed", "forehand/live")
CUE = "turn"
SAID = re.compile(r"~ other drills than on (day \d|the first day), or than each\s+other: a lower")


def random_clinic(desk: Desk, dice: Random) -> dict[int, dict[str, int]]:
    """Three days of Maren; by day the seen balls of the first cue on each drill."""
    mixes: dict[int, dict[str, int]] = {}
    pool = DRILLS[: dice.randint(1, 3)]
    for day in range(3):
        mix = mixes.setdefault(day, {})
        for _ in range(dice.randint(1, 2)):
            drill, balls = dice.choice(pool), dice.randint(1, 9)
            tokens = [dice.choice(("222", "022", "-22", "202")) for _ in range(balls)]
            seen = sum(token[0] != "-" for token in tokens)
            mix[drill] = mix.get(drill, 0) + seen
            on = DAY - timedelta(2 - day)
            play_on(desk, desk.view.clinic.id, on, " ".join(tokens), drill)
    return mixes


def differing_days(mixes: dict[int, dict[str, int]]) -> set[int]:
    """Days whose seen balls are of other drills than those of the first day with any."""
    drills = {day: {drill for drill, n in mix.items() if n} for day, mix in mixes.items()}
    first = next((kinds for kinds in drills.values() if kinds), set())
    return {day for day, kinds in drills.items() if kinds and kinds != first}


@pytest.mark.parametrize("seed", range(12))
def test_days_of_other_drills_are_marked_wherever_they_are_shown(tmp_path: Path, seed: int) -> None:
    desk = desk_in(tmp_path, drill=None)
    other = differing_days(random_clinic(desk, Random(seed)))
    clinic = desk.view.clinic
    facts = trend_facts(desk.book, clinic, "Maren")
    turn = next(cue for cue in facts.cues if cue.cue == CUE)
    json = next(cue for cue in jsonable(facts)["cues"] if cue["cue"] == CUE)
    marked = {at for at, day in enumerate(json["days"]) if day["other_drills"]}
    assert other <= marked
    trends = roster_trends(desk.book, clinic.id)
    axis = shared_axis(trends)
    stroke = next(trend for trend in trends if trend.player.name == "Maren").strokes[0]
    row = list_lines(trends, axis, DAY, 140)[:1]
    strips = str(player_strips(trends[0], {}, DAY, 100, 20))
    assert (f"{turn.name}~" in strips) is bool(marked), (
        "a strip is a column a round: its name is marked"
    )
    screen = str(page(StrokeView(axis_slots(stroke.dates), stroke.cues, 0, "x"), WORKING, 90, 40))
    assert any_other_drills(trends) is bool(marked)
    home = takehome_html(take_home(desk.book, clinic, "Maren", LIBRARY))
    printed = (day_text(day_facts(desk.book, clinic, None, "Maren")), trend_text(facts))
    for text in (*printed, screen, home):
        shown = {day: f"{turn.days[day].counts.words()}~" in text for day in marked}
        if text is not printed[0]:
            assert all(shown.values())
        assert not marked or SAID.search(text)
    for line in (*row, *printed):
        beside_bars_or_name = rf"{turn.name}(.*[▁-█·])?~"
        assert not marked or re.search(beside_bars_or_name, line, re.S)


def test_where_all_days_are_of_one_drill_nothing_is_marked(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    for day in range(3):
        play_on(desk, desk.view.clinic.id, DAY - timedelta(day), "222 022 202")
    clinic = desk.view.clinic
    facts = trend_facts(desk.book, clinic, "Maren")
    texts = (
        day_text(day_facts(desk.book, clinic, None, "Maren")),
        trend_text(facts),
        takehome_html(take_home(desk.book, clinic, "Maren", LIBRARY)),
    )
    assert not any("~" in text for text in texts)


def test_the_court_shows_the_rounds_of_the_drill_on_court(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    clinic = desk.view.clinic
    play_on(desk, clinic.id, DAY - timedelta(1), "222 222", "forehand/live")
    play_on(desk, clinic.id, DAY - timedelta(1), "022", "forehand/hand-feed")
    desk.clinic.open_day(clinic.id, DAY, "2", "Ines")
    desk.rounds.start(player(desk, "Maren"), LIBRARY.drill("forehand/hand-feed"), Purpose.PRACTICE)
    view = desk.view
    rounds = earlier_rounds(desk.book, view.clinic, view.day, view.live)[0]
    assert [f"{each.made} of {each.seen}" for each in rounds] == ["0 of 1"]
