"""Bytes that no keyboard sends: noise, pastes with and without their marks, another encoding."""

from __future__ import annotations

import random
from pathlib import Path

from tests.faults.figures import Figure
from tests.terminal import books
from tests.terminal.console import Console, court, environment

NO_NOISE = b"\x11\x1a\x0c"
"""Ctrl+Q and Ctrl+Z, which end or stop the program, and Ctrl+L, which tells when all is done."""

BLANK, BLANKED = b"\x0c", "brings the screen back"

ESCAPE, MANUAL = b"\x1b[27u", b"\x1bOP"
"""Keys that are told from noise without a wait (kitty keyboard protocol; xterm F1)."""

FOOT = "Ctrl+Q quit"
"""On every court screen, and on no other."""

PAUSE, ANSWER, MOST_LOOKS = 0.7, 0.3, 60
"""Seconds until a paste is over and a key shows, if nothing else runs; tried till it does."""

WORDS = "Maren: 222 1-0! José hält das Handgelenk fest, naïve façade\r\n"


def noise(folder: Path, long: bool) -> Figure:
    """Whatever is sent: the court stands, the manual opens over it, and no error was met."""
    figure = Figure("random bytes and pastes: the court stands, the manual opens")
    dice = random.Random(7)
    for number in range(6 if long else 1):
        home = folder / f"noise-{number}"
        home.mkdir()
        path = home / "book.db"
        books.prepare(path)
        with Console(court(path), environment(home), 80, 24, True) as console:
            console.wait_for(FOOT)
            for _ in range(20 if long else 2):
                sent = _noise(dice, 3000 if long else 1000)
                with figure.trial(f"{sent[:40]!r}, {len(sent)} bytes"):
                    console.press(sent)
                    _way_back(console, sent)
                    assert not (home / "errors.txt").exists(), "it met an error of its own"
            with figure.trial("leaving"):
                assert console.quit() == 0
                assert b"Traceback" not in console.sent
                assert books.tallies_differ(path) == []
    return figure


def _way_back(console: Console, sent: bytes) -> None:
    """Escape until the court stands, then the manual over it, and the court again."""
    if sent.rfind(b"\x1b[200~") > sent.rfind(b"\x1b[201~"):
        _paste_over(console)
    for _ in range(8):
        _carried_out(console)
        if FOOT in console.text:
            break
        console.press(ESCAPE)
    console.press(MANUAL)
    console.wait_for("Manual: ")
    console.press(ESCAPE)
    console.wait_for(FOOT)


def _paste_over(console: Console) -> None:
    """Wait until a paste without an end is over: a key before that is a part of it.

    On a busy machine more than one key may wait then; the way back is found from any screen.
    """
    for _ in range(MOST_LOOKS):
        console.read_for(PAUSE)
        console.press(BLANK)
        console.read_for(ANSWER)
        if BLANKED in console.text:
            break
    console.press(ESCAPE)
    console.wait_for(lambda: BLANKED not in console.text)


def _carried_out(console: Console) -> None:
    """All that was typed so far has been: the screen can be blanked behind it, and comes back."""
    console.press(BLANK)
    console.wait_for(BLANKED)
    console.press(ESCAPE)
    console.wait_for(lambda: BLANKED not in console.text)


def _noise(dice: random.Random, most_keys: int) -> bytes:
    kind = dice.randrange(5)
    if kind == 0:
        sent = dice.randbytes(dice.choice((1, 3, 60, 2000)))
    elif kind == 1:
        sent = WORDS.encode("latin-1") * dice.randint(1, 40)
    elif kind == 2:
        sent = b"\x1b[200~" + WORDS.encode() * 20 + dice.choice((b"", b"\x1b[201~"))
    elif kind == 3:
        sent = bytes(
            dice.choice(b"uiojklm,. tT\r\x7f\tyzqn?g") for _ in range(dice.randint(2, most_keys))
        )
    else:
        sent = b"\x1b" + bytes(dice.choice(b"[]OP?;:<0123456789ABCMRu~$yt\x1b") for _ in range(200))
    return sent.translate(None, NO_NOISE)
