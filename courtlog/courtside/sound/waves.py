"""Wave files of the sounds, made once into the cache folder."""

from __future__ import annotations

import io
import math
import wave
from array import array
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from courtlog import drafts, private
from courtlog.courtside.sound.sounds import TONES, Sound, Tone

RATE = 22_050
"""Samples a second."""

LOUD = 0.6
"""Part of the loudest sample that a file can hold."""

_FADE_MS = 6
"""A tone begins and ends softly, so that it does not click."""


def file_of(sound: Sound, folder: Path) -> Path:
    """The sound's wave file, made where it is missing or another one. Raises OSError."""
    path = folder / f"{sound.value.replace(' ', '-')}.wav"
    data = wave_of(TONES[sound])
    if not path.is_file() or path.read_bytes() != data:
        private.make_folder(path.parent)
        with drafts.file_in(path.parent) as draft:
            draft.write_bytes(data)
            drafts.put(draft, path)
    return path


@cache
def wave_of(tones: tuple[Tone, ...]) -> bytes:
    """These tones one after the other, as the bytes of a wave file (16 bits, one channel)."""
    samples = array("h", (sample for tone in tones for sample in _samples(tone)))
    held = io.BytesIO()
    with wave.open(held, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(samples.tobytes())
    return held.getvalue()


def _samples(tone: Tone) -> Sequence[int]:
    count, fade = RATE * tone.ms // 1000, RATE * _FADE_MS // 1000
    turn = 2 * math.pi * tone.hertz / RATE
    return [
        round(32_767 * LOUD * min(1.0, at / fade, (count - at) / fade) * math.sin(turn * at))
        for at in range(count)
    ]
