"""Lists: a plain key for each line, the likely one first, and nothing taken by accident."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.commands import table
from courtlog.courtside.commands.looks import AllCommands
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS, shown_key
from courtlog.courtside.dialogs.paged_list import PagedList, whole_part
from courtlog.courtside.dialogs.questions import DIGITS, PickList
from tests.court import LIBRARY, again, close_look, desk_in, feed, player
from tests.courtside.screen import flat, on_court, shown

FOUR = ("Maren", "Tove", "Ruben", "Anouk")
ELEVEN = tuple(f"{first} {last}" for first in FOUR for last in "abc")[:11]


def rows(text: str) -> list[str]:
    """The lines of a list."""
    inside = [line.strip("│ ").rstrip() for line in text.splitlines() if "│" in line]
    return [line for line in inside if line][1:]


def round_now(desk: Desk) -> tuple[str, str, int]:
    """Who is on court at which drill, and how many balls were taken, from the book."""
    live = again(desk).view.live
    assert live is not None
    return live.player.name, live.drill.name, len(live.feeding.taken)


@pytest.mark.parametrize("pad", PADS)
@pytest.mark.parametrize("way", table.BY_LIST_WAY, ids=" ".join)
def test_escape_and_its_key_ask_for_every_command_on_every_pad(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, pad: str, way: tuple[str, ...]
) -> None:
    asked: list[str] = []
    for command in table.COMMANDS:
        if command is not AllCommands:
            monkeypatch.setattr(
                command, "run", lambda self, court: asked.append(type(self).__name__)
            )
    desk = desk_in(tmp_path, settings=close_look(pad=pad, review=False))

    async def press(pilot: Pilot[None], app: CourtlogApp) -> None:
        await pilot.press(*way)
        await pilot.pause()
        assert isinstance(app.screen, CourtScreen)

    on_court(desk, then=press)
    assert asked == [table.BY_LIST_WAY[way].__name__]
    assert desk.feeds.live().feeding.steps == (), "no key went on to the pad"


SLIPS = {
    "Enter": ["enter"],
    "Enter and Enter": ["enter", "enter"],
    "a blank is no word": ["space", "enter"],
    "nor are five": [*["space"] * 5, "enter"],
    "a word taken back": ["space", *"back", *["backspace"] * 4, "enter"],
    "a sign that is no key": ["ü", "enter"],
    "a key of the other page": ["7", "enter"],
    "a word nothing has": ["space", *"qqq", "enter"],
    "Enter behind the turned page": ["enter", "#", "enter", "enter"],
    "arrows that turn": ["right", "left", "enter"],
}


@pytest.mark.parametrize("keys", SLIPS.values(), ids=SLIPS)
def test_the_list_of_all_commands_takes_nothing_before_a_key_or_a_word(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, keys: list[str]
) -> None:
    asked: list[str] = []
    for command in table.COMMANDS:
        if command is not AllCommands:
            monkeypatch.setattr(
                command, "run", lambda self, court: asked.append(type(self).__name__)
            )

    async def look(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert isinstance(app.screen, PagedList), "it is still open"

    on_court(desk_in(tmp_path), ["escape", *keys], then=look)
    assert asked == []


def test_the_list_of_all_commands_has_a_page_for_what_is_seldom_needed(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    first, second = on_court(desk, ["escape"]), on_court(again(desk), ["escape", "enter"])
    assert "Commands 1 of 2: while feeding, between rotations" in first
    assert "Its key takes a line, Enter turns, Space searches, Esc leaves" in first
    assert "Commands 2 of 2: morning, evening, or once" in second
    assert rows(first)[1].startswith("c   cues")
    assert [row.split(":")[0] for row in rows(second)[1:]] == [
        f"{command.list_key()} {command.label}" for command in table.COMMANDS if command.seldom
    ]
    assert on_court(again(desk), ["escape", "enter", "enter"]) == first
    assert on_court(again(desk), ["escape", "left"]) == second
    assert "7 is the key of no line here" in on_court(again(desk), ["escape", "7"])


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (200, 60), (60, 18), (40, 12)], ids=str)
@pytest.mark.parametrize("seldom", [False, True])
def test_every_command_of_a_page_comes_in_sight_with_its_key(
    tmp_path: Path, size: tuple[int, int], seldom: bool
) -> None:
    page = [c for c in table.BY_LIST_WAY.values() if c.seldom == seldom]
    width = max(len(command.list_key()) for command in page)
    wanted = {f"{shown_key(c.list_key()):<{width}} {c.label}:" for c in page}
    pressed: list[str] = []

    async def scroll(pilot: Pilot[None], app: CourtlogApp) -> None:
        left, heads = set(wanted), ("Commands", "Its key")
        for _ in range(len(wanted) + 1):
            text = shown(app.screen)
            assert all(head in text for head in heads), "the title stays"
            left -= {words for words in left if words in text}
            if not left:
                return
            pressed.append("down")
            await pilot.press("down")
            await pilot.pause()
        raise AssertionError(sorted(left))

    on_court(desk_in(tmp_path), ["escape", *(["enter"] if seldom else [])], size, then=scroll)
    assert not pressed or size[1] < 40, "all is in sight at once where there is room"


def test_a_line_without_room_ends_where_its_sentence_can() -> None:
    words = "pad: Choose it (or not: x), or teach one. A clicker is taught too."
    assert whole_part(words, len(words)) == words
    assert whole_part(words, 50) == "pad: Choose it (or not: x), or teach one."[:14] + "."
    assert whole_part("feeds: Feeds: order, tough balls.", 20) == "feeds: Feeds."
    assert whole_part("end: End it; next: the one", 22) == "end: End it."


def test_the_help_keeps_its_columns(tmp_path: Path) -> None:
    lines = on_court(desk_in(tmp_path), ["question_mark"]).splitlines()
    at = next(line.index("Take back") for line in lines if "Backspace, Esc k" in line)
    assert [line.index("take the ball") for line in lines if "Enter " in line] == [at]
    row = next(row for row, line in enumerate(lines) if "Take back" in line)
    assert lines[row + 1][2:at].strip() == "", "wrapped beside its key"


def test_the_list_of_all_commands_is_searched_over_both_pages(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222")
    assert "Theme: shade." in on_court(desk, ["escape", "space", *"next theme", "enter"])
    keys = ["escape", "enter", "space", *"wrong pl", "enter"]
    assert "Whose" in on_court(again(desk), keys)
    assert "Theme: night." in on_court(again(desk), ["escape", "enter", "7"])
    assert rows(on_court(again(desk), ["escape", "down"]))[1].startswith("c   cues")
    assert "Cues:" in on_court(again(desk), ["escape", "down", "enter"])
    text = on_court(again(desk), ["escape", "enter", "space"])
    assert "Commands: type a word, Enter takes the line chosen" in text
    assert rows(text)[0].startswith("cues"), "from the first page on"


def test_a_capital_letter_is_the_same_key(tmp_path: Path) -> None:
    assert "Cues:" in on_court(desk_in(tmp_path), ["escape", "C"])


def test_players_are_listed_with_the_next_one_first_and_taken_by_digit(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    feed(desk, "222")
    desk.rotation.attend(player(desk, "Ruben"), Presence.LATE)
    text = on_court(desk, ["y"])
    assert rows(text) == ["1 Tove", "2 Anouk", "3 Maren", "4 Ruben"]
    assert "Player: 1-4 or Enter takes, type to narrow, Escape leaves" in text
    on_court(desk, ["y", "2"])
    assert round_now(desk)[0] == "Anouk"
    on_court(again(desk), ["y", *"tov", "enter"])
    assert round_now(desk)[0] == "Tove"


@pytest.mark.parametrize("place", range(11))
def test_every_digit_takes_its_line_and_a_line_without_one_is_reached_too(
    tmp_path: Path, place: int
) -> None:
    desk = desk_in(tmp_path, ELEVEN)
    lines = rows(on_court(desk, ["y"]))
    assert [line[:1] for line in lines[:9]] == list(DIGITS)
    keys = [DIGITS[place]] if place < len(DIGITS) else [*["down"] * place, "enter"]
    on_court(again(desk), ["y", *keys])
    assert round_now(desk)[0] == lines[place].removeprefix(f"{place + 1} ")


def test_a_digit_within_a_word_is_searched(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("Maren 1", "Tove", "Maren 2"))
    assert rows(on_court(desk, ["y", *"maren 2"])) == ["maren 2", "Maren 2"]
    assert rows(on_court(again(desk), ["y", "space", "2"])) == ["2", "Maren 2"]


@pytest.mark.parametrize("stroke", LIBRARY.ladders)
def test_drills_begin_with_the_ladder_in_use_and_a_digit_is_its_rung(
    tmp_path: Path, stroke: str
) -> None:
    ladder = LIBRARY.ladder(stroke)
    drills = ladder.in_rung_order()
    desk = desk_in(tmp_path, drill=f"{stroke}/{drills[1].key}")
    seen: list[int | None] = []

    async def look(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert isinstance(app.screen, PickList)
        seen.append(app.screen.highlighted)

    text = on_court(desk, ["g"], then=look)
    assert seen == [1], "the drill in use is chosen already"
    for line, drill in zip(rows(text), drills, strict=False):
        assert f"{drill.rung} {ladder.title} {drill.rung}/" in line
    on_court(again(desk), ["g", str(drills[-1].rung)])
    assert round_now(desk)[1] == f"{stroke}/{drills[-1].key}"


COUNTED = {
    "late": (["escape", "l", "1"], 4),
    "left": (["escape", "x", "1"], 4),
    "wrong player": (["escape", "w", "1", "2", "enter"], 5),
    "cues as proposed": (["escape", "c", "enter"], 3),
    "other cues": (["escape", "c", "3", "4", "enter"], 5),
    "next player": (["tab", "tab"], 2),
}


@pytest.mark.parametrize(("keys", "most"), COUNTED.values(), ids=COUNTED)
def test_a_core_act_costs_few_plain_keys(tmp_path: Path, keys: list[str], most: int) -> None:
    desk = desk_in(tmp_path, FOUR, settings=close_look())
    feed(desk, "222 222 222")
    assert len(keys) <= most
    before = list(desk.book.db.iterdump())

    async def act(pilot: Pilot[None], app: CourtlogApp) -> None:
        await pilot.press(*keys)
        await pilot.pause()
        assert isinstance(app.screen, CourtScreen), "nothing is left to answer"

    on_court(desk, then=act)
    assert list(desk.book.db.iterdump()) != before
    assert not any(key.startswith(("f1", "ctrl", "shift")) for key in keys)


def test_late_left_and_here_are_told(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    feed(desk, "222")
    assert "Tove comes later." in on_court(desk, ["escape", "l", "1"])
    assert rows(on_court(again(desk), ["escape", "e"])) == ["1 Tove"]
    assert "Tove is here." in on_court(again(desk), ["escape", "e", "1"])
    assert "Everyone is here." in on_court(again(desk), ["escape", "e"])
    assert "Ruben has left for today." in on_court(again(desk), ["escape", "x", *"rub", "enter"])


def test_the_foot_says_the_keys_behind_escape_at_every_size(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    core = [f"{hint.shown} {hint.label}" for hint in table.BEHIND_ESCAPE]
    for size in ((80, 24), (100, 30), (120, 40), (200, 60)):
        words = flat(on_court(again(desk), size=size))
        lead = "Esc then a letter: " if size[0] > 100 else "Esc: "
        assert lead + " ".join(core if size[0] > 80 else core[:-1]) in words
        assert "Ctrl+Q quit" in words
