"""Whatever bytes a terminal sends: nothing is raised, and the next key is that key."""

from __future__ import annotations

import random

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from textual import _parser, events
from textual._xterm_parser import BRACKETED_PASTE_END, BRACKETED_PASTE_START
from textual.message import Message

from courtlog.courtside.app.terminal_reader import PASTE_ENDS_AFTER, TerminalReader

PIECES = (
    *(b"\x1b", b"\x1b[", b"\x1b[200~", b"\x1b[201~", b"\x1b[O", b"\x1b[I", b"\x1b]0;", b"\x1bP"),
    *(
        b"\x1b[48;9999;9999;1;1t",
        b"\x1b[<0;1;1M",
        b"\x1b[<64;-1;9m",
        b"\x1b[?2048;1$y",
        b"\x1b[5;9R",
    ),
    *(
        b"\xff",
        b"\xe9",
        b"\xc3",
        b"\xc3\xa9",
        b"\xf0\x9f",
        b"\x00",
        b"u",
        b"\r",
        b"9;:~",
        b"\x1b[1;5",
    ),
)
"""What terminals send, whole and cut short, with what no UTF-8 is."""


@pytest.fixture(autouse=True)
def clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """A clock on which every look at it is a second later."""
    seconds = iter(range(10**9))
    monkeypatch.setattr(_parser, "get_time", lambda: float(next(seconds)))


def reader() -> TerminalReader:
    return TerminalReader(lambda: (80, 24))


def read(reader: TerminalReader, *reads: bytes) -> list[Message]:
    """The events of these reads and of the pause behind them."""
    found = [event for data in reads for event in reader.read(data)]
    for _ in range(PASTE_ENDS_AFTER):
        found += reader.nothing_came()
    return found


def keys(found: list[Message]) -> list[str]:
    return [event.key for event in found if isinstance(event, events.Key)]


@given(st.lists(st.one_of(st.binary(max_size=40), st.sampled_from(PIECES)), max_size=12))
@example([b"\x1b[200~", b"never ended"])
@example([b"\x1b[200", b"~u\x1b[20"])
def test_any_bytes_leave_a_reader_that_reads(reads: list[bytes]) -> None:
    tried = reader()
    found = read(tried, *reads)
    assert keys(read(tried, b"u")) == ["u"]
    assert not any(isinstance(event, events.Resize) for event in found)


def test_a_long_flood_of_bytes_leaves_a_reader_that_reads(long_run: bool) -> None:
    dice = random.Random(3)
    tried = reader()
    for _ in range(20_000 if long_run else 1_000):
        tried.read(dice.choice(PIECES) if dice.random() < 0.5 else dice.randbytes(50))
    read(tried)
    assert keys(read(tried, b"u")) == ["u"]


@pytest.mark.parametrize("nothing", [b"\xff", b"\xe9", b"\xc3", b"\xfe\xff"])
def test_bytes_that_are_no_utf_8_are_no_key(nothing: bytes) -> None:
    assert keys(read(reader(), b"u" + nothing + b"j")) == ["u", "j"]


def test_a_letter_that_comes_in_two_reads_is_one() -> None:
    assert keys(read(reader(), b"\xc3", b"\xa9")) == ["é"]


def test_a_paste_without_an_end_ends_by_itself() -> None:
    found = read(reader(), b"\x1b[200~222 111")
    (paste,) = [event for event in found if isinstance(event, events.Paste)]
    assert paste.text == "222 111"


def test_a_slow_paste_is_one_paste() -> None:
    tried = reader()
    found = tried.read(b"\x1b[200~222 ")
    found += tried.nothing_came()
    found += tried.read(b"111\x1b[201~u")
    assert [event.text for event in found if isinstance(event, events.Paste)] == ["222 111"]
    assert keys(found) == ["u"]


def test_only_the_terminals_own_size_is_believed() -> None:
    own, other = b"\x1b[48;24;80;480;800t", b"\x1b[48;9999;9999;480;800t"
    found = [event for event in read(reader(), own, other) if isinstance(event, events.Resize)]
    assert [tuple(event.size) for event in found] == [(80, 24)]


BEGINNINGS = "[O]PX^_"
"""What makes a longer sequence of an Escape before it (ECMA-48)."""


@given(st.characters(codec="utf-8", exclude_categories=["Cs"], exclude_characters=BEGINNINGS))
@example("c")
@example("7")
@example("\r")
@example("\t")
def test_escape_and_a_key_in_one_read_are_those_two_keys(character: str) -> None:
    data = character.encode()
    slowly = read(reader(), b"\x1b") + read(reader(), data)
    for reads in ((b"\x1b" + data,), (b"\x1b", data)):
        at_once = read(reader(), *reads)
        assert [repr(event) for event in at_once] == [repr(event) for event in slowly]


@pytest.mark.parametrize("capital", "OPX")
def test_escape_and_a_capital_that_may_begin_a_sequence_are_two_keys_after_a_pause(
    capital: str,
) -> None:
    assert keys(read(reader(), b"\x1b" + capital.encode())) == ["escape", capital]


def test_escape_and_several_keys_in_one_read_are_each_a_key() -> None:
    sent = b"\x1bw12\r\x1b\r7\x1b\x1bc"
    wanted = "escape w 1 2 enter escape enter 7 escape escape c"
    assert keys(read(reader(), sent)) == wanted.split()


@pytest.mark.parametrize("key", "bf\x7f")
def test_alt_steps_over_words_where_a_text_is_written(key: str) -> None:
    """As a Mac's terminal sends Option with an arrow or Backspace."""
    writing = TerminalReader(lambda: (80, 24), lambda: True)
    assert "escape" not in keys(read(writing, b"\x1b" + key.encode()))
    assert keys(read(reader(), b"\x1b" + key.encode()))[0] == "escape"


def test_shift_and_tab_of_the_linux_console_is_that_key(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "linux")
    assert keys(read(reader(), b"\x1b\t")) == ["shift+tab"]


@pytest.mark.parametrize("sent", [b"\x1b[E", b"\x1b[1E", b"\x1b[57427~"])
def test_the_middle_of_the_number_pad_has_a_name_while_numlock_is_off(sent: bytes) -> None:
    """As xterm and newer terminals send it (terminfo kb2; kitty's protocol)."""
    (key,) = reader().read(sent)
    assert isinstance(key, events.Key)
    assert key.key == "kp_begin"


@given(st.text("ab\x1b[201~\n;m", max_size=30), st.lists(st.integers(1, 40), max_size=4))
def test_nothing_that_was_pasted_is_ever_a_key(pasted: str, cuts: list[int]) -> None:
    """Whatever escapes are in it, and however it is cut into pieces on the way."""
    while BRACKETED_PASTE_END in pasted:
        pasted = pasted.replace(BRACKETED_PASTE_END, "")
    data = f"{pasted}{BRACKETED_PASTE_END}b".encode()
    pieces, at = [f"a{BRACKETED_PASTE_START}".encode()], 0
    for cut in cuts:
        pieces.append(data[at : at + cut])
        at += cut
    reader = TerminalReader(lambda: (80, 24))
    found = [event for piece in (*pieces, data[at:]) if piece for event in reader.read(piece)]
    keys = [event.key for event in found if isinstance(event, events.Key)]
    texts = [event.text for event in found if isinstance(event, events.Paste)]
    assert keys == ["a", "b"]
    assert "".join(texts) == pasted.replace("\x1b", "")
