"""The front of the sheet and the message, for every kind of player: short, kind, true."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from courtlog.coaching.care.home_care import ToldPain, hitting_waits_for
from courtlog.coaching.game.grades import LOOKS
from courtlog.coaching.voice.statement import EVERYTHING, SENTENCE_ONLY, Depth, Statement
from courtlog.logbook.reads import lookups
from courtlog.reports.takehome import takehome_front
from courtlog.reports.takehome.takehome_facts import TakeHome, take_home
from courtlog.reports.takehome.takehome_front import DotRow, FrontLine, front, sessions_words
from courtlog.reports.takehome.takehome_html import takehome_html
from courtlog.reports.takehome.takehome_message import MOST_WORDS, takehome_message
from courtlog.reports.takehome.takehome_text import takehome_text
from tests.claims.sentences import CURVE_OF
from tests.court import LIBRARY
from tests.pages.drawn_books import in_book
from tests.pages.drawn_clinics import DrawnClinic, drawn_clinic, numbers
from tests.pages.fates import Fate
from tests.pages.first_depth import faults, sentences_of, word_faults
from tests.past import day
from tests.reports.takehome.takehome_pages import facts_in, pages

Sheet = tuple[DrawnClinic, Fate, TakeHome]

OF_HITTING = re.compile(
    r"session|swing of|\d swings|week \d|weeks \d|balls a week|day ____|rung", re.I
)


@pytest.fixture(scope="module")
def sheets() -> list[Sheet]:
    """The sheets of every player of the drawn clinics, with the fate of each."""
    found: list[Sheet] = []
    with pytest.MonkeyPatch.context() as patch, tempfile.TemporaryDirectory() as folder:
        patch.setattr(CURVE_OF, lambda *_: None)
        for number in numbers():
            drawn, at = drawn_clinic(number), Path(folder) / str(number)
            at.mkdir()
            book, here = in_book(at, drawn)
            players = lookups.players(book, here.id)
            facts = [take_home(book, here, player.shown_name, LIBRARY) for player in players]
            book.close()
            found += [
                (drawn, drawn.fates[player.name], sheet)
                for player, sheet in zip(players, facts, strict=True)
            ]
    return found


def of_fate(sheets: list[Sheet], *fates: Fate) -> list[TakeHome]:
    """The sheets of the players of these fates; there are some."""
    found = [facts for _, fate, facts in sheets if fate in fates]
    assert found
    return found


def lines(facts: TakeHome) -> Iterator[FrontLine]:
    for section in front(facts):
        yield from section.lines


def test_every_sentence_of_the_front_is_short_and_plain(sheets: list[Sheet]) -> None:
    every = [facts for *_, facts in sheets] + pages()
    wrong = {
        sentence: found
        for facts in every
        for line in lines(facts)
        for sentence in sentences_of(line.said.sentence)
        if (found := faults(sentence))
    }
    assert wrong == {}


def test_the_words_for_home_of_every_shipped_drill_are_short_and_to_the_player() -> None:
    for ladder in LIBRARY.ladders.values():
        for drill in ladder.drills:
            told = sentences_of(drill.at_home)
            assert len(told) == (2 if drill.station == "alone" else 3), drill.key
            assert [found for sentence in told for found in faults(sentence)] == [], drill.key
            assert "the player" not in drill.at_home, drill.key


def test_the_front_is_some_forty_lines(sheets: list[Sheet]) -> None:
    """46 in the samples at most; four cues, a minor's line and a name of two lines make more."""
    assert max(len(takehome_text(facts).splitlines()) for facts in pages()) <= 46
    assert max(len(takehome_text(facts).splitlines()) for *_, facts in sheets) <= 50


def test_the_front_opens_with_something_good_or_with_nothing(sheets: list[Sheet]) -> None:
    for _, fate, facts in sheets:
        first = front(facts)[0]
        if fate in (Fate.ONLY_MISSES, Fate.ONLY_UNSEEN, Fate.ABSENT):
            assert first.key != "good", fate
        elif fate in (Fate.USUAL, Fate.ALL_MADE, Fate.ONLY_NEAR):
            assert first.key == "good", fate
        assert all(section.lines for section in front(facts))


def test_the_dots_are_the_balls_that_the_sentence_counts(sheets: list[Sheet]) -> None:
    rows = 0
    for *_, facts in sheets:
        for line in lines(facts):
            counts = re.findall(r"(\d+) of (\d+)", line.said.sentence)
            for row, (made, seen) in zip(line.rows, counts, strict=False):
                assert (row.dots.count("●"), len(row.dots.replace("·", ""))) == (
                    int(made),
                    int(seen),
                )
                rows += 1
    assert rows


def test_a_row_of_dots_is_told_to_whoever_does_not_see_it() -> None:
    row = DotRow("Monday", "2100-2")
    assert row.dots == "●◐○○·●"
    assert row.words == "Monday: 2 of 5 balls made"
    assert all(f"{look.mark} {look.word}" in takehome_front.SHAPES for look in LOOKS.values())


def test_an_absent_player_is_told_kindly_and_has_no_form(sheets: list[Sheet]) -> None:
    for facts in of_fate(sheets, Fate.ABSENT):
        for text in (takehome_text(facts, EVERYTHING), takehome_html(facts)):
            assert "No ball of yours was seen at this clinic" in " ".join(text.split())
            assert "First your coach watches some balls" in " ".join(text.split())
            assert not OF_HITTING.search(re.sub(r"<style>.*?</style>", "", text, flags=re.S))


def test_who_left_with_pain_has_nothing_to_hit(sheets: list[Sheet]) -> None:
    """A player with pain 4 who left after four balls took home four weeks of hitting."""
    for facts in of_fate(sheets, Fate.SORE, Fate.RED):
        assert facts.waits is not None
        assert facts.plan is None
        text = " ".join(takehome_text(facts, EVERYTHING).split())
        assert f"You said your pain was {facts.waits.level} of 10, {facts.waits.place}, on" in text
        assert "See a licensed clinician first" in text
        assert not OF_HITTING.search(text), OF_HITTING.search(text)
        assert facts.change is None or not facts.change.good or "WHAT WAS GOOD" in text


@pytest.mark.parametrize(
    ("after", "waits"),
    [
        ("", True),
        ("pain elbow 2", False),
        ("pain 0", False),
        ("pain elbow 4", True),
        ("effort 5", True),
        ("pain knee 1", True),
    ],
)
def test_an_amber_waits_until_the_place_is_asked_about_again(
    tmp_path: Path, after: str, waits: bool
) -> None:
    sheet = (
        "clinic Harbour\nroster Maren\nday 2026-05-12  coach Ines\n"
        "player Maren  drill forehand/hand-feed  cues turn  purpose practice\n2 2 0 2\n"
        "checkin Maren  pain elbow 4  when break\n"
    )
    sheet += f"checkin Maren  {after}  when end\n" if after else ""
    (facts,) = facts_in(tmp_path, sheet)
    assert (facts.waits is not None) is waits
    assert (facts.plan is None) is waits


def test_a_red_without_a_check_in_of_its_own_date_still_waits() -> None:
    assert hitting_waits_for([], [], None) is None
    told = hitting_waits_for([], [day(2), day(4)], None)
    assert told == ToldPain(0, "", day(4))


def test_few_balls_are_counted_and_no_change_is_claimed(sheets: list[Sheet]) -> None:
    for *_, facts in sheets:
        if facts.change is None or facts.can_compare:
            continue
        (so_far,) = [part for part in front(facts) if part.key == "changed"]
        assert so_far.title == "So far"
        told = " ".join(line.said.sentence for line in so_far.lines)
        assert not re.search(r"real|gain|drop|cannot tell|better|worse", told)
        assert not any(line.rows for line in so_far.lines)


def test_a_childs_page_has_no_percentage_and_nobody_else(sheets: list[Sheet]) -> None:
    minors = [(drawn, facts) for drawn, _, facts in sheets if facts.minor]
    assert minors
    for drawn, facts in minors:
        page = re.sub(r"<style>.*?</style>", "", takehome_html(facts), flags=re.S)
        for text in (takehome_text(facts, EVERYTHING), page, takehome_message(facts)):
            assert "%" not in text
            assert not re.search(r"percent|[+-]\d+ points|\(-?\d+ to -?\d+\)", text)
            others = set(drawn.fates) - {facts.player}
            assert not [name for name in others if re.search(rf"\b{re.escape(name)}\b", text)]
        assert "This sheet is about a minor" in page
        assert "<svg" not in page
        if facts.plan is not None and facts.plan.yardstick is not None:
            assert 'class="pen"' in page
            assert "Day by day" in page


def test_a_message_has_at_most_forty_words_and_plain_ones(sheets: list[Sheet]) -> None:
    for _, fate, facts in sheets:
        message = takehome_message(facts)
        assert len(message.split()) <= MOST_WORDS, message
        assert word_faults(message) == [], message
        assert message.startswith(f"{facts.player.split()[0]}: ")
        assert message[-1] in ".”", message
        assert ("licensed clinician" in message) is (
            facts.pain is not None or facts.waits is not None
        )
        assert ("At home" in message or "To think of" in message) is (facts.plan is not None), fate


def test_a_long_drill_and_phrase_leave_a_message_whole(sheets: list[Sheet]) -> None:
    (facts, *_) = [sheet for *_, sheet in sheets if sheet.plan is not None and sheet.told_first]
    assert facts.plan is not None
    assert facts.change is not None
    home = facts.plan.drills[0]
    drill = replace(home.drill, name="a b " * 20)
    plan = replace(facts.plan, drills=(replace(home, drill=drill),))
    change = replace(facts.change, say="slow hands, quick feet")
    message = takehome_message(
        replace(facts, plan=plan, change=change, pain=ToldPain(1, "", day(1)))
    )
    assert len(message.split()) <= MOST_WORDS
    assert message.endswith("If the pain stays, see a licensed clinician.")


def test_reasons_stand_below_their_sentences_when_asked_for(sheets: list[Sheet]) -> None:
    (facts, *_) = [sheet for *_, sheet in sheets if sheet.can_compare]
    assert facts.change is not None
    reasons = [cue.said.change.reason for cue in facts.change.cues if cue.said.change.reason]
    assert reasons
    short = " ".join(takehome_text(facts, SENTENCE_ONLY).split())
    whole = " ".join(takehome_text(facts, Depth(why=True)).split())
    assert all(reason in whole and reason not in short for reason in reasons)
    assert "THE FIGURES" not in whole


def test_the_coachs_own_words_are_quoted(sheets: list[Sheet]) -> None:
    (*_, facts), *_ = [sheet for sheet in sheets if sheet[1] is Fate.USUAL]
    quoted = "Your coach wrote on day one: “she never stops moving”."
    told = replace(facts, written=(quoted,))
    assert FrontLine(Statement(quoted)) in front(told)[0].lines


def test_sessions_by_week() -> None:
    (*_, facts), *_ = [(page,) for page in pages()]
    assert facts.plan is not None
    assert sessions_words(facts.plan.weeks) == (
        "2 sessions a week in weeks 1 and 2, 3 in weeks 3 and 4."
    )
