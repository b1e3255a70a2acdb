"""The sounds as they are in their files: read back, not believed."""

from __future__ import annotations

import io
import math
import wave
from itertools import combinations, groupby, pairwise
from pathlib import Path

import numpy as np
import pytest

from courtlog.courtside.sound import waves
from courtlog.courtside.sound.sounds import IN_WORDS, TONES, Sound

FRAME = 0.010
"""Seconds of a stretch whose pitch is looked for; two periods of 200 Hz."""

LOWEST = 500
"""Hertz that the small loudspeaker of a laptop still gives; common practice, no source."""

MINOR_THIRD = 3
"""Semitones; equal temperament over A = 440 Hz, the tuning of ISO 16."""


def notes(data: bytes) -> list[tuple[int, int]]:
    """The notes of a wave file, in semitones from A = 440 Hz, and how many frames each lasts."""
    with wave.open(io.BytesIO(data)) as file:
        assert (file.getnchannels(), file.getsampwidth()) == (1, 2)
        rate = file.getframerate()
        samples = np.frombuffer(file.readframes(file.getnframes()), "<i2").astype(float)
    size = int(rate * FRAME)
    frames = [samples[at : at + size] for at in range(0, len(samples) - size + 1, size)]
    found = [
        (note, len(list(run))) for note, run in groupby(_note(frame, rate) for frame in frames)
    ]
    return [(note, length) for note, length in found if note is not None and length > 1]


def _note(frame: np.ndarray, rate: int) -> int | None:
    if np.abs(frame).max() < 1000:
        return None
    spectrum = np.abs(np.fft.rfft(frame * np.hanning(len(frame)), n=rate))
    return round(12 * math.log2(float(spectrum.argmax()) / 440))


def shape(data: bytes) -> tuple[int, ...]:
    """How the notes move: up, level or down from each to the next."""
    return tuple(int(np.sign(b - a)) for (a, _), (b, _) in pairwise(notes(data)))


@pytest.fixture(params=Sound, ids=lambda sound: sound.name)
def sound(request: pytest.FixtureRequest) -> Sound:
    """Each of them."""
    chosen: Sound = request.param
    return chosen


SOUNDS_LIKE = {
    Sound.REFUSED: [3, 3],  # C5 twice
    Sound.OVER: [10],  # G5
    Sound.TAKEN_BACK: [15, 8],  # C6, F5: a fifth down
    Sound.TOUGH: [8, 15, 20],  # F5, C6, F6
    Sound.TAKEN: [20],  # F6
}


def test_a_sound_is_the_notes_that_it_is_said_to_be(sound: Sound) -> None:
    assert [note for note, _ in notes(waves.wave_of(TONES[sound]))] == SOUNDS_LIKE[sound]


def test_every_tone_is_a_note_that_a_small_loudspeaker_gives() -> None:
    for tone in (tone for tones in TONES.values() for tone in tones if tone.hertz):
        note = 12 * math.log2(tone.hertz / 440)
        assert abs(note - round(note)) < 0.05
        assert tone.hertz >= LOWEST


def test_a_sound_is_short(sound: Sound) -> None:
    with wave.open(io.BytesIO(waves.wave_of(TONES[sound]))) as file:
        assert 0.03 <= file.getnframes() / file.getframerate() <= 0.3


def test_no_sound_clicks_or_is_cut_off(sound: Sound) -> None:
    with wave.open(io.BytesIO(waves.wave_of(TONES[sound]))) as file:
        samples = np.frombuffer(file.readframes(file.getnframes()), "<i2").astype(int)
    assert abs(samples[0]) < 200
    assert abs(samples[-1]) < 2000
    assert 0.5 * 32_767 < np.abs(samples).max() < 0.7 * 32_767


@pytest.mark.parametrize(("one", "other"), list(combinations(Sound, 2)))
def test_two_sounds_differ_by_ear(one: Sound, other: Sound) -> None:
    """They move in another way, or one is much longer, or each note is a minor third away."""
    first, second = waves.wave_of(TONES[one]), waves.wave_of(TONES[other])
    lengths = sorted(sum(length for _, length in notes(data)) for data in (first, second))
    apart = min(abs(a - b) for a, _ in notes(first) for b, _ in notes(second))
    assert shape(first) != shape(second) or lengths[1] >= 2 * lengths[0] or apart >= MINOR_THIRD


def test_every_sound_has_its_words() -> None:
    assert list(IN_WORDS) == list(TONES) == list(Sound)


def test_a_file_is_made_once_and_made_again_where_it_was_spoilt(
    tmp_path: Path, sound: Sound
) -> None:
    path = waves.file_of(sound, tmp_path / "sounds")
    made = path.stat()
    assert waves.file_of(sound, tmp_path / "sounds").stat().st_mtime_ns == made.st_mtime_ns
    path.write_bytes(b"something else")
    assert waves.file_of(sound, tmp_path / "sounds").read_bytes() == waves.wave_of(TONES[sound])
    assert [file.name for file in path.parent.iterdir()] == [path.name]
