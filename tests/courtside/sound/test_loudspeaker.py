"""Players and voices that are well, fail, hang, print, cannot start: nobody waits, none is left."""

from __future__ import annotations

import errno
import subprocess
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from unittest import mock

import pytest

from courtlog.courtside.sound.loudspeaker import LONGEST_WORDS, Loudspeaker, Request
from courtlog.courtside.sound.sounds import Sound
from tests.courtside.sound.fake_programs import (
    CANNOT_START,
    FAILS,
    HANGS,
    HANGS_WITH_A_CHILD,
    HEARS_ALL,
    PRINTS_MUCH,
    WAITS,
    WELL,
    FakePrograms,
)

REFUSED, OVER = Request(Sound.REFUSED), Request(Sound.OVER)
SOON = 0.2
"""Seconds after which a test's player hangs."""

NEVER = 600.0
"""Seconds that a test never waits for."""


@contextmanager
def speaker_of(longest_sound: float = NEVER) -> Iterator[tuple[Loudspeaker, list[Request]]]:
    """A loudspeaker, and what it could not play."""
    unheard: list[Request] = []
    speaker = Loudspeaker(unheard.append, longest_sound)
    try:
        yield speaker, unheard
    finally:
        speaker.close()


def played(requests: list[Request], longest_sound: float = NEVER) -> list[Request]:
    """What could not be played of these, each played to its end."""
    with speaker_of(longest_sound) as (speaker, unheard):
        for request in requests:
            speaker.ask(request)
            speaker.wait_until_silent()
        return unheard


def test_each_sound_is_played_from_its_file(fakes: FakePrograms) -> None:
    fakes.put("aplay", WELL)
    assert played([Request(sound) for sound in Sound]) == []
    files = ("refused", "over", "taken-back", "tough", "taken")
    assert fakes.calls == [f"aplay -q {name}.wav" for name in files]
    assert fakes.left == []


@pytest.mark.parametrize("does", [FAILS, CANNOT_START, HANGS, HANGS_WITH_A_CHILD])
def test_a_player_that_does_not_its_work_is_left_out_for_good(
    fakes: FakePrograms, does: str | None
) -> None:
    fakes.put("paplay", does)
    fakes.put("aplay", WELL)
    assert played([REFUSED, OVER, REFUSED], SOON) == []
    assert [call for call in fakes.calls if call.startswith("aplay")] == [
        "aplay -q refused.wav",
        "aplay -q over.wav",
        "aplay -q refused.wav",
    ]
    assert sum(call.startswith("paplay") for call in fakes.calls) == (does is not CANNOT_START)
    assert fakes.left == []
    assert not fakes.hangs()


@pytest.mark.parametrize("does", [FAILS, CANNOT_START, HANGS])
def test_the_bell_takes_the_place_of_the_last_player(fakes: FakePrograms, does: str | None) -> None:
    fakes.put("aplay", does)
    assert played([REFUSED, OVER], SOON) == [REFUSED, OVER]
    assert len(fakes.calls) == (does is not CANNOT_START)
    assert fakes.left == []


def test_the_bell_rings_where_there_is_no_player(fakes: FakePrograms) -> None:
    assert played([REFUSED, OVER]) == [REFUSED, OVER]
    assert not (fakes.folder / "sounds").exists()


def test_the_bell_rings_where_no_file_can_be_made(
    fakes: FakePrograms, monkeypatch: pytest.MonkeyPatch
) -> None:
    fakes.put("aplay", WELL)
    (fakes.folder / "file").touch()
    monkeypatch.setenv("COURTLOG_SOUNDS", str(fakes.folder / "file" / "sounds"))
    assert played([REFUSED, OVER]) == [REFUSED, OVER]
    assert fakes.calls == []


@pytest.mark.parametrize("number", [errno.EAGAIN, errno.ENOMEM, errno.EMFILE])
def test_the_bell_rings_where_the_system_starts_no_more_programs(
    fakes: FakePrograms, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    fakes.put("aplay", WELL)
    monkeypatch.setattr(subprocess, "Popen", mock.Mock(side_effect=OSError(number, "no more")))
    assert played([REFUSED, OVER]) == [REFUSED, OVER]


def test_the_bell_rings_where_the_system_gives_no_more_threads(
    fakes: FakePrograms, monkeypatch: pytest.MonkeyPatch
) -> None:
    fakes.put("aplay", WELL)
    with monkeypatch.context() as few:
        few.setattr(threading.Thread, "start", mock.Mock(side_effect=RuntimeError))
        with speaker_of() as (speaker, unheard):
            speaker.ask(REFUSED)
            assert unheard == [REFUSED]
            few.undo()
            speaker.ask(OVER)
            speaker.wait_until_silent()
            assert unheard == [REFUSED]
    assert fakes.calls == ["aplay -q over.wav"]


def test_what_a_player_prints_is_seen_nowhere(
    fakes: FakePrograms, capfd: pytest.CaptureFixture[str]
) -> None:
    fakes.put("aplay", PRINTS_MUCH)
    assert played([REFUSED]) == []
    assert capfd.readouterr() == ("", "")


def test_a_hundred_keys_in_a_burst_are_two_sounds(fakes: FakePrograms) -> None:
    fakes.put("aplay", WAITS)
    with speaker_of() as (speaker, unheard):
        speaker.ask(OVER)
        fakes.wait_until_one_plays()
        for _ in range(99):
            speaker.ask(REFUSED)
        speaker.ask(Request(Sound.TOUGH))
        fakes.let_play_on()
        fakes.wait_until_one_plays()
        fakes.let_play_on()
        speaker.wait_until_silent()
    assert fakes.calls == ["aplay -q over.wav", "aplay -q tough.wav"]
    assert unheard == []


@pytest.mark.parametrize("does", [WAITS, f'(echo > "$FOLDER/begun"; {HANGS}) & wait'])
def test_nothing_plays_on_when_the_court_is_left(fakes: FakePrograms, does: str) -> None:
    fakes.put("aplay", does)
    with speaker_of() as (speaker, unheard):
        speaker.ask(OVER)
        fakes.wait_until_one_plays()
        speaker.ask(REFUSED)
    assert fakes.calls == ["aplay -q over.wav"]
    assert fakes.left == []
    assert not fakes.hangs()
    assert unheard == []


NAMES = [
    "deep to the forehand corner",
    "-rf",
    "--version",
    "$(touch spoilt) `touch spoilt`; touch spoilt",
    "'; Remove-Item * #\" | & % ^",
    "\ud800 cannot be written",
    "Łódź, 東京",
]


@pytest.mark.parametrize("words", NAMES)
def test_words_are_said_as_text_and_never_obeyed(fakes: FakePrograms, words: str) -> None:
    fakes.put("espeak-ng", HEARS_ALL)
    assert played([Request(words=f"{words}\n")]) == []
    assert fakes.calls == ["espeak-ng --stdin"]
    assert fakes.heard() == words.encode(errors="replace").decode() + "\n"


@pytest.mark.parametrize("does", [WELL, FAILS, HANGS])
def test_a_voice_that_does_not_listen_holds_nobody_up(fakes: FakePrograms, does: str) -> None:
    """Far more than a pipe holds: somebody has put a book into the name of a spot."""
    fakes.put("espeak-ng", does)
    unheard: list[Request] = []
    speaker = Loudspeaker(unheard.append, NEVER, SOON)
    speaker.ask(Request(words="deep " * 100_000))
    speaker.wait_until_silent()
    speaker.close()
    assert len(unheard) == (does is not WELL)
    assert fakes.left == []


def test_a_sound_comes_before_the_words(fakes: FakePrograms) -> None:
    fakes.put("aplay", WELL)
    fakes.put("espeak-ng", HEARS_ALL)
    assert played([Request(Sound.TOUGH, "Tough: wide\n")]) == []
    assert fakes.calls == ["aplay -q tough.wav", "espeak-ng --stdin"]


def test_words_give_way_to_what_comes_after_them(fakes: FakePrograms) -> None:
    fakes.put("aplay", WELL)
    fakes.put("espeak-ng", WAITS)
    with speaker_of() as (speaker, unheard):
        speaker.ask(Request(words="a long feed"))
        fakes.wait_until_one_plays()
        speaker.ask(Request(Sound.REFUSED, "wide"))
        fakes.wait_until_one_plays()
        fakes.let_play_on()
        speaker.wait_until_silent()
    assert fakes.calls == ["espeak-ng --stdin", "aplay -q refused.wav", "espeak-ng --stdin"]
    assert unheard == []
    assert fakes.left == []


def test_a_feed_is_said_in_the_time_that_a_voice_has(fakes: FakePrograms) -> None:
    """Three words a second is slow speech (common practice, no source)."""
    assert LONGEST_WORDS * 3 >= 30
