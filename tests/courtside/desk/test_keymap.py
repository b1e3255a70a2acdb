"""Keys and their meanings: every key of every pad, and no command under the feeding hand."""

from __future__ import annotations

from string import ascii_lowercase, digits

import pytest

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.on_court.feeding import CleanBall, Fault, Rate, TakeBall, ToughOpen
from courtlog.courtside.commands.looks import AllCommands
from courtlog.courtside.commands.table import BY_KEY, BY_LIST_WAY, COMMANDS
from courtlog.courtside.desk.keymap import (
    ALWAYS_THE_SAME,
    FEEDING,
    PADS,
    Pad,
    key_name,
    meaning_of,
    pad_of,
    taught_pad,
)
from courtlog.courtside.dialogs import paged_list
from courtlog.settings import Settings

TAUGHT = taught_pad(["f9", "pageup", "#", "ä", "5", "home", "[", "]", "end"])


@pytest.mark.parametrize("pad", [*PADS.values(), TAUGHT], ids=lambda pad: pad.key)
def test_every_key_of_a_pad_rates_its_cue(pad: Pad) -> None:
    for row, keys in enumerate(pad.rows):
        for grade in Grade:
            assert meaning_of(pad, 4, keys[grade]) == Rate(row, grade)
            assert pad.key_of(row, grade) == keys[grade]


@pytest.mark.parametrize("pad", PADS.values(), ids=lambda pad: pad.key)
def test_a_pad_has_a_fourth_row_which_is_silent_while_three_cues_are_in_view(pad: Pad) -> None:
    assert len(pad.rows) == 4
    for key in pad.rows[3]:
        assert meaning_of(pad, 3, key) is None


@pytest.mark.parametrize("pad", PADS.values(), ids=lambda pad: pad.key)
def test_the_same_keys_feed_on_every_pad(pad: Pad) -> None:
    assert {key: meaning_of(pad, 3, key) for key in ("space", "enter", "t")} == {
        "space": CleanBall(),
        "enter": TakeBall(),
        "t": ToughOpen(),
    }
    for key in ".,":
        assert meaning_of(PADS["numbers"], 3, key) == ToughOpen()
    assert meaning_of(pad, 3, "0") == (CleanBall() if pad.key == "numbers" else None)


@pytest.mark.parametrize("pad", PADS.values(), ids=lambda pad: pad.key)
def test_no_command_sits_on_a_pad_key(pad: Pad) -> None:
    taken = pad.all_keys & set(BY_KEY)
    assert taken == ({"z"} if pad.key == "left-azerty" else set()), "z is where w lies on QWERTY"
    assert all(("escape", key) in BY_LIST_WAY for key in taken), "it is found behind Esc"
    keys = [key for row in pad.rows for key in row]
    assert len(keys) == len(set(keys))


QWERTY = ("1234567890-=", "qwertyuiop[]", "asdfghjkl;'", "zxcvbnm,./")
QWERTZ = ("1234567890ß´", "qwertzuiopü+", "asdfghjklöä", "yxcvbnm,.-")
AZERTY = ("&é\"'(-è_çà)=", "azertyuiop^$", "qsdfghjklmù", "wxcvbn,;:!")
"""The keys without a modifier (xkeyboard-config: us, de and fr), row by row."""


def place(layout: tuple[str, ...], key: str) -> tuple[int, int]:
    """Row and column of a key."""
    return next((row, keys.index(key)) for row, keys in enumerate(layout) if key in keys)


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_pad_of_letters_lies_at_the_same_places_of_every_keyboard(hand: str) -> None:
    usual, french = PADS[hand], PADS[f"{hand}-azerty"]
    for row in range(4):
        places = [place(QWERTY, key) for key in usual.rows[row]]
        assert [place(QWERTZ, key) for key in usual.rows[row]] == places
        shift = -1 if (hand, row) == ("left", 3) else 0
        assert [place(AZERTY, key) for key in french.rows[row]] == [
            (line, column + shift) for line, column in places
        ]


def test_keys_of_commands_are_their_own() -> None:
    keys = [key for command in COMMANDS for key in command.keys]
    assert len(keys) == len(set(keys))
    assert not set(keys) & set(FEEDING)
    assert all(command.help().endswith(".") for command in COMMANDS)


def test_each_command_has_one_plain_way_over_escape_the_same_on_every_pad() -> None:
    others = [command for command in COMMANDS if command is not AllCommands]
    assert list(BY_LIST_WAY.values()) == others, "none has the way of another"
    for (escape, *turns, key), command in BY_LIST_WAY.items():
        assert (escape, turns) == ("escape", ["enter"] if command.seldom else [])
        assert key == "tab" or (len(key) == 1 and key == key.lower() and key.isprintable())
        assert key not in ("space", *paged_list.TURNS), "Space searches, these turn the page"
        assert key in command.keys or command.letter == key


def test_the_second_page_has_room_for_fifteen_commands_more() -> None:
    taken = {command.list_key() for command in COMMANDS if command.seldom}
    assert len(set(ascii_lowercase + digits) - taken) >= 15


def test_sentences_tell_no_way_that_turns_the_page() -> None:
    """The review takes the keys of sentences as they stand behind Esc."""
    assert not any(command.seldom for command in COMMANDS if command.act or command.after_escape)


def test_no_command_needs_a_modifier_or_a_function_key() -> None:
    """Each is one plain key that no pad has, or Esc and a plain key."""
    assert BY_KEY["escape"] is AllCommands
    assert not any("escape" in pad.all_keys for pad in PADS.values())


@pytest.mark.parametrize(
    ("key", "character", "name"),
    [
        ("full_stop", ".", "."),
        ("comma", ",", ","),
        ("7", "7", "7"),
        ("K", "K", "k"),  # Caps Lock rates too
        ("T", "T", "t"),
        ("upper_e_acute", "É", "é"),
        ("space", " ", "space"),
        ("enter", "\r", "enter"),
        ("pageup", None, "pageup"),
        ("kp_begin", None, "kp_begin"),
    ],
)
def test_a_key_goes_by_its_character_or_its_name(
    key: str, character: str | None, name: str
) -> None:
    assert key_name(key, character) == name


def test_a_taught_pad_is_used_once_it_has_nine_keys() -> None:
    nine = tuple("qwertzuio")
    assert pad_of(Settings(pad="taught", taught=nine)).rows[0] == ("q", "w", "e")
    assert pad_of(Settings(pad="taught", taught=("q",))).key == "right"


@pytest.mark.parametrize("pad", [*PADS, "taught"])
@pytest.mark.parametrize("clicker", [("pagedown", "pageup"), ("b", "f5"), ("=", "q")])
def test_a_clicker_goes_beside_every_pad_and_leaves_its_keys(
    pad: str, clicker: tuple[str, str]
) -> None:
    nine = () if pad != "taught" else tuple("ryu567[]é")
    alone = pad_of(Settings(pad=pad, taught=nine))  # type: ignore[arg-type]
    beside = pad_of(Settings(pad=pad, taught=nine, clicker=clicker))  # type: ignore[arg-type]
    assert meaning_of(beside, 3, clicker[0], 2) == CleanBall()
    assert [meaning_of(beside, 3, clicker[1], main) for main in range(3)] == [
        Fault(main) for main in range(3)
    ]
    for key in alone.all_keys | {"space", "enter", "t"}:
        assert meaning_of(beside, 3, key) == meaning_of(alone, 3, key)
    assert all(beside.hides(key) and not alone.hides(key) for key in clicker)


@pytest.mark.parametrize("pad", PADS.values(), ids=lambda pad: pad.key)
def test_a_clicker_rests_while_a_key_of_it_means_something_already(pad: Pad) -> None:
    for key in pad.all_keys | ALWAYS_THE_SAME:
        for clicker in ((key, "pageup"), ("pageup", key), ("pageup", "pageup"), ("pageup",)):
            assert pad_of(Settings(pad=pad.key, clicker=clicker)) == pad  # type: ignore[arg-type]
