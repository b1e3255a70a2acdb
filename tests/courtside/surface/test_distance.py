"""The far look, cell by cell: how large its words and marks are for an eye two metres away.

ISO 9241-303 prefers 20 to 22 minutes of arc for letters and takes 16 for the least.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.coaching.game.grades import Grade
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.surface.distance import WhatToDo, mark
from courtlog.courtside.surface.large_letters import FIVE, THREE, drawn
from courtlog.settings import Settings
from tests.court import SHIPPED, desk_in, feed, player, without_planned_tough
from tests.courtside.screen import flat, on_court
from tests.courtside.screen import shown as screen_text

SCREEN_MM, AWAY_MM = 310, 2000
WORDS, MARKS = 20, 16
SIZES = {(80, 24): THREE, (100, 30): THREE, (120, 40): FIVE}


def arc(columns: int, rows: int) -> float:
    """Minutes of arc of this many rows; a cell is twice as high as wide."""
    height = rows * 2 * SCREEN_MM / columns
    return math.degrees(math.atan(height / AWAY_MM)) * 60


def far_desk(folder: Path, **of_desk: object) -> Desk:
    """A desk whose settings ask for the far look."""
    settings = Settings(look="far", review=False)
    return desk_in(folder, settings=settings, **of_desk)  # type: ignore[arg-type]


def holds(text: str, picture: tuple[str, ...]) -> bool:
    """Whether the picture stands on the screen, with nothing touching its left and right."""
    lines = text.splitlines()
    width = max(map(len, lines)) + 2
    padded = [f" {line}".ljust(width) for line in lines]
    framed = [f" {row} " for row in picture]
    return any(
        all(padded[y + dy][x : x + len(row)] == row for dy, row in enumerate(framed))
        for y in range(len(padded) - len(framed) + 1)
        for x in range(width)
    )


def large(words: str, rows: int) -> tuple[str, ...]:
    """The words as they are drawn."""
    picture = drawn(words, rows)
    assert picture is not None
    return picture


@pytest.mark.parametrize("size", SIZES)
def test_who_where_tough_say_and_ball_are_read_from_two_metres(
    size: tuple[int, int], tmp_path: Path
) -> None:
    rows = SIZES[size]
    assert arc(size[0], rows) >= WORDS
    text = on_court(far_desk(tmp_path), ["t", "u"], size=size)
    for words in ("MAREN", "DEEP", "TOUGH", "SAY TURN", "1/10"):
        assert holds(text, large(words, rows)), words


def test_what_to_say_stays_while_the_next_ball_has_no_grade(tmp_path: Path) -> None:
    desk = far_desk(tmp_path)
    feed(desk, "022")
    assert holds(on_court(desk), large("SAY TURN", THREE))
    assert holds(on_court(desk, ["t"]), large("SAY TURN", THREE))


@pytest.mark.parametrize("size", SIZES)
def test_the_marks_of_this_ball_and_the_last_stand_a_cue(
    size: tuple[int, int], tmp_path: Path
) -> None:
    text = on_court(far_desk(tmp_path), ["o", "k", "m", "u"], size=size)
    least = math.ceil(MARKS / arc(size[0], 1))
    rows = next(r for r in (5, 4, 3, 2) if holds(text, mark(Grade.NEAR, r)))
    assert rows >= least
    assert arc(size[0], rows) >= MARKS
    pairs = ((Grade.MISSED, Grade.MADE), (None, Grade.NEAR), (None, Grade.MISSED))
    for this, last in pairs:
        beside = tuple(
            f"{a}   {b}" for a, b in zip(mark(this, rows), mark(last, rows), strict=True)
        )
        assert holds(text, beside), (this, last)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_a_red_stands_large_before_what_to_say(size: tuple[int, int], tmp_path: Path) -> None:
    """The reason stands small, with the close look's sign and word."""
    desk = far_desk(tmp_path)
    feed(desk, "022")
    desk.care.set_red(player(desk, "Maren"), "holds her wrist")
    text = on_court(desk, size=size)
    assert any(holds(text, large(f"RED: SAY {cue}", SIZES[size])) for cue in ("TURN", "TUR", "TU"))
    assert "■ RED: red today: holds her wrist" in text
    assert "RED" not in on_court(far_desk(tmp_path / "without"), size=size)


@pytest.mark.parametrize("rows", [2, 3, 4, 5])
def test_grades_differ_by_their_shape(rows: int) -> None:
    shapes = {grade: "".join(mark(grade, rows)) for grade in (*Grade, None)}
    for one, other in combinations(shapes.values(), 2):
        apart = sum(a != b for a, b in zip(one, other, strict=True))
        assert apart >= len(one) / 5
    for shape in shapes.values():
        assert len(shape) == rows * 2 * rows


@pytest.mark.parametrize(
    ("keys", "words"),
    [
        (["space", "z"], ("ROUND OVER", "1 DONE")),
        (["p"], ("PAUSED",)),
        (["f2", *"hold", "enter"], ("QUIET",)),
    ],
)
def test_the_state_of_the_round_is_as_large(
    keys: list[str], words: tuple[str, ...], tmp_path: Path
) -> None:
    text = on_court(far_desk(tmp_path), keys)
    for word in words:
        assert holds(text, large(word, THREE)), word


@pytest.mark.parametrize(
    ("state", "words"), [({"read_only": True}, "READ ONLY"), ({"not_stored": True}, "NOT STORED")]
)
def test_what_is_not_stored_is_as_large(state: dict[str, bool], words: str, tmp_path: Path) -> None:
    view = replace(far_desk(tmp_path).view, **state)  # type: ignore[arg-type]
    part = WhatToDo()
    part.width, part.height = 78, THREE
    rows = ("".join(text for text, _ in row) for row in part.rows(view))
    assert holds("\n".join(rows), large(words, THREE))


def test_a_slow_disk_brings_no_large_words(tmp_path: Path) -> None:
    """They would flash with every key."""
    desk = far_desk(tmp_path)
    calm = on_court(desk)

    async def then(_: Pilot[None], app: CourtlogApp) -> None:
        court = app.screen
        assert isinstance(court, CourtScreen)
        court._surface.show(replace(court.state.view, writing=True))

    differing = [
        (before, after)
        for before, after in zip(
            calm.splitlines(), on_court(desk, then=then).splitlines(), strict=True
        )
        if before != after
    ]
    ((before, after),) = differing
    assert after.split() == [*before.split(), "WRITING"]


def test_a_failure_is_large_until_something_was_stored(tmp_path: Path) -> None:
    desk = far_desk(tmp_path)
    shown: list[bool] = []

    async def then(pilot: Pilot[None], app: CourtlogApp) -> None:
        picture = large("NOT STORED", THREE)
        for mode, key in (("ON", "u"), ("ON", "tab"), ("ON", "x"), ("OFF", "x"), ("OFF", "u")):
            desk.book.db.execute(f"PRAGMA query_only = {mode}")
            await pilot.press(key)
            await pilot.pause()
            shown.append(holds(screen_text(app.screen), picture))

    on_court(desk, then=then)
    assert shown == [True, True, True, True, False]


@pytest.mark.parametrize("size", [(120, 40), (200, 60)])
def test_who_is_next_fills_the_room_that_the_marks_leave(
    size: tuple[int, int], tmp_path: Path
) -> None:
    desk = far_desk(tmp_path, names=("Maren", "Tove", "Ilse"))
    assert holds(on_court(desk, size=size), large("NEXT TOVE, ILSE", FIVE))
    assert holds(on_court(desk, ["space", "tab"], size=size), large("NEXT ILSE, MAREN", FIVE))


def test_an_empty_basket_is_as_large(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=Settings(look="far", review=False, basket=2))
    assert holds(on_court(desk, ["space", "space"]), large("PICK UP", THREE))


def test_one_key_leads_there_and_back_and_stores_nothing(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "20")
    kept = list(desk.book.db.iterdump())
    close = on_court(desk)
    assert holds(on_court(desk, ["apostrophe"]), large("MAREN", THREE))
    again = on_court(desk, ["apostrophe"])
    words = ("miss near made", "next feed")
    assert all(word in close and word in again for word in words)
    assert list(desk.book.db.iterdump()) == kept


def test_the_key_is_on_no_pad() -> None:
    assert not any("'" in pad.all_keys for pad in PADS.values())


@pytest.mark.parametrize("size", [(79, 24), (80, 23), (40, 12)])
def test_small_terminals_keep_the_close_look(size: tuple[int, int], tmp_path: Path) -> None:
    assert "miss near made" in on_court(far_desk(tmp_path), size=size)


@pytest.mark.parametrize(
    ("name", "shown"),
    [("Anna-Magdalena Wolkenstein", "ANNA-"), ("Женя", ""), ("Zoë", "ZOE")],
)
@pytest.mark.parametrize("size", SIZES)
def test_a_long_or_foreign_name_leaves_the_ball_its_place(
    size: tuple[int, int], name: str, shown: str, tmp_path: Path
) -> None:
    text = on_court(far_desk(tmp_path, names=(name,)), size=size)
    assert holds(text, large("1/10", SIZES[size]))
    if shown:
        first = [line[1 : 1 + len(large(shown, SIZES[size])[0])] for line in text.splitlines()]
        assert tuple(first[: SIZES[size]]) == large(shown, SIZES[size])
    else:
        assert name in text


@pytest.mark.parametrize("size", SIZES)
def test_every_shipped_spot_fits_beside_tough(size: tuple[int, int]) -> None:
    rows = SIZES[size]
    for ladder in without_planned_tough(SHIPPED).ladders.values():
        for drill in ladder.drills:
            for spot in range(len(drill.spots)):
                word = large(drill.spot_word(spot), rows)
                wide = len(word[0]) + 3 + len(large("TOUGH", rows)[0])
                assert wide <= size[0] - 2, drill.spot_word(spot)


def test_every_core_act_stands_at_the_foot_of_80_columns(tmp_path: Path) -> None:
    foot = on_court(desk_in(tmp_path, settings=Settings(review=False))).splitlines()[-1]
    hints = "' close ? help Esc: c cues w whose i arm o who r purpose l late x left"
    assert flat(foot) == hints
