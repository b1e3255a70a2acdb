"""Every file beside a film leads to the frame that the book means, read from decoded pictures.

The films are made with ffmpeg: each frame is a bar code of its own time in twentieths of a second.
"""

from __future__ import annotations

from datetime import date, time
from itertools import chain

import pytest
import srt as other_srt
import webvtt as other_webvtt
import xspf_lib

from courtlog import times
from tests.cli.program import Home
from tests.court import Clock, desk_in, feed
from tests.film.balls import needs_ffmpeg
from tests.film.bar_films import ffmpeg, made, seen_at
from tests.film.test_chapters import read_by_ffprobe
from tests.film.test_playlists import of_edl

pytestmark = needs_ffmpeg

LISBON = times.zone("Europe/Lisbon")
KEYS = (10.0, 17.3, 19.9, 41.25)
"""Seconds after the slate at which a ball was rated."""

SLATE_AT = 2.0
"""Where the film shows the slate."""


@pytest.mark.parametrize("how", ["plain", "off", "zone", "variable", "rotated", "midnight"])
def test_every_file_leads_to_the_frame_that_the_book_means(home: Home, how: str) -> None:
    """The slate was filmed, so the frame is right to a tenth of a second; it is asked for here."""
    slate = times.moment(date(2026, 5, 12), time(8, 30), LISBON)
    if how == "midnight":
        slate = times.moment(date(2026, 5, 12), time(23, 59, 45), LISBON)
    desk = desk_in(home.folder)
    clock = desk.clock
    assert isinstance(clock, Clock)
    for key in KEYS:
        clock.at = slate + round(1000 * key)
        feed(desk, "222")
    desk.book.close()
    film = made(home.folder / "film.mp4", how)
    shows = times.clock_words(slate, LISBON)
    for words in (
        ["roster", "edit", "Maren", "--filming", "yes", "--adult"],
        [
            "film",
            "add",
            "film.mp4",
            "--at",
            f"{SLATE_AT}",
            "--shows",
            shows,
            "--date",
            "2026-05-12",
        ],
        ["film", "chapters", "film.mp4"],
    ):
        said = home.run(*words)
        assert said.code == 0, said.err
    meta, whole = home.folder / "film.ffmetadata", home.folder / "with chapters.mp4"
    ffmpeg(
        *("-i", f"file:{film}", "-i", f"file:{meta}", "-map_metadata", "0"),
        *("-map_chapters", "1", "-codec", "copy", f"file:{whole}"),
    )
    leading, *chapters = read_by_ffprobe(whole)
    assert leading[0] == 0
    options = [
        [one.text for one in track.extension[0].content]
        for track in xspf_lib.Playlist.parse(str(home.folder / "film.xspf"))
    ]
    starts = {
        "chapters": [start for start, _, _ in chapters],
        "WebVTT": [
            one.start_time.in_milliseconds() / 1000
            for one in other_webvtt.read(str(home.folder / "film.vtt")).captions
        ],
        "SRT": [
            one.start.total_seconds()
            for one in other_srt.parse((home.folder / "film.srt").read_text(encoding="utf-8"))
        ],
        "XSPF": [
            float(text.removeprefix("start-time="))
            for text in chain.from_iterable(options)
            if text.startswith("start-time=")
        ],
        "EDL": [
            float(one["start"])
            for one in of_edl((home.folder / "film.edl").read_text(encoding="utf-8"))
        ],
    }
    meant = [SLATE_AT + key - 4 for key in KEYS]
    frames = {at: seen_at(whole, at) for at in set(chain.from_iterable(starts.values()))}
    for file, found in starts.items():
        assert [frames[at] for at in found] == pytest.approx(meant, abs=0.1), file
