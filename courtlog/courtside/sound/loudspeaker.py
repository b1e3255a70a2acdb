"""Plays and speaks beside the court, in a thread of its own: at most one program at a time.

Whoever asks never waits. A sound is played to its end, and then the latest that was asked for;
words give way to what comes after them. A program that fails or hangs is not asked again, and
the next one of its kind takes its place.
"""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from courtlog import locations
from courtlog.courtside.sound import programs, waves
from courtlog.courtside.sound.programs import Program
from courtlog.courtside.sound.sounds import Sound

LONGEST_SOUND = 3.0
"""Seconds after which a player hangs: ten times the longest sound."""

LONGEST_WORDS = 12.0
"""Seconds after which a voice hangs: the longest feed is said in less."""

MOST_LETTERS = 1000
"""What every pipe takes at once, so that a voice that does not listen holds nobody up."""

_LOOK_AGAIN = 0.02


@dataclass(frozen=True, slots=True)
class Request:
    """A sound, then words; either may be missing."""

    sound: Sound | None = None
    words: str = ""


class Loudspeaker:
    """One court's sounds and words, the latest first."""

    def __init__(
        self,
        instead: Callable[[Request], object],
        longest_sound: float = LONGEST_SOUND,
        longest_words: float = LONGEST_WORDS,
    ) -> None:
        """`instead` gets, from any thread, the sound or the words that nothing here can play."""
        self._instead = instead
        self._longest_sound = longest_sound
        self._longest_words = longest_words
        self._changed = threading.Condition()
        self._wanted: Request | None = None
        self._closed = self._busy = False
        self._thread: threading.Thread | None = None

    def ask(self, request: Request) -> None:
        """Play this next, in the place of what waits now."""
        with self._changed:
            self._wanted = request
            self._changed.notify_all()
            if self._thread is not None:
                return
            self._thread = threading.Thread(target=self._work, name="loudspeaker", daemon=True)
        try:
            self._thread.start()
        except RuntimeError:  # the system gives no more threads
            self._thread = self._wanted = None
            self._instead(request)

    def close(self) -> None:
        """End what plays, and play nothing more."""
        with self._changed:
            self._closed, self._wanted = True, None
            self._changed.notify_all()
        if self._thread is not None:
            self._thread.join(1)  # it has only to end a program; a dead disk may hold it for ever

    def wait_until_silent(self) -> None:
        """Come back when everything asked for was played; for those who have the time."""
        with self._changed:
            self._changed.wait_for(lambda: self._wanted is None and not self._busy)

    def _work(self) -> None:
        players, voices = programs.players(), programs.voices()
        while (request := self._next()) is not None:
            if request.sound is not None and not self._play(request.sound, players):
                self._instead(Request(request.sound))
            if not request.words or self._gives_way():
                continue
            words = request.words[:MOST_LETTERS].encode(errors="replace")
            if not self._run(voices, words, self._longest_words, self._gives_way):
                self._instead(Request(words=request.words))

    def _next(self) -> Request | None:
        """Wait for what is to be played; None when no more will be."""
        with self._changed:
            self._busy = False
            self._changed.notify_all()
            self._changed.wait_for(lambda: self._closed or self._wanted is not None)
            request, self._wanted = self._wanted, None
            self._busy = request is not None
            return request

    def _gives_way(self) -> bool:
        return self._closed or self._wanted is not None

    def _play(self, sound: Sound, players: list[Program]) -> bool:
        """Whether the sound was played, or need not be any more."""
        folder = locations.sounds()
        if folder is None or (sys.platform != "win32" and not players):
            return False
        try:
            file = waves.file_of(sound, folder)
        except OSError:  # no room for it
            return False
        if sys.platform == "win32":
            return _play_on_windows(file)
        return self._run(players, b"", self._longest_sound, lambda: self._closed, str(file))

    def _run(
        self,
        kind: list[Program],
        words: bytes,
        seconds: float,
        gives_way: Callable[[], bool],
        *more: str,
    ) -> bool:
        """Let the first of this kind do it that can, and leave out for good those that cannot.

        Whether one did it, or was ended since it had to give way.
        """
        while kind:
            process = _start((*kind[0], *more), words)
            if process is not None and self._follow(process, seconds, gives_way):
                return True
            del kind[0]
        return False

    def _follow(
        self, process: subprocess.Popen[bytes], seconds: float, gives_way: Callable[[], bool]
    ) -> bool:
        """Whether the program did well or had to give way; it has ended then in any case."""
        until = time.monotonic() + seconds
        with self._changed:
            while (code := process.poll()) is None and time.monotonic() < until:
                if gives_way():
                    break
                self._changed.wait(_LOOK_AGAIN)
            had_to_end = code is None and gives_way()
        if code is None:
            _end(process)
        return code == 0 or had_to_end


def _start(words: Program, told: bytes) -> subprocess.Popen[bytes] | None:
    """The program, out of reach of the keys and lines of this terminal; None if it cannot start."""
    try:
        process = subprocess.Popen(
            words,
            stdin=subprocess.PIPE,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except OSError:
        return None
    assert process.stdin is not None
    with contextlib.suppress(OSError), process.stdin:  # it may go before it has heard all
        process.stdin.write(told)
    return process


def _end(process: subprocess.Popen[bytes]) -> None:
    """End the program and all that it has started."""
    with contextlib.suppress(OSError):
        if sys.platform == "win32":
            process.kill()
        else:
            os.killpg(process.pid, signal.SIGKILL)
    process.wait()


if sys.platform == "win32":
    import winsound

    def _play_on_windows(file: Path) -> bool:
        """Play the sound to its end; whether there is something that plays."""
        try:
            winsound.PlaySound(str(file), winsound.SND_FILENAME | winsound.SND_NODEFAULT)
        except RuntimeError:
            return False
        return True
