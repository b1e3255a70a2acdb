"""A form is typed in by its code, looked through, and kept on the card."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from courtlog.coaching.game.cards import PlayerCard, card_of
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.paper.form_session import FormSession
from courtlog.errors import CourtlogError
from courtlog.logbook.file import sheet_drafts
from courtlog.logbook.reads import lookups, people_lookups
from courtlog.logbook.writes.people_writer import PeopleWriter
from tests.court import DAY, desk_in
from tests.courtside.screen import flat, on_court
from tests.courtside.screens.paper.test_typing import typed

PRINTED = DAY + timedelta(3)
"""A date no day of the clinic has: the form's date chooses no day."""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return desk_in(tmp_path)


def code_of(desk: Desk, name: str = "") -> str:
    """The code of this player's form; without a name of a blank one."""
    return str(SheetCode.of(SheetKind.FORM, PRINTED, desk.view.clinic.name, name))


def card(desk: Desk, name: str) -> PlayerCard:
    """The player's card as the book has it."""
    entries = people_lookups.entries(desk.book, desk.view.clinic.id)
    return next(entry.card for entry in entries if entry.player.name == name)


def set_card(desk: Desk, name: str, **values: str) -> None:
    """Put this onto a card."""
    clinic = desk.view.clinic.id
    who = lookups.player_on_roster(desk.book, clinic, name)
    changed = card_of(values, card(desk, name))
    PeopleWriter(desk.book).edit_card(clinic, who.id, changed, desk.clock())


def test_a_form_comes_onto_the_card(desk: Desk) -> None:
    set_card(desk, "Tove", contact="Ada 0123", age="minor", complaints="elbow", level="club")
    text, _ = typed(desk, code_of(desk, "Tove"))
    assert "Tove · form · Harbour Week" in text
    assert "1 Name, as you write it" in text
    assert "9 Date" in text
    assert "0123" not in text
    assert len(text.splitlines()) <= 24
    lines = [*"  ", "enter", "enter", "l", "enter", *["backspace"] * 9, "enter", "enter", "y"]
    text, _ = typed(desk, code_of(desk, "Tove"), [*lines, "enter", *"Volley", "enter"])
    assert "a [ ] asked   y [x] yes   n [ ] no" in text
    text, _ = typed(desk, code_of(desk, "Tove"), ["pagedown", "enter"])
    words = flat(text)
    assert "hand: left" in words
    assert "hand: left, was" not in words
    assert "goal: Volley" in words
    assert "counts once a guardian's name is beside it" in words
    assert "Still open: guardian's yes or no to filming." in words
    by = ["pagedown", "up", "up", *"Ada", "pagedown", "enter"]
    _, outcome = typed(desk, code_of(desk, "Tove"), [*by, "enter"])
    assert outcome == "The card of Tove is kept; `courtlog roster edit` mends it."
    kept = card(desk, "Tove")
    assert (kept.hand, kept.goal, kept.complaints) == ("left", "Volley", "elbow")
    assert (kept.contact, kept.level) == ("Ada 0123", "club")
    assert kept.may_be_filmed
    assert sheet_drafts.codes_of_drafts(desk.book.path) == []
    assert lookups.dates(desk.book, desk.view.clinic.id) == [DAY]


def test_a_blank_form_asks_for_the_name_and_adds_the_player(desk: Desk) -> None:
    text, _ = typed(desk, code_of(desk))
    assert "The name on this form" in text
    name = "Åsa [b]O'Hostile[/b] " + "x" * 50
    keys = [*name, "enter", "m", "enter", "r", "pagedown", "enter", "enter"]
    _, outcome = typed(desk, code_of(desk), keys)
    assert outcome == f"{name} is on the roster of Harbour Week."
    assert (card(desk, name).age, card(desk, name).hand) == ("minor", "right")


def test_who_was_here_before_brings_the_card_where_the_form_is_empty(desk: Desk) -> None:
    set_card(desk, "Tove", contact="Ada 0123", complaints="elbow")
    clinic = lookups.clinics(desk.book)[0]
    desk.book.db.execute("INSERT INTO clinic (id, name, zone) VALUES (7, 'Hill Week', 'UTC')")
    session = FormSession(desk.book, desk.clock)
    code = SheetCode.of(SheetKind.FORM, PRINTED, "Hill Week")
    assert not session.open(session.places(code)[0])
    session.begin_new("Tove")
    session.press("a")
    assert clinic.name in session.keep()
    assert (card(desk, "Tove").age, card(desk, "Tove").contact) == ("adult", "Ada 0123")


def test_a_blank_form_of_somebody_on_the_roster_fills_in_that_card(desk: Desk) -> None:
    before = len(lookups.players(desk.book, desk.view.clinic.id))
    text, _ = typed(desk, code_of(desk), [*"tove", "enter"])
    assert "Tove is on the roster already. Is the form of the same person?" in flat(text)
    keys = [*"tove", "enter", "enter", "down", "a", "pagedown", "enter", "enter"]
    _, outcome = typed(desk, code_of(desk), keys)
    assert outcome.startswith("The card of Tove is kept")
    assert card(desk, "Tove").age == "adult"
    assert len(lookups.players(desk.book, desk.view.clinic.id)) == before


def test_the_look_through_says_what_each_value_was(desk: Desk) -> None:
    """A card has no step in the history: this is the place to see what goes."""
    set_card(desk, "Tove", complaints="elbow " * 30, hand="right", contact="Bo 1", filming="no")
    keys = ["down", "down", "l", "down", *["backspace"] * 200, *"knee", "down", *"Ada", "down", "y"]
    text, _ = typed(desk, code_of(desk, "Tove"), [*keys, "pagedown", "enter"])
    words = flat(text)
    assert "hand: left, was right" in words
    assert "complaints: knee, was elbow elbow" in words
    assert "contact: Ada, was Bo 1" in words
    assert "filming: yes, was no" in words
    assert "filming on: today, was 2026-05-12" in words


def test_what_cannot_be_kept_is_told_and_nothing_is_lost(desk: Desk) -> None:
    keys = ["pagedown", "up", *"soon", "up", "up", "up", "y", "pagedown", "enter"]
    text, _ = typed(desk, code_of(desk, "Tove"), keys)
    assert "Filming on is a date like 2026-05-12, not 'soon'." in flat(text)
    keys = ["pagedown", "up", *["backspace"] * 4, *"2031-01-01", "pagedown", "enter"]
    text, _ = typed(desk, code_of(desk, "Tove"), keys)
    assert "The date in line 9 is still to come" in text
    _, outcome = typed(desk, code_of(desk, "Tove"), ["escape", "t", "y"])
    assert outcome == "Thrown away; the book is as it was."
    assert sheet_drafts.codes_of_drafts(desk.book.path) == []
    assert card(desk, "Tove").filming == ""


def test_long_answers_leave_the_keys_of_the_look_through_in_sight(desk: Desk) -> None:
    code = SheetCode.from_text(code_of(desk, "Tove"))
    session = FormSession(desk.book, desk.clock)
    assert session.open(session.places(code)[0])
    for line, letters in ((3, 500), (4, 200), (6, 200), (7, 80)):
        while session.in_hand.line < line:
            session.press("enter")
        for _ in range(letters):
            assert session.press("漢")
        assert not session.press("漢")
    session.press("up")
    session.press("up")
    session.press("y")
    session.press("pagedown")
    text, _ = typed(desk, code_of(desk, "Tove"))
    assert max(map(len, text.splitlines())) <= 80
    text, _ = typed(desk, code_of(desk, "Tove"), ["pagedown", "enter"])
    assert "Enter keeps it" in text
    assert len(text.splitlines()) <= 24


def test_from_the_court(desk: Desk) -> None:
    keys = ["escape", "enter", "comma", *code_of(desk, "Tove").lower().replace("-", ""), "enter"]
    text = on_court(desk, [*keys, "down", "down", "l", "pagedown", "enter", "enter"])
    assert "The card of Tove is kept" in text
    assert card(desk, "Tove").hand == "left"


def test_a_code_of_nobody_here_is_told(desk: Desk) -> None:
    session = FormSession(desk.book, desk.clock)
    with pytest.raises(CourtlogError, match="of no clinic and player"):
        session.places(SheetCode.of(SheetKind.FORM, DAY, "Hill Week", "Tove"))


def test_erasing_deletes_a_half_typed_form_a_blank_one_too(desk: Desk) -> None:
    typed(desk, code_of(desk), [*"Ada", "enter", "m", "enter"])
    typed(desk, code_of(desk, "Tove"), ["down", "m", "enter"])
    clinics = [desk.view.clinic.name]
    assert len(sheet_drafts.codes_of_drafts(desk.book.path)) == 2
    assert sheet_drafts.delete_drafts_of(desk.book.path, clinics, {"Ruben"}) == 0
    assert sheet_drafts.delete_drafts_of(desk.book.path, clinics, {"ada"}) == 1
    assert sheet_drafts.delete_drafts_of(desk.book.path, clinics, {"Tove"}) == 1
