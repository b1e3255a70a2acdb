"""Printed pages: each number is the measure's own, and no more is said than balls can bear."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pandas as pd
import pytest
from rich.cells import cell_len
from statsmodels.stats.proportion import confint_proportions_2indep

from courtlog import locations
from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.clinic_writer import keep_plan
from courtlog.measures.shares.strata import Stratum, like_for_like
from courtlog.reports.facts.cue_facts import trend_facts
from courtlog.reports.facts.day_facts import day_facts, player_facts
from courtlog.reports.pages.cue_table import trend_text
from courtlog.reports.pages.day_text import day_text
from courtlog.reports.pages.player_text import player_text
from courtlog.reports.takehome.takehome_facts import take_home
from courtlog.reports.takehome.takehome_html import takehome_html
from courtlog.reports.takehome.takehome_text import takehome_text
from courtlog.values import jsonable
from tests.court import LIBRARY, START, open_book

FORBIDDEN = re.compile(r"\b(cause[sd]?|because|cured?|injury risk|safe|safely|root)\b", re.I)

SAMPLES = ("harbour-week.txt", "two-court-weekend.txt")

HEAD = "clinic Bay  zone UTC  days 5\n"


def book_of(folder: Path, sheet: str) -> Book:
    """A book with the clinic of this sheet."""
    book = open_book(folder)
    put_in(book, read_sheet(sheet, "sheet.txt", LIBRARY, "UTC"), LIBRARY, START)
    return book


def sample(name: str) -> str:
    """The text of a sample sheet."""
    return (locations.shipped_samples() / name).read_text(encoding="utf-8")


def day(number: int, *rounds: str) -> str:
    """A day of a sheet: rounds like `yardstick 222*20`, all Ada's on one drill."""
    lines = [f"day 2026-05-{10 + number}  court 1  coach Bo"]
    for text in rounds:
        purpose, *tokens = text.split()
        lines.append(f"player Ada  drill forehand/day-one-feed  purpose {purpose}")
        for token in tokens:
            ball, _, times = token.partition("*")
            lines.append(" ".join([ball] * int(times or 1)))
    return "\n".join(lines) + "\n"


def pages(book: Book) -> dict[str, str]:
    """Every page of the clinic, by name."""
    clinic = lookups.clinics(book)[0]
    found = {}
    for on in sorted({d.date for d in lookups.days(book, clinic.id)}):
        found[f"day {on}"] = day_text(day_facts(book, clinic, on, None))
    for player in lookups.players(book, clinic.id):
        found[f"player {player.name}"] = player_text(player_facts(book, clinic, player.name))
        found[f"trend {player.name}"] = trend_text(trend_facts(book, clinic, player.name))
    return found


@pytest.mark.parametrize("name", SAMPLES)
def test_pages_fit_and_say_nothing_forbidden(tmp_path: Path, name: str) -> None:
    for title, page in pages(book_of(tmp_path, sample(name))).items():
        for line in page.splitlines():
            assert cell_len(line) <= 80, (title, line)
            assert "\x1b" not in line
        assert not FORBIDDEN.search(page), (title, FORBIDDEN.search(page))
        assert "pain" not in page or "licensed" in page


def graded(sheet: str) -> pd.DataFrame:
    """The sheet's balls, read by a parser of its own: one row a ball and cue."""
    rows: list[tuple[object, ...]] = []
    number, drill, purpose, player, cues = 0, "", "", "", [""]
    for line in sheet.splitlines():
        words = line.split()
        if words[:1] == ["day"]:
            number += 1
        elif words[:1] == ["player"]:
            fields = re.split(r"\s{2,}", line)
            player, drill = fields[0].split(" ", 1)[1], fields[1].split()[1]
            purpose, cues = fields[2].split()[1], fields[3].split()[1:]
        elif re.match(r"[-012.]", line):
            for token in re.findall(
                r"(?<!\S)([-012]{1,4}|\.)(!?)(?:@\S+)?(?=\s|$)", re.sub(r'"[^"]*"', "", line)
            ):
                digits = token[0] if token[0] != "." else "-" * len(cues)
                for cue, digit in zip(cues, digits, strict=True):
                    rows.append((player, number, purpose, drill, bool(token[1]), cue, digit))
    names = ["player", "day", "purpose", "drill", "tough", "cue", "digit"]
    frame = pd.DataFrame(rows, columns=names)
    return frame[frame.digit != "-"].assign(made=lambda f: f.digit == "2")


def strata(late: pd.DataFrame, early: pd.DataFrame) -> pd.DataFrame:
    """Made and seen by kind of ball on both sides, for the kinds seen both times."""
    kinds = ["drill", "tough"]
    sides = [f.groupby(kinds).made.agg(["sum", "count"]) for f in (late, early)]
    return sides[0].add_suffix("_late").join(sides[1].add_suffix("_early"), how="inner")


def test_the_players_answer_is_the_one_that_pandas_and_statsmodels_give(tmp_path: Path) -> None:
    """Last yardstick against the first: counts by pandas; difference and interval by statsmodels.

    With one shared kind the interval is statsmodels' Newcombe; with several the difference is the
    Mantel-Haenszel one written out here, and the interval the measure's own on pandas' strata.
    """
    text = sample("harbour-week.txt")
    book = book_of(tmp_path, text)
    clinic = lookups.clinics(book)[0]
    balls = graded(text)
    compared = 0
    for player in lookups.players(book, clinic.id):
        (change,) = [
            c for c in player_facts(book, clinic, player.name).changes if c.stroke == "forehand"
        ]
        for cue in change.cues:
            mine = balls[(balls.player == player.name) & (balls.cue == cue.cue)]
            mine = mine[mine.drill.str.startswith("forehand/")]
            rounds = mine[mine.purpose == "yardstick"].assign(tough=False)  # marks are ignored
            shared = strata(rounds[rounds.day == 5], rounds[rounds.day == 1])
            learning = cue.learning
            assert learning is not None
            assert learning.change is not None
            assert (learning.late_made, learning.late_seen) == (
                shared.sum_late.sum(),
                shared.count_late.sum(),
            )
            assert (learning.early_made, learning.early_seen) == (
                shared.sum_early.sum(),
                shared.count_early.sum(),
            )
            weight = (
                shared.count_late * shared.count_early / (shared.count_late + shared.count_early)
            )
            apart = shared.sum_late / shared.count_late - shared.sum_early / shared.count_early
            assert learning.change == pytest.approx((weight * apart).sum() / weight.sum())
            if len(shared) == 1:
                low, high = confint_proportions_2indep(
                    learning.late_made,
                    learning.late_seen,
                    learning.early_made,
                    learning.early_seen,
                    method="newcomb",
                )
            else:
                found = like_for_like([Stratum(*map(int, row)) for row in shared.to_numpy()])
                assert found is not None
                low, high = found.low, found.high
            assert (learning.low, learning.high) == pytest.approx((low, high), abs=1e-9)
            assert (cue.made, cue.seen) == (mine.made.sum(), len(mine))
            compared += 1
    assert compared == 18


def test_what_is_printed_is_what_is_in_the_json(tmp_path: Path) -> None:
    book = book_of(tmp_path, sample("harbour-week.txt"))
    clinic = lookups.clinics(book)[0]
    facts = player_facts(book, clinic, "Maren")
    page = " ".join(player_text(facts).split())
    data = jsonable(facts)
    for cue in data["changes"][0]["cues"]:
        for sentence in (cue["learned"], *cue["more"], cue["trend"], cue["curve_words"]):
            assert " ".join(sentence.split()) in page


def test_many_balls_not_seen_are_told_wherever_the_share_stands(tmp_path: Path) -> None:
    """A third of the first day's balls and a quarter of the second's; a fifth of the third's."""
    sheet = HEAD + day(1, "practice 2*10 0*4 .*7") + day(2, "practice 2*12 0*3 .*5")
    sheet = sheet.replace("day-one-feed", "day-one-feed  cues turn")
    book = book_of(tmp_path, sheet)
    clinic = lookups.clinics(book)[0]
    first, second = "7 of 21 not seen: 10 to 17 made", "5 of 20 not seen: 12 to 17 made"
    whole = "12 of 41 not seen: 22 to 34 made"
    printed = " ".join(day_text(day_facts(book, clinic, None, None)).split())
    assert f"today {second}; day 1 {first}" in printed
    trend = trend_facts(book, clinic, "Ada")
    assert [cue_day["not_seen"] for cue_day in jsonable(trend)["cues"][0]["days"]] == [
        first,
        second,
    ]
    assert all(words in trend_text(trend) for words in (first, second))
    facts = player_facts(book, clinic, "Ada")
    assert whole in player_text(facts)
    assert jsonable(facts)["changes"][0]["cues"][0]["not_seen"] == whole
    home = take_home(book, clinic, "Ada", LIBRARY)
    assert f"day 1 {first}; day 2 {second}." in takehome_html(home)
    assert second in " ".join(takehome_text(home, EVERYTHING).split())


def test_few_balls_not_seen_are_not_told(tmp_path: Path) -> None:
    book = book_of(tmp_path, HEAD + day(1, "practice 222*10 0-0 --0"))
    clinic = lookups.clinics(book)[0]
    assert "not seen:" not in day_text(day_facts(book, clinic, None, None))
    assert "not seen:" not in player_text(player_facts(book, clinic, "Ada"))


def test_a_curve_that_was_not_drawn_has_no_words(tmp_path: Path) -> None:
    book = book_of(tmp_path, sample("harbour-week.txt"))
    facts = day_facts(book, lookups.clinics(book)[0], None, "Maren")
    cues = [cue for change in facts.players[0].changes for cue in change.cues]
    assert {(cue.curve is None, not cue.curve_words) for cue in cues} == {
        (True, True),
        (False, False),
    }


def test_too_few_balls_for_a_curve_is_said_only_where_they_are_too_few(tmp_path: Path) -> None:
    book = book_of(tmp_path, sample("harbour-week.txt"))
    clinic = lookups.clinics(book)[0]
    worded = 0
    for on in lookups.dates(book, clinic.id):
        for player in day_facts(book, clinic, on, None).players:
            seen = {
                (cue.stroke, cue.cue): sum(day.counts.seen for day in cue.days)
                for cue in player.cues
            }
            for change in player.changes:
                for cue in change.cues:
                    worded += bool(cue.curve_words)
                    if "too few balls" in cue.curve_words:
                        assert seen[change.stroke, cue.cue] < 20
    assert worded


@pytest.mark.parametrize(
    ("sheet", "words"),
    [
        (day(1, "practice 000*12"), ["0 of 12 (0%)", "no yardstick to compare with"]),
        (day(1, "practice .*12"), ["none"]),
        (day(1, "practice 222*4"), ["4 of 4", "too few balls to tell (20 seen balls are needed)"]),
        (day(1, "yardstick 222*20"), ["the yardstick was played once so far"]),
        (
            day(1, "yardstick 000*4") + day(2, "yardstick 222*4"),
            ["4 of 4 on day 2, 0 of 4 on day 1: too few balls to tell"],
        ),
        (
            day(1, "yardstick 000*9") + day(2, "yardstick 222*9"),
            ["9 of 9 on day 2, 0 of 9 on day 1: too few balls to tell (under 16"],
        ),
        (
            day(1, "yardstick 000*10 222*9") + day(2, "yardstick 222*10 000*9"),
            ["10 of 19 on day 2, 9 of 19 on day 1: cannot tell"],
        ),
        (
            day(1, "yardstick 000*40") + day(2, "yardstick 222*40"),
            ["40 of 40 on day 2, 0 of 40 on day 1: may be a gain, +100 points (88 to 100)"],
        ),
    ],
)
def test_the_answer_says_as_much_as_the_balls_bear(
    tmp_path: Path, sheet: str, words: list[str]
) -> None:
    book = book_of(tmp_path, HEAD + sheet)
    page = " ".join(player_text(player_facts(book, lookups.clinics(book)[0], "Ada")).split())
    for sentence in words:
        assert sentence in page
    for page in pages(book).values():
        assert not FORBIDDEN.search(page)


def test_no_percentage_stands_beside_fewer_than_five_balls(tmp_path: Path) -> None:
    book = book_of(tmp_path, HEAD + day(1, "yardstick 220*2") + day(2, "hold 202*2"))
    for page in pages(book).values():
        said = [line for line in page.splitlines() if not re.match(r"^ *\d+%[┤│]", line)]
        assert "%" not in "\n".join(said)


def test_a_player_on_the_roster_without_a_ball_gets_a_page(tmp_path: Path) -> None:
    book = book_of(tmp_path, HEAD + "roster Cy\n" + day(1, "practice 222*9"))
    clinic = lookups.clinics(book)[0]
    for page in (
        player_text(player_facts(book, clinic, "Cy")),
        trend_text(trend_facts(book, clinic, "Cy")),
        day_text(day_facts(book, clinic, None, "Cy")),
    ):
        assert "o balls" in page


@pytest.mark.parametrize(
    ("sheet", "words"),
    [
        (day(1, "choosing 222*9"), "yardstick on"),
        (day(1, "yardstick 222*20", "practice 222*9"), "hold on Day-one feed"),
        (
            day(1, "yardstick 222*20", "practice 222*10"),
            "then practice one rung up from Day-one feed",
        ),
        (day(1, "practice 000*9"), "then practice on Day-one feed"),
    ],
)
def test_tomorrow_is_said_with_its_reason(tmp_path: Path, sheet: str, words: str) -> None:
    book = book_of(tmp_path, HEAD + sheet)
    page = day_text(day_facts(book, lookups.clinics(book)[0], None, None))
    assert words in " ".join(page.split())


def test_the_last_day_has_no_tomorrow(tmp_path: Path) -> None:
    book = book_of(tmp_path, HEAD.replace("days 5", "days 1") + day(1, "practice 222*9"))
    assert "tomorrow" not in day_text(day_facts(book, lookups.clinics(book)[0], None, None))


def test_the_group_says_who_is_ready_and_who_begins(tmp_path: Path) -> None:
    of_bea = day(1, "practice 000*12").replace("Ada", "Bea").split("\n", 1)[1]
    book = book_of(tmp_path, HEAD + day(1, "practice 222*10") + of_bea)
    page = " ".join(day_text(day_facts(book, lookups.clinics(book)[0], None, None)).split())
    assert "ready to move up a rung: Ada" in page
    assert "fewest balls first: Ada, Bea" in page
    clinic, drill = lookups.clinics(book)[0], "forehand/day-one-feed"
    bea = lookups.player_on_roster(book, clinic.id, "Bea")
    kept = [PlannedRound(bea, drill, Purpose.HOLD, 20)]
    keep_plan(book, clinic.id, date(2026, 5, 12), (), kept, START)
    page = " ".join(day_text(day_facts(book, clinic, None, None)).split())
    assert "as planned: Bea" in page
    assert "fewest balls" not in page


@pytest.mark.parametrize(("late", "told"), [("2*38 0*2", True), ("2*20 0*20", False)])
def test_a_page_with_looks_says_once_how_many_are_luck(
    tmp_path: Path, late: str, told: bool
) -> None:
    late = late.replace("2*", "222*").replace("0*", "000*")
    sheet = HEAD + day(1, "practice 222*20 000*20") + day(2, f"practice {late}")
    book = book_of(tmp_path, sheet)
    clinic = lookups.clinics(book)[0]
    page = " ".join(player_text(player_facts(book, clinic, "Ada")).split())
    assert page.count("luck alone makes about 1 in 50 of these comparisons look so") == told
