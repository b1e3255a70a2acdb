"""Every place that speaks says the same: court, day, player, take-home sheet, plan and JSON."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise
from pathlib import Path

import pytest

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.reports.facts.change_models import ChangeFacts
from courtlog.reports.facts.day_facts import day_facts, player_facts
from courtlog.reports.facts.plan_facts import facts_of, plans
from courtlog.reports.pages.plan_text import plan_text
from tests.claims.clinics import DAYS, clinic
from tests.claims.histories import name_of, record
from tests.claims.sentences import CURVE_OF
from tests.claims.told import Told, evening, last_evening, parts, review
from tests.claims.worlds import WORLDS
from tests.samples.generator import shipped_library

NOW = 1_780_000_000_000
PLAYERS = 2
NAMES = [f"Player {number}" for number in range(1, PLAYERS + 1)]
LAST = len(DAYS)
EVERYWHERE = ("yardstick", "practice", "overnight", "tough", "trend")
DRAWN = [("change-20", 4), ("planned", 5), ("streaks", 6)]
"""The world and the number of each clinic."""

Clinics = tuple[Book, Clinic]


@pytest.fixture(scope="module", params=DRAWN, ids=[world for world, _ in DRAWN])
def drawn(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Clinics:
    """A random clinic in a book."""
    world, number = request.param
    folder: Path = tmp_path_factory.mktemp(world)
    book = create_or_open(folder / "book.db", NOW)
    players = clinic(WORLDS[world], number)[:PLAYERS]
    assert [name_of(player) for player in players] == NAMES
    put_in(book, record(world, players), shipped_library(), NOW)
    return book, lookups.clinics(book)[0]


@pytest.fixture(autouse=True)
def no_curves(monkeypatch: pytest.MonkeyPatch) -> None:
    """A skill curve takes longer than all the rest, and it is told as a level, not as a change."""
    monkeypatch.setattr(CURVE_OF, lambda *_: None)


def by_claim(told: Iterable[Told]) -> dict[tuple[str, str], dict[str, set[str]]]:
    """For each cue and kind of claim the wordings, each with the places that have it."""
    claims: dict[tuple[str, str], dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
    for each in told:
        claims[each.cue, each.kind][each.words].add(each.place)
    return claims


def places(told: Iterable[Told]) -> set[tuple[str, str]]:
    """Who tells what kind of claim, printed or as JSON."""
    return {(each.place.partition(",")[0], each.kind) for each in told}


def test_every_place_tells_a_claim_in_the_same_words(drawn: Clinics) -> None:
    book, here = drawn
    heard = set()
    for player in NAMES:
        for day in range(1, LAST + 1):
            told = list(evening(book, here, player, day))
            if day == LAST:
                told += last_evening(book, here, player)
            heard |= places(told)
            unlike = {claim: words for claim, words in by_claim(told).items() if len(words) > 1}
            assert not unlike, f"{player}, day {day}"
    assert heard >= {
        *[(page, kind) for page in ("day", "player") for kind in EVERYWHERE],
        ("review", "yardstick"),
        ("take-home", "yardstick"),
    }
    holds = {place for place, kind in heard if kind == "hold"}
    assert holds == ({"review", "day", "player"} if WORLDS[here.name].as_planned else set())


def test_every_printed_place_is_read(drawn: Clinics) -> None:
    book, here = drawn
    told = [*evening(book, here, NAMES[0], LAST), *last_evening(book, here, NAMES[0])]
    learned = {each.place for each in told if each.kind == "yardstick"}
    assert learned == {
        "review",
        *[f"{page}, {way}" for page in ("day", "player") for way in ("printed", "JSON, yardstick")],
        *[f"{page}, JSON, sentences" for page in ("day", "player")],
        "take-home, printed",
        "take-home, HTML",
    }


def told_by_fields(part: ChangeFacts) -> tuple[str, str]:
    """The counts and the verdict of the fields, in the words of a sentence."""
    counts = (
        f"{part.late_made} of {part.late_seen} {part.late},"
        f" {part.early_made} of {part.early_seen} {part.early}: "
    )
    words = {
        "clearly up": "a real gain",
        "clearly down": "a real drop",
        "could be either": "cannot tell",
        "worth a look: up": "may be a gain",
        "worth a look: down": "may be a drop",
    }
    if part.late == "on tough balls":
        words |= {"worth a look: up": "may be higher", "worth a look: down": "may be lower"}
    return counts, words.get(part.verdict, part.verdict)


def test_the_fields_of_json_say_what_their_sentence_says(drawn: Clinics) -> None:
    book, here = drawn
    for player in NAMES:
        days = [day_facts(book, here, on, player).players[0].changes for on in DAYS]
        for changes in (*days, player_facts(book, here, player).changes):
            for part in [p for c in changes for cue in c.cues for p in parts(cue).values()]:
                assert part.change is not None
                counts, verdict = told_by_fields(part)
                assert part.sentence.startswith(counts + verdict)
                if verdict.endswith((" gain", " higher", " drop", " lower")):
                    assert (part.change > 0) is verdict.endswith((" gain", " higher"))


def test_the_plan_of_the_next_day_follows_the_rung_call_of_review_and_day(drawn: Clinics) -> None:
    book, here = drawn
    library = shipped_library()
    for day, following in pairwise(DAYS):
        both = plans(book, here, following, library)
        facts = facts_of(both, book, here, library)
        reasons = {reason.player: reason.rounds for reason in facts.reasons}
        printed = " ".join(plan_text(facts, EVERYTHING).split())
        for standing in both.standings:
            player = standing.player.shown_name
            (page,) = day_facts(book, here, day, player).players
            assert f"Rung: {page.rung}" in review(book, here, player, day)
            assert page.ready is page.rung.startswith("ready to move up")
            assert bool(page.slipping) is page.rung.startswith("look again")
            (why,) = [why for why in reasons[player] if why.startswith("practice: ")]
            words = why.removeprefix("practice: ").removeprefix("too few balls to tell: ")
            assert f"{words}." == page.rung
            assert page.rung in printed
            drills = {
                line.drill: line.rung or 0
                for block in facts.blocks
                for line in block
                if line.player == player and line.purpose is Purpose.PRACTICE
            }
            (rung,) = drills.values()
            at = standing.left_on
            assert (rung > at.rung, at.drill in drills) == (page.ready, not page.ready)
            assert ("then practice one rung up from" in page.tomorrow) is page.ready
