"""A terminal that has vanished without a word is noticed, on Linux and as macOS answers."""

from __future__ import annotations

import contextlib
import os
import select
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from courtlog.courtside.app.terminal import has_gone

if sys.platform == "win32":
    pytest.skip("its console ends a program itself", allow_module_level=True)

import fcntl
import pty
import tty


@contextlib.contextmanager
def terminals() -> Iterator[tuple[int, int]]:
    """Both ends of a terminal that gives every key at once: the window's and the program's."""
    window, program = pty.openpty()
    tty.setraw(program)
    try:
        yield window, program
    finally:
        os.close(program)
        with contextlib.suppress(OSError):
            os.close(window)


@pytest.fixture(autouse=True)
def sleeps(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """How long it was slept for; no poll is there to ask."""
    monkeypatch.delattr(select, "poll")
    slept: list[float] = []
    monkeypatch.setattr(time, "sleep", slept.append)
    return slept


def test_a_window_that_closes_is_gone_and_one_with_keys_is_not(sleeps: list[float]) -> None:
    with terminals() as (window, program):
        assert not has_gone(0, program)
        os.write(window, b"2")
        assert not has_gone(5, program)
        assert sleeps == [5]  # else a key that nobody reads would keep the watcher busy
        assert os.read(program, 9) == b"2"
        assert not has_gone(0, program)
        os.close(window)
        assert has_gone(5, program)


def test_keys_that_nobody_has_read_do_not_hide_that_it_has_gone() -> None:
    with terminals() as (window, program):
        os.write(window, b"2")
        os.close(window)
        assert has_gone(0, program)


@pytest.mark.parametrize(("keys", "gone"), [(0, True), (1, False), (256, False)])
def test_as_macos_says_it_by_an_end_of_what_can_be_read(
    monkeypatch: pytest.MonkeyPatch, keys: int, gone: bool
) -> None:
    """There a terminal without its window reads as at its end, and goes on answering."""
    monkeypatch.setattr(select, "select", lambda *_: ([0], [], []))
    monkeypatch.setattr(fcntl, "ioctl", lambda *_: keys.to_bytes(4, sys.byteorder))
    assert has_gone(1) is gone


def test_a_key_that_is_read_between_two_questions_is_no_end(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    answers = [[0], [0], []]
    monkeypatch.setattr(select, "select", lambda *_: (answers.pop(0), [], []))
    monkeypatch.setattr(fcntl, "ioctl", lambda *_: bytes(4))
    assert not has_gone()
    assert answers == []


def test_what_is_no_terminal_is_not_said_to_have_gone(sleeps: list[float]) -> None:
    with Path(os.devnull).open() as nothing:
        assert not has_gone(3, nothing.fileno())
    assert sleeps == [3]
