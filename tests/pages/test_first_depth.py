"""What is read first is short, plain, and true to the book: over samples and drawn clinics."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import cast

import pytest

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.voice.rung_voice import rung_statement
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.screens.review import page_of
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.reports.facts.blind_facts import blind_readings_of_all
from courtlog.reports.facts.change_models import StrokeChange
from courtlog.reports.facts.day_facts import day_facts, player_facts
from courtlog.reports.facts.models import DayFacts, PlayerFacts
from courtlog.reports.facts.plan_facts import facts_of, plans
from courtlog.reports.facts.plan_models import PlanFacts
from courtlog.reports.pages.review_text import ReviewPage
from courtlog.reports.takehome.takehome_facts import TakeHome, take_home
from courtlog.reports.takehome.takehome_front import front
from courtlog.reports.takehome.takehome_message import takehome_message
from tests.claims.sentences import CURVE_OF
from tests.pages import counted_again
from tests.pages.counted_again import Counts, rows_of
from tests.pages.drawn_blind import rate_blind
from tests.pages.drawn_books import NOW, in_book
from tests.pages.drawn_clinics import drawn_clinic, numbers
from tests.pages.first_depth import faults, sentences_of, statements, word_faults
from tests.reports.pages.test_pages import SAMPLES, sample
from tests.samples.generator import shipped_library

LIBRARY = shipped_library()


@dataclass(frozen=True, slots=True)
class Told:
    """A clinic in a book, and all facts that pages of it are made of."""

    book: Book
    here: Clinic
    days: dict[date, DayFacts]
    players: list[PlayerFacts]
    sheets: list[TakeHome]
    plan: PlanFacts

    def pages(self) -> dict[str, object]:
        """What each page says, by its name."""
        return {
            "day": [*self.days.values()],
            "player": self.players,
            "take-home": [front(sheet) for sheet in self.sheets],
            "plan": self.plan,
            "review": list(reviews(self.book, self.here)),
        }


def reviews(book: Book, here: Clinic) -> Iterator[ReviewPage]:
    """The review of each player's last round of each purpose."""
    days = {day.id: day for day in lookups.days(book, here.id)}
    rounds = book.db.execute(
        "SELECT max(id), day_id FROM round WHERE EXISTS"
        " (SELECT 1 FROM ball WHERE round_id = round.id AND taken) GROUP BY player_id, purpose"
    )
    for round_id, day_id in rounds.fetchall():
        view = cast(CourtView, SimpleNamespace(clinic=here, day=days[day_id]))
        yield page_of(book, view, lookups.live_round(book, round_id), Speak.PLAN)


@pytest.fixture(scope="module", params=[*SAMPLES, *numbers()], ids=str)
def told(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Told]:
    """Both samples, and the drawn clinics."""
    folder: Path = tmp_path_factory.mktemp("clinic")
    if isinstance(request.param, str):
        book = create_or_open(folder / "book.db", NOW)
        put_in(book, read_sheet(sample(request.param), "sheet", LIBRARY, "UTC"), LIBRARY, NOW)
        here = lookups.clinics(book)[0]
    else:
        book, here = in_book(folder, drawn_clinic(request.param))
        rate_blind(book, here)
    # A skill curve takes longer than all the rest, and has no first-depth sentence.
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(CURVE_OF, lambda *_: None)
        dates = lookups.dates(book, here.id)
        names = [player.name for player in lookups.players(book, here.id)]
        days = {on: day_facts(book, here, on, None) for on in dates}
        players = [player_facts(book, here, name) for name in names]
        sheets = [take_home(book, here, name, LIBRARY) for name in names]
        tomorrow = dates[-1] + timedelta(days=1)
        plan = facts_of(plans(book, here, tomorrow, LIBRARY), book, here, LIBRARY)
        yield Told(book, here, days, players, sheets, plan)
    book.close()


def test_a_wrong_sentence_is_noticed() -> None:
    assert faults("Turn: 6 of 19 balls on Monday, 16 of 19 on Friday, same feed, no help.") == []
    assert faults("Turn: early hint, 21% (up).") == [
        *["says 'early hint'", "has '%'", "has '('", "has ')'"]
    ]
    assert word_faults("Stay on forehand/fence.") == ["names the key 'forehand/fence'"]
    assert faults("Go " * 20 + "on.") == ["21 words"]
    (grade,) = faults("Considerable improvement materialised overnight.")
    assert grade.startswith("reading grade")


def test_each_first_sentence_is_short_and_plain(told: Told) -> None:
    wrong = {
        f"{page}, {name}: {sentence}": found
        for page, facts in told.pages().items()
        for name, statement in statements(facts)
        for sentence in sentences_of(statement.sentence)
        if (found := faults(sentence))
    }
    assert wrong == {}


def test_what_was_rated_blind_is_among_them(tmp_path: Path) -> None:
    """The drawn clinics have every sentence on it: begun, whole, by luck, by the coach again."""
    found: set[str] = set()
    for number in numbers():
        (folder := tmp_path / str(number)).mkdir()
        book, here = in_book(folder, drawn_clinic(number))
        rate_blind(book, here)
        for reading in blind_readings_of_all(book, here):
            found |= {"begun"} if reading.rated < reading.clips else {"whole"}
            found |= {"own"} if reading.own else {"another's"}
            found |= {"in doubt" if cue.in_doubt else "not in doubt" for cue in reading.cues}
        book.close()
    assert found == {"begun", "whole", "own", "another's", "in doubt", "not in doubt"}


def test_the_message_to_paste_is_as_plain(told: Told) -> None:
    for sheet in told.sheets:
        _, _, message = takehome_message(sheet).partition(": ")
        for sentence in sentences_of(message):
            assert faults(sentence) == [], message


def test_the_short_form_has_no_word_that_the_sentence_may_not_have(told: Told) -> None:
    shorts = [said.short for _, said in statements(told.pages())]
    assert {short: found for short in shorts if (found := word_faults(short))} == {}


COUNTS = re.compile(r"(\d+) of (\d+)")
ALL_MADE = re.compile(r"all (\d+) balls")
NONE_MADE = re.compile(r"none of (\d+) yet")


def counts_in(sentence: str) -> list[Counts]:
    """The counts a sentence tells: `6 of 19`, `all 12 balls`, `none of 9 yet`, `the 1 ball`."""
    found = [(int(made), int(seen)) for made, seen in COUNTS.findall(sentence)]
    found += [(int(seen), int(seen)) for seen in ALL_MADE.findall(sentence)]
    found += [(0, int(seen)) for seen in NONE_MADE.findall(sentence) if (0, int(seen)) not in found]
    return found + [(1, 1)] * ("made on 1 ball" in sentence)


def strokes(told: Told) -> Iterator[tuple[str, date, StrokeChange]]:
    """Every stroke of every player: on each day, and over the whole clinic."""
    for on, facts in told.days.items():
        yield from ((p.player, on, change) for p in facts.players for change in p.changes)
    for player in told.players:
        yield from ((player.player, player.dates[-1], change) for change in player.changes)


def test_each_change_counts_what_the_book_has(told: Told) -> None:
    for player, on, stroke in strokes(told):
        rows = rows_of(told.book, player, stroke.stroke, on)
        for cue in stroke.cues:
            where = f"{player}, {on}, {stroke.stroke} {cue.cue}"
            then_and_now = counted_again.yardsticks(rows, cue.cue)
            said = counts_in(cue.said.change.sentence)
            assert said == then_and_now or (not then_and_now and len(said) < 2), where
            dots = [(y.balls.count("2"), len(y.balls.replace("-", ""))) for y in cue.yardsticks]
            assert dots == then_and_now, where
            for statement, again in (
                (cue.said.overnight, counted_again.night(rows, cue.cue)),
                (cue.said.practice, counted_again.practice(rows, cue.cue)),
                (cue.said.tough, counted_again.tough(rows, cue.cue)),
            ):
                assert counts_in(statement.sentence) == again, f"{where}: {statement.sentence}"


def test_all_cues_at_once_counts_what_the_book_has(told: Told) -> None:
    for player, on, stroke in strokes(told):
        rows = rows_of(told.book, player, stroke.stroke, on)
        keys = [cue.cue for cue in stroke.cues]
        together = counted_again.whole_stroke(rows, keys) if len(keys) > 1 else []
        again = counted_again.yardsticks(together, "all")
        assert counts_in(stroke.whole.sentence) == again, f"{player}, {on}: {stroke.whole.sentence}"


def test_the_good_thing_and_the_one_thing_count_what_the_book_has(told: Told) -> None:
    for player, on, stroke in strokes(told):
        rows = rows_of(told.book, player, stroke.stroke, on)
        keys = {cue.plain_name: cue.cue for cue in stroke.cues}
        seen = [row for row in rows if any(row.grades.get(k) is not None for k in keys.values())]
        last = [row for row in rows if seen and row.day == seen[-1].day]
        counted = {key: counted_again.made_of_seen(last, key) for key in keys.values()}
        for statement in (stroke.good, stroke.one_thing):
            if not statement or statement.sentence.endswith("more of it."):
                continue
            name = re.sub(r"^(Good|One thing): |,.*| came near.*", "", statement.sentence)
            (said,) = counts_in(statement.sentence)
            made, of = counted[keys[name]]
            if "came near" in statement.sentence:
                made = sum(row.grades.get(keys[name]) == 1 for row in last)
            assert said == (made, of), f"{player}, {on}: {statement.sentence}"
        if any(made for made, _ in counted.values()):
            assert stroke.good, f"{player}, {on}: nothing good is said"


def test_the_rung_call_counts_no_ball_that_was_not_practised(told: Told) -> None:
    for on, facts in told.days.items():
        for player in facts.players:
            for made, seen in counts_in(player.rung_said.sentence):
                most = max(
                    counted_again.made_of_seen(rows, cue.cue)[1]
                    for stroke in player.changes
                    for rows in [rows_of(told.book, player.player, stroke.stroke, on)]
                    for cue in stroke.cues
                )
                assert made <= seen <= most, f"{player.player}, {on}: {player.rung_said.sentence}"


def test_the_rung_of_any_shipped_drill_is_said_shortly() -> None:
    for name in LIBRARY.names():
        _, drill = LIBRARY.drill(name)
        for sentence in sentences_of(rung_statement(None, {}, drill.name).sentence):
            assert faults(sentence) == [], drill.name
