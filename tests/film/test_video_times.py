"""Start and length of a video, from built files of every kind and from such as were spoilt."""

from __future__ import annotations

import contextlib
import io
import json
import shutil
import struct
import subprocess
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.errors import NotAFileError, NotAVideoError
from courtlog.film.atoms import MOST_ATOMS
from courtlog.film.video_times import VideoTimes, read_video, video_times
from courtlog.times import as_moment
from tests.film.built import atom, creation_date, mvhd, since_1904, track, video

MORNING = datetime(2026, 5, 12, 7, 31, 7, tzinfo=UTC)


class CountedFile(io.BytesIO):
    """A file that counts the bytes read from it."""

    count = 0

    def read(self, size: int | None = -1, /) -> bytes:
        content = super().read(size)
        self.count += len(content)
        return content


def times(content: bytes) -> VideoTimes:
    return video_times(io.BytesIO(content), len(content), "a.mp4")


def refusal(content: bytes) -> str:
    with pytest.raises(NotAVideoError) as refused:
        times(content)
    return refused.value.happened


@given(
    st.integers(1, 2_200_000_000),
    st.integers(1, 100_000),
    st.integers(1, 86_000_000),
    st.booleans(),
    st.booleans(),
)
def test_start_and_length_are_those_of_the_header(
    second: int, scale: int, length_ms: int, long: bool, moov_first: bool
) -> None:
    when = datetime.fromtimestamp(second, UTC)
    units = max(1, length_ms * scale // 1000)
    if units > 2**32 - 2:
        long = True
    read = times(
        video(mvhd(since_1904(when), scale, units, long=long), track(), moov_first=moov_first)
    )
    assert read.written_ms == as_moment(when)
    assert read.length_ms == max(1, round(units * 1000 / scale))
    assert read.recorded_ms is None


@given(
    st.integers(1, 7_000_000_000),
    st.integers(-14 * 4, 14 * 4),
    st.booleans(),
    st.booleans(),
    st.integers(0, 300),
)
def test_a_creation_date_is_read_with_its_zone(
    second: int, quarters: int, iso: bool, within_udta: bool, others: int
) -> None:
    zone = timezone(timedelta(minutes=15 * quarters))
    when = datetime.fromtimestamp(second, zone)
    meta = creation_date(when.strftime("%Y-%m-%dT%H:%M:%S%z"), iso=iso, others=others)
    read = times(
        video(mvhd(0, 600, 600), track(), atom("udta", meta, bytes(4)) if within_udta else meta)
    )
    assert (read.recorded_ms, read.written_ms) == (as_moment(when), None)


@pytest.mark.parametrize("text", ["", "yesterday", "2026-05-12T09:31:07", "9999-99-99", "\0\0"])
def test_a_creation_date_without_a_zone_or_sense_is_none(text: str) -> None:
    meta = creation_date(text)
    assert times(video(mvhd(1, 600, 600), track(), meta)).recorded_ms is None


def test_sizes_in_eight_bytes_and_to_the_end_of_the_file() -> None:
    moov = atom("moov", mvhd(since_1904(MORNING), 600, 1200), track())
    last = (0).to_bytes(4) + b"mdat" + bytes(500)
    for content in (
        atom("mdat", bytes(9), large=True) + moov,
        moov + last,
        atom("wide") + atom("mdat", bytes(9)) + moov + b"\0\0\0",
    ):
        assert times(content).length_ms == 2000


def test_a_film_in_fragments_says_its_length_beside_its_header() -> None:
    for extra in (b"\0\0\0\0" + (3000).to_bytes(4), b"\1\0\0\0" + (3000).to_bytes(8)):
        mvex = atom("mvex", atom("mehd", extra))
        assert times(video(mvhd(1, 1000, 0), track(), mvex)).length_ms == 3000
    assert "does not say how long" in refusal(video(mvhd(1, 1000, 0), track()))
    assert "does not say how long" in refusal(video(mvhd(1, 1000, 2**32 - 1), track()))
    assert "does not say how long" in refusal(video(mvhd(1, 0, 10), track()))


def test_a_copy_has_the_same_fingerprint_and_another_film_another() -> None:
    one = video(mvhd(5, 600, 600), track())
    assert times(one).fingerprint == times(bytes(bytearray(one))).fingerprint
    others = [video(mvhd(6, 600, 600), track()), video(mvhd(5, 600, 600), track(), pictures=1001)]
    assert len({times(content).fingerprint for content in (one, *others)}) == 3


def test_what_is_no_video_is_refused_in_one_sentence() -> None:
    whole = video(mvhd(1, 600, 600), track())
    assert refusal(b"") == "a.mp4 is empty."
    assert refusal(b"PK\3\4" * 99) == "a.mp4 is no MP4 or MOV video."
    assert "only sound" in refusal(video(mvhd(1, 600, 600), track(b"soun")))
    assert "cut off" in refusal(whole[: whole.index(b"moov") - 4])
    assert "ends before" in refusal(whole[:500])
    assert "longer than a day" in refusal(video(mvhd(1, 1, 90_000), track()))
    assert "cannot be right" in refusal(video(track()))


def test_sizes_that_lie_are_refused() -> None:
    ftyp = atom("ftyp", bytes(8))
    assert "ends before" in refusal(ftyp + (2**31).to_bytes(4) + b"moov" + bytes(99))
    assert "cannot be right" in refusal(ftyp + (4).to_bytes(4) + b"moov" + bytes(99))
    large = (1).to_bytes(4) + b"moov" + (2**64 - 1).to_bytes(8) + bytes(99)
    assert "ends before" in refusal(ftyp + large)
    assert "cannot be right" in refusal(video((900).to_bytes(4) + b"mvhd", bytes(50)))


def test_no_more_is_read_than_headers_whatever_the_size() -> None:
    moov = (mvhd(1, 600, 600), track(), atom("free", bytes(5_000_000)), track())
    file = CountedFile(video(*moov, pictures=5_000_000))
    video_times(file, len(file.getvalue()), "a.mp4")
    assert file.count < 70_000


def test_a_file_of_nothing_but_atoms_ends() -> None:
    assert "more parts" in refusal(atom("free") * (MOST_ATOMS + 9))
    assert "more parts" in refusal(video(atom("free") * (MOST_ATOMS + 9)))


def whole_file() -> bytes:
    meta = creation_date("2026-05-12T09:31:07+0200", others=3)
    return video(mvhd(since_1904(MORNING), 600, 6000), track(), meta, pictures=30)


SPOILT = st.one_of(
    st.tuples(st.just("cut"), st.integers(0, 700), st.just(b"")),
    st.tuples(st.just("set"), st.integers(0, 700), st.binary(min_size=1, max_size=12)),
    st.tuples(st.just("add"), st.integers(0, 700), st.binary(min_size=1, max_size=12)),
)


@given(st.lists(SPOILT, min_size=1, max_size=4))
def test_a_spoilt_file_has_times_or_one_sentence(changes: list[tuple[str, int, bytes]]) -> None:
    content = whole_file()
    for way, place, some in changes:
        rest = {"cut": b"", "set": content[place + len(some) :], "add": content[place:]}[way]
        content = content[:place] + some + rest
    file = CountedFile(content)
    error = None
    try:
        read = video_times(file, len(content), "a.mp4")
    except NotAVideoError as refused:
        error = refused
    if error is None:
        assert 0 < read.length_ms <= 24 * 3600 * 1000
    else:
        assert error.happened.startswith("a.mp4 ")
        assert error.happened.count(".") == 2
        assert error.next_step
    assert file.count < 20 * len(content) + 1000


@given(st.binary(min_size=1, max_size=200))
def test_any_bytes_are_no_video(content: bytes) -> None:
    assert "no MP4 or MOV" in refusal(content)


def test_a_folder_or_a_pipe_is_no_video(tmp_path: Path) -> None:
    with pytest.raises(NotAFileError, match="folder"):
        read_video(tmp_path)


needs_ffmpeg = pytest.mark.skipif(
    not (shutil.which("ffmpeg") and shutil.which("ffprobe")), reason="ffmpeg is not here"
)


def filmed(path: Path, seconds: str, *options: str) -> Path:
    """A film of a moving test picture, made by ffmpeg."""
    source = f"testsrc=size=64x48:rate=25:duration={seconds}"
    subprocess.run(
        ["ffmpeg", "-v", "error", "-nostdin", "-f", "lavfi", "-i", source, *options, str(path)],
        check=True,
    )
    return path


def probed(path: Path) -> dict[str, str]:
    """Length and times as ffprobe reads them."""
    asked = subprocess.run(
        ["ffprobe", "-v", "error", "-show_format", "-of", "json", str(path)],
        check=True,
        capture_output=True,
    )
    read = json.loads(asked.stdout)["format"]
    return {"duration": read["duration"], **read.get("tags", {})}


@needs_ffmpeg
@pytest.mark.parametrize("ending", ["mp4", "mov"])
@pytest.mark.parametrize(
    "options",
    [
        (),
        ("-movflags", "+faststart"),
        ("-movflags", "use_metadata_tags"),
        ("-r", "30000/1001"),
        ("-metadata:s:v", "rotate=90"),
        ("-vf", "select=not(mod(n\\,3))", "-fps_mode", "vfr"),
        ("-r", "30000/1001", "-timecode", "01:00:00;00"),
        ("-output_ts_offset", "1.5"),
        ("-movflags", "frag_keyframe+empty_moov", "-g", "5"),
        ("-movflags", "frag_keyframe+empty_moov+default_base_moof", "-g", "5", "-bf", "2"),
        ("-movflags", "dash", "-g", "5"),
        ("-movflags", "empty_moov", "-frag_duration", "100000"),
    ],
    ids=[
        *("plain", "index first", "keys", "29.97", "turned", "uneven", "drop frame", "edit list"),
        *("fragments", "fragments, two ways", "fragments of an index", "fragments of 0.1 s"),
    ],
)
def test_ffprobe_reads_the_same(tmp_path: Path, ending: str, options: tuple[str, ...]) -> None:
    """Outside check: ffprobe of ffmpeg."""
    for seconds in ("0.2", "3.44"):
        path = filmed(
            tmp_path / f"{seconds}.{ending}",
            seconds,
            *("-metadata", "creation_time=2026-05-12T07:31:07Z"),
            *("-metadata", "com.apple.quicktime.creationdate=2026-05-12T09:31:05+0200"),
            *options,
        )
        read, told = read_video(path), probed(path)
        assert abs(read.length_ms - 1000 * float(told["duration"])) <= 50
        assert read.written_ms == as_moment(datetime.fromisoformat(told["creation_time"]))
        date = told.get("com.apple.quicktime.creationdate")
        assert read.recorded_ms == (date and as_moment(datetime.fromisoformat(date)))
        assert (date is not None) == ("use_metadata_tags" in options)
        assert read.size == path.stat().st_size


@needs_ffmpeg
def test_a_file_of_five_gigabytes_is_read_like_a_small_one(tmp_path: Path) -> None:
    """The pictures' atom has its size in eight bytes, where ffmpeg has left room for it.

    Almost all of the file is a hole, so that it takes no room on the disk.
    """
    small = filmed(tmp_path / "small.mp4", "3").read_bytes()
    place = small.index(b"\0\0\0\x08free") + 8
    end = place + int.from_bytes(small[place : place + 4])
    size = 5 * 2**30
    large = tmp_path / "large.mp4"
    with large.open("wb") as file:
        file.write(small[: place - 8] + struct.pack(">I4sQ", 1, b"mdat", size))
        file.write(small[place + 8 : end])
        file.seek(place - 8 + size)
        file.write(small[end:])
    read = read_video(large)
    assert read.length_ms == 3000
    assert read.size > 2**32
    assert float(probed(large)["duration"]) == 3
    large.unlink()


@needs_ffmpeg
def test_a_film_in_fragments_with_sound_is_as_long_as_its_pictures(tmp_path: Path) -> None:
    sound = ["-f", "lavfi", "-i", "sine=duration=2", "-c:a", "aac"]
    path = filmed(tmp_path / "a.mp4", "2", *sound, "-movflags", "frag_keyframe+empty_moov")
    assert read_video(path).length_ms == 2000


@needs_ffmpeg
@pytest.mark.parametrize("part", ["trun", "tfhd", "tfdt", "trex", "mdhd", "tkhd"])
def test_fragments_that_lie_have_a_length_or_one_sentence(tmp_path: Path, part: str) -> None:
    options = ("-movflags", "frag_keyframe+empty_moov", "-g", "5")
    content = filmed(tmp_path / "a.mp4", "1", *options).read_bytes()
    place = content.index(part.encode())
    for index in range(place - 4, place + 24):
        for value in (0, 1, 2, 255):
            spoilt = content[:index] + bytes([value]) + content[index + 1 :]
            with contextlib.suppress(NotAVideoError):
                assert 0 < times(spoilt).length_ms <= 24 * 3600 * 1000


@needs_ffmpeg
@pytest.mark.parametrize("container", ["matroska", "avi", "mpegts", "webm", "ogg"])
def test_a_film_of_another_container_is_refused_in_one_sentence(
    tmp_path: Path, container: str
) -> None:
    path = filmed(tmp_path / "a.mp4", "0.2", "-f", container)
    with pytest.raises(NotAVideoError, match=r"a\.mp4 is no MP4 or MOV video\."):
        read_video(path)


@needs_ffmpeg
def test_a_sound_file_of_ffmpeg_is_no_video(tmp_path: Path) -> None:
    path = tmp_path / "sound.m4a"
    source = ["-f", "lavfi", "-i", "sine=duration=0.3"]
    subprocess.run(["ffmpeg", "-v", "error", "-nostdin", *source, str(path)], check=True)
    with pytest.raises(NotAVideoError, match="only sound"):
        read_video(path)
