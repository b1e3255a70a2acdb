"""The people of a clinic on the screen: the first screen, the roster, the cards, what was seen."""

from __future__ import annotations

from pathlib import Path

import pytest
from rich.cells import cell_len
from textual.events import Key
from textual.pilot import Pilot

from courtlog import settings as settings_file
from courtlog.coaching.game.cards import Focus, PlayerCard
from courtlog.coaching.game.people import Clinic
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.people import roster_lines
from courtlog.errors import BookError
from courtlog.logbook.reads import people_lookups
from courtlog.logbook.reads.clinic_lookups import FirstDay
from courtlog.logbook.reads.people_lookups import entries
from courtlog.logbook.writes import clinic_writer
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.pages.day_text import day_text
from courtlog.reports.pages.roster_text import card_text
from courtlog.reports.takehome.takehome_facts import take_home
from courtlog.reports.takehome.takehome_html import takehome_html
from courtlog.reports.takehome.takehome_text import takehome_text
from tests.court import (
    DAY,
    LIBRARY,
    START,
    Clock,
    again,
    close_look,
    desk_in,
    feed,
    open_book,
    player,
    written,
)
from tests.courtside.screen import flat, line_with, on_court, shown

SIX = "Maren, Tove left, Ruben, Anouk, Ilse, Pilou"
SET_UP = [
    *("Harbour Week", "enter"),
    *(SIX, "enter"),
    *("enter", "enter"),  # forehand, right hand
    *("Ines", "enter"),
    *("enter", "enter"),  # court 1, the laptop's zone
    "space",  # the first ball, clean
]

KEYS_A_SECOND = 5
"""A slow typist: common practice, no source."""


def typed(parts: list[str]) -> list[str]:
    """Words as single keys."""
    return [key for part in parts for key in ([part] if part in ("enter", "space") else list(part))]


def empty_desk(folder: Path) -> Desk:
    return Desk(open_book(folder), lambda: LIBRARY, close_look(review=False), Clock())


def cards(desk: Desk) -> list[PlayerCard]:
    return [entry.card for entry in entries(desk.book, desk.view.clinic.id)]


@pytest.mark.parametrize("size", [(80, 24), (80, 20)])
def test_from_an_empty_book_to_the_first_rated_ball(tmp_path: Path, size: tuple[int, int]) -> None:
    desk = empty_desk(tmp_path)
    keys = typed(SET_UP)
    text = on_court(desk, keys, size=size)
    assert len(keys) / KEYS_A_SECOND < 20, "well under a minute"
    assert "Harbour Week · day 1 · Tue 12 May · court 1 · coach Ines" in text
    live = again(desk).view.live
    assert live is not None
    assert (live.player.name, live.drill.name) == ("Maren", "forehand/hand-feed")
    assert str(live.purpose) == "choosing"
    assert written(live.feeding) == "222"
    assert [card.name for card in cards(desk)] == [
        name.removesuffix(" left") for name in SIX.split(", ")
    ]
    assert [card.hand for card in cards(desk)] == ["", "left", "", "", "", ""]


def test_keys_that_come_all_at_once_land_on_their_lines(tmp_path: Path) -> None:
    """As after a moment in which the machine stood still."""
    desk = empty_desk(tmp_path)

    async def burst(pilot: Pilot[None], app: CourtlogApp) -> None:
        for key in typed(SET_UP[:-1]):
            app.post_message(Key(key, None if key == "enter" else key))
        while desk.book.db.execute("SELECT count(*) FROM bookmark").fetchone() == (0,):
            await pilot.pause()

    on_court(desk, then=burst)
    assert desk.view.clinic.name == "Harbour Week"
    assert [player.name for player in desk.view.roster][-1] == "Pilou"


def test_how_many_keys_a_clinic_of_six_takes() -> None:
    assert len(typed(SET_UP)) == 67


def test_the_stroke_and_the_pad_are_moved_with_arrows_and_kept(tmp_path: Path) -> None:
    desk, path = empty_desk(tmp_path), tmp_path / "settings.json"
    keys = [*"Bay", "enter", *"Ada", "enter", "left", "enter", "right", "enter", *["enter"] * 3]
    text = on_court(desk, [*keys, "e"], settings_path=path)
    assert settings_file.read(path).pad == "left"
    live = again(desk).view.live
    assert live is not None
    assert (
        live.drill.stroke
        == sorted(
            set(LIBRARY.ladders) - {"forehand"}, key=lambda stroke: LIBRARY.ladders[stroke].title
        )[-1]
    ), "one before the first is the last"
    assert "[e ◐]" in text


def test_every_stroke_has_a_first_drill_with_a_ball() -> None:
    feeds = {stroke: str(ladder.first_fed.feed) for stroke, ladder in LIBRARY.ladders.items()}
    assert feeds.pop("serve") == "self"
    assert set(feeds.values()) == {"hand"}


def test_the_first_screen_explains_its_line(tmp_path: Path) -> None:
    text = on_court(empty_desk(tmp_path), [*"Bay", "enter"], size=(80, 20))
    assert "left or minor after one: Tove left, Mila minor." in flat(text)
    for title in ("clinic", "players", "stroke", "your pad", "your name", "court", "days"):
        assert title in text


def test_a_clinic_from_the_command_line_is_asked_only_what_is_missing(tmp_path: Path) -> None:
    desk = empty_desk(tmp_path)
    made = clinic_writer.begin_clinic(
        desk.book, Clinic(0, "Bay", "Europe/Lisbon"), FirstDay("3", "Ines"), START
    )
    text = on_court(desk)
    assert "Bay has no day yet." in text
    assert "players" in text
    assert "your name" not in text
    PeopleWriter(desk.book).add_players(made.id, [PlayerCard(name="Ada")], START)
    assert "players" not in on_court(desk)
    text = on_court(desk, ["enter", "enter", "space"])
    assert "Bay · day 1 · Tue 12 May · court 3 · coach Ines" in text
    live = again(desk).view.live
    assert live is not None
    assert written(live.feeding) == "222"


def test_a_new_clinic_beside_an_older_one_is_offered(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    made = clinic_writer.begin_clinic(
        desk.book, Clinic(0, "Bay", "Europe/Lisbon"), FirstDay("", "Ines"), START
    )
    PeopleWriter(desk.book).add_players(made.id, [PlayerCard(name="Maren")], START)
    text = on_court(again(desk), ["escape"])
    assert "Harbour Week · day 1" in text, "Escape goes on where the book was left"
    other = Desk(desk.book, lambda: LIBRARY, desk.settings, desk.clock)
    assert "Escape goes on with Harbour Week" in flat(on_court(other))
    assert "Bay · day 1" in on_court(other, ["enter"])
    assert again(desk).view.clinic.name == "Bay"


def test_a_card_is_filled_in_and_kept_on_the_last_line(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    keys = ["f9", "down", "enter", "enter", *"To", "enter", "left", "enter", "enter"]
    keys += [*"steady", *["enter"] * 4, *"120", "enter", "left", "enter", *"home 7", "enter"]
    keys += ["right", "right", "enter", "enter", *"her father", "enter"]
    text = on_court(desk, keys)
    tove = cards(desk)[1]
    assert tove == PlayerCard(
        name="Tove",
        short="To",
        hand="left",
        level="steady",
        limit=120,
        age="minor",
        contact="home 7",
        filming="yes",
        filming_on="2026-05-12",
        filming_by="her father",
    )
    assert "minor" in line_with(text, "Tove")
    assert "home 7" not in text, "a contact is shown on the card alone"


def test_escape_leaves_a_card_as_it_was(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    before = cards(desk)
    text = on_court(desk, ["f9", "2", "backspace", "escape"])
    assert "Tov " in text, "the digit opened Tove's card, and Backspace took one letter"
    assert "Escape again leaves without keeping what was typed." in text
    assert "► 2 Tove" in on_court(desk, ["f9", "2", *"xyz", "enter", "escape", "escape"])
    assert cards(desk) == before


def test_a_minor_is_added_by_a_word_after_the_name(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["f9", "a", *"Mila minor", "enter"])
    assert cards(desk)[-1] == PlayerCard(name="Mila", age="minor")


def test_a_mistake_on_a_card_is_said_and_nothing_is_kept(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    before = cards(desk)
    text = on_court(desk, ["f9", "enter", *["down"] * 8, *"many", "ctrl+s"])
    assert "Ball limit is a whole number from 1 to 2000" in text
    assert cards(desk) == before
    text = on_court(desk, ["f9", "enter", *["backspace"] * 5, *"Tove", "ctrl+s"])
    assert "Tove is on the roster already." in text
    assert cards(desk) == before


def test_a_second_player_of_a_name_is_asked_about_and_told_apart(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["f9", "a", *"tove", "enter", "escape", "escape"])
    assert len(cards(desk)) == 3
    on_court(desk, ["f9", "a", *"Tove", "enter", "enter", "escape"])
    assert [one.shown_name for one in desk.view.roster] == ["Maren", "Tove 1", "Ruben", "Tove 2"]
    text = on_court(again(desk), ["y", *"tove 2", "enter", "space"])
    assert "Tove 2" in text
    assert "next up: Maren, then Tove 1" in text
    people = entries(desk.book, desk.view.clinic.id)
    PeopleWriter(desk.book).edit_card(
        desk.view.clinic.id, people[3].player.id, PlayerCard(name="Tove", short="Vee"), START
    )
    assert player(desk, "Vee").id == people[3].player.id
    assert player(desk, "Tove (Vee)").id == people[3].player.id
    assert player(desk, "tove 1").id == people[1].player.id


def test_a_second_player_of_a_name_is_refused_unless_it_is_said(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    with pytest.raises(BookError, match="maren is on the roster already"):
        PeopleWriter(desk.book).add_players(
            desk.view.clinic.id, [PlayerCard(name="Cleo"), PlayerCard(name="maren")], START
        )
    assert len(cards(desk)) == 3


def test_players_change_places(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    text = on_court(desk, ["f9", "d", "d", "d", "u"])
    assert [card.name for card in cards(desk)] == ["Tove", "Maren", "Ruben"]
    assert text.index("Tove") < text.index("► 2 Maren") < text.index("Ruben")
    assert [one.name for one in again(desk).view.roster] == ["Tove", "Maren", "Ruben"]


def test_keys_typed_for_the_list_are_never_ratings(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["f9", "o", "k", "space", "f9"])
    live = again(desk).view.live
    assert live is not None
    assert live.empty


NAMES = {
    "none": (),
    "one": ("Maren",),
    "twelve": tuple(f"Player {n}" for n in range(1, 13)),
    "forty": tuple(f"Player {n}" for n in range(1, 41)),
    "wide": ("深" * 80, "Tove"),
    "right to left": ("\u05de\u05e8\u05df", "\u202eneraM", "Tove"),
    "zero width": ("Ma\u200bren", "e\u0301" * 30, "Tove"),
    "markup": ("[bold red]x[/]", "\x1b[31mred", "=1+1"),
}

SMALL = (40, 12)


@pytest.mark.parametrize("size", [(80, 24), (120, 40), SMALL, (20, 5)])
@pytest.mark.parametrize("names", NAMES.values(), ids=NAMES)
def test_any_roster_fits(
    tmp_path: Path, names: tuple[str, ...], size: tuple[int, int], long_run: bool
) -> None:
    if not long_run and size != SMALL and names not in (NAMES["none"], NAMES["forty"]):
        pytest.skip("names of every kind on every size belong to the long run")
    desk = desk_in(tmp_path, names=names)
    text = on_court(desk, ["f9", "end"], size=size)
    assert all(cell_len(line) <= size[0] for line in text.splitlines())
    assert not {"\x1b", "\u202e", "\u200b"} & set(text)
    if not names:
        assert size[0] < 40 or "Nobody is on the roster yet" in text
    elif size[1] > 5:
        assert "►" in text
    on_court(again(desk), ["f9", "end", "enter", "enter", "escape", "escape"], size=size)
    assert [card.name for card in cards(desk)] == list(names)


def test_columns_stand_under_each_other(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, names=("深" * 80, "e\u0301" * 20, "Tove"))
    lines = roster_lines(entries(desk.book, desk.view.clinic.id), 78)
    assert {cell_len(line) for line in lines} == {78}


def test_a_hidden_character_of_a_name_survives_the_form(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, names=("\x1b[31mred",))
    on_court(desk, ["f9", "enter", *["down"] * 4, *"new", "ctrl+s"])
    assert cards(desk) == [PlayerCard(name="\x1b[31mred", level="new")]


def test_what_the_coach_saw_is_kept_with_the_cues(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)

    async def say(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert "What is good already" in shown(app.screen)
        assert "The player reads this at home" in flat(shown(app.screen))
        assert focus_of(desk).cues == ("turn", "spacing"), "kept before anything is asked"
        await pilot.press(*"calm head", "enter", *"arm crowds", "enter")

    text = on_court(desk, ["f3", "end", "space", "w"], then=say)
    assert "Kept for Maren" in text
    assert (focus_of(desk).strengths, focus_of(desk).why) == ("calm head", "arm crowds")
    text = on_court(again(desk), ["f3", "w", "escape"])
    assert focus_of(desk).strengths == "calm head", "Escape keeps the cues and the words before"
    assert "calm head" in on_court(again(desk), ["f3", "w"])
    card = on_court(again(desk), ["f9", "enter"])
    assert "good already: calm head / cues: turn, spacing because arm crowds" in flat(card)


def test_what_the_coach_saw_is_printed(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_0_2")
    on_court(desk, ["f3", "w", *"[b]calm head", "enter", *"arm crowds", "enter"])
    clinic = desk.view.clinic
    page = flat(day_text(day_facts(desk.book, clinic, DAY, None)))
    assert "saw Forehand · good already: [b]calm head / cues: turn, spacing, finish" in page
    assert "because arm crowds" in page
    sheet = take_home(desk.book, clinic, "Maren", LIBRARY)
    assert sheet.written == ("Your coach wrote on day one: “[b]calm head”.",)
    assert sheet.written[0] in flat(takehome_text(sheet))
    assert "arm crowds" not in takehome_text(sheet)
    assert "[b]calm head" in takehome_html(sheet)
    (entry, *_) = entries(desk.book, clinic.id)
    looks = people_lookups.focuses_in_words(desk.book, clinic.id, entry.player.id)
    assert "good already: [b]calm head" in flat(card_text(entry, looks))


def test_kept_cues_come_first_in_the_next_round(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    on_court(desk, ["f3", "end", "space", "enter", "tab"])
    assert again(desk).view.live is not None
    on_court(again(desk), ["y", *"maren", "enter"])
    live = again(desk).view.live
    assert live is not None
    assert live.player.name == "Maren"
    assert live.cue_keys == ("turn", "spacing")


def focus_of(desk: Desk) -> Focus:
    return people_lookups.focus(
        desk.book, desk.view.clinic.id, player(desk, "Maren").id, "forehand"
    )


def test_the_day_of_the_strengths_stays_while_the_words_stay(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["f3", "w", *"calm head", "enter", "enter"])
    desk.clock.pass_seconds(24 * 3600)  # type: ignore[attr-defined]
    on_court(again(desk), ["escape", "f3", "w", "enter", *"arm", "enter"])
    assert (focus_of(desk).why, focus_of(desk).at_ms) == ("arm", START)
    assert desk.view.day.date == DAY
