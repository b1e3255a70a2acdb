"""Files with bytes turned over: a page or one sentence, and never a traceback."""

from __future__ import annotations

import random
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog import settings as settings_file
from courtlog.cli.actions.agree import print_agreement
from courtlog.cli.actions.pages import print_day, print_player, print_trend
from courtlog.cli.actions.takehome import hand_over
from courtlog.cli.common import existing_book
from courtlog.cli.output import Form, Shown
from courtlog.errors import CourtlogError, LibraryError, SettingsError
from courtlog.library.second_ratings_in import read_seconds
from courtlog.logbook.reads import second_rating_lookups
from courtlog.logbook.writes import second_rating_writer
from tests.court import LIBRARY, START, desk_in, feed
from tests.doses import dose
from tests.library.shelf import steady

COMMANDS: dict[str, Callable[[Path], None]] = {
    "day": lambda path: print_day(path, None, None, None, Shown(), Form.PAGE),
    "player": lambda path: print_player(path, None, "Maren", Shown(), Form.PAGE),
    "trend": lambda path: print_trend(path, None, "Maren", Form.PAGE),
    "takehome": lambda path: hand_over(path, None, "Maren", None),
    "agree": lambda path: print_agreement(path, None, False),
}


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The bytes of a small book: two players, two drills, notes, and balls rated twice."""
    folder = tmp_path_factory.mktemp("whole")
    desk = desk_in(folder, names=("Maren", "Tove"))
    for at in range(3):
        feed(desk, "_21!0_210/12_@")
        desk.balls.note(f"note {at}")
        desk.rounds.start(player=desk.view.roster[at % 2], drill=LIBRARY.drill("forehand/live"))
    feed(desk, "_" * 25 + "012" * 5)
    looks = second_rating_lookups.balls_to_rate(desk.book, desk.view.clinic.id)
    again = [(look.ball_id, {0: at % 3}) for at, look in enumerate(looks)]
    second_rating_writer.rate_balls(desk.book, "Bo", 1, again, START)
    desk.book.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    desk.book.close()
    return (folder / "book.db").read_bytes()


@pytest.mark.parametrize("name", COMMANDS)
def test_a_whole_book_gives_a_page(
    whole: bytes, tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "book.db").write_bytes(whole)
    COMMANDS[name](tmp_path / "book.db")
    assert len(capsys.readouterr().out) > 100


@pytest.mark.parametrize("name", COMMANDS)
def test_a_book_with_bytes_turned_over_gives_a_page_or_a_sentence(
    whole: bytes, tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "book.db"
    for seed in range(dose(25, 600)):
        dice = random.Random(seed)
        content = bytearray(whole)
        for _ in range(dice.choice((1, 3, 10, 40))):
            content[dice.randrange(len(content))] ^= 1 << dice.randrange(8)
        path.write_bytes(content)
        with suppress(CourtlogError):
            COMMANDS[name](path)
        for beside in tmp_path.glob("book.db-*"):
            beside.unlink()
    capsys.readouterr()


def test_a_mistake_of_the_program_is_not_blamed_on_a_sound_book(
    whole: bytes, tmp_path: Path
) -> None:
    (tmp_path / "book.db").write_bytes(whole)
    with pytest.raises(ValueError, match="a slip"), existing_book(tmp_path / "book.db"):
        raise ValueError("a slip")


@pytest.fixture(scope="module")
def any_settings(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file for settings of all kinds."""
    return tmp_path_factory.mktemp("settings") / "settings.json"


PIECES = st.sampled_from(
    ['{"', 'pad"', ':"left"', "}", "taught", "[", "null", "1e999", "\x00", ","]
)


@given(st.binary(max_size=80) | st.lists(PIECES, max_size=12).map(lambda p: "".join(p).encode()))
@steady
def test_any_bytes_are_settings_or_a_sentence(any_settings: Path, data: bytes) -> None:
    any_settings.write_bytes(data)
    with suppress(SettingsError):
        settings_file.read(any_settings)


LINES = st.sampled_from(["09:31:07", "Maren", "212", "2-0!", "\n", " ", "#", "'", '"', "99:99"])


@given(st.text(max_size=60) | st.lists(LINES, max_size=20).map(" ".join))
@steady
def test_any_text_is_second_ratings_or_a_list_of_problems(text: str) -> None:
    with suppress(LibraryError):
        assert all(line.player for line in read_seconds(text, "again.txt"))
