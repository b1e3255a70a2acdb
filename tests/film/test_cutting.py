"""Clips and stills cut by ffmpeg: read from decoded frames, with ffprobe as the outside check."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from courtlog.errors import CourtlogError
from courtlog.film import cutting
from courtlog.film.cutting import clip_rate, cut_clip, cut_still, find_ffmpeg
from courtlog.film.film_search import films_in
from courtlog.film.frame_times import USUAL_MS, frame_ms
from courtlog.film.video_times import read_video
from tests.film.balls import needs_ffmpeg
from tests.film.bar_films import ffmpeg, made, times_shown
from tests.film.built import mvhd, track, video

pytestmark = [needs_ffmpeg, pytest.mark.usefixtures("every_clip_cut")]

HOSTILE_NAMES = (
    "-y.mp4",
    "a;touch gone.mp4",
    "$(touch gone).mp4",
    "frame %03d %s%n.mp4",
    "first\nsecond.mp4",
    "http:example.mp4",
    "concat:a|b.mp4",
    "pipe:0.mp4",
    "'\"`\\.mp4",
    "été ספיר.mp4",
    " .mp4",
)


@pytest.fixture(scope="module")
def program() -> Path:
    path = find_ffmpeg()
    assert path is not None
    return path


@pytest.fixture(scope="module")
def film(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A film of twelve seconds whose frames show their time."""
    return made(tmp_path_factory.mktemp("film") / "film.mp4", "plain", 12)


def names_in(folder: Path) -> list[str]:
    return sorted(one.name for one in folder.iterdir())


def probed(path: Path) -> Any:
    """What ffprobe says of a file."""
    command = ["ffprobe", "-v", "error", "-show_format", "-show_streams", "-show_chapters"]
    done = subprocess.run(
        [*command, "-of", "json", f"file:{path}"], capture_output=True, check=True, timeout=60
    )
    return json.loads(done.stdout)


@pytest.mark.parametrize("start_ms", [0, 1000, 3333, 6050])
@pytest.mark.parametrize("how", ["plain", "variable", "rotated", "late", "ntsc"])
def test_each_frame_of_a_clip_shows_the_time_that_was_asked_for(
    tmp_path: Path, program: Path, how: str, start_ms: int
) -> None:
    """`late` begins with half a second without a picture, which players count and seeks may not."""
    film = made(tmp_path / "film.mp4", how, 12)
    if how == "variable":  # three frames a second
        film = tmp_path / "sparse.mp4"
        select = ("-vf", "select='not(mod(n,2))'", "-vsync", "vfr")
        ffmpeg("-i", f"file:{tmp_path / 'film.mp4'}", *select, f"file:{film}")
    zero = 0.0
    if how == "late":
        film, zero = tmp_path / "late.mp4", 0.5
        late = ("-itsoffset", "0.5", "-i", f"file:{tmp_path / 'film.mp4'}")
        ffmpeg(*late, "-codec", "copy", f"file:{film}")
    if how == "ntsc":
        film = tmp_path / "ntsc.mp4"
        ffmpeg("-i", f"file:{tmp_path / 'film.mp4'}", "-r", "30000/1001", f"file:{film}")
    cut_clip(program, film, start_ms, start_ms + 5000, tmp_path / "clip.mp4")
    shown = times_shown(tmp_path / "clip.mp4", upright=how == "rotated")
    rate = clip_rate(film)
    assert len(shown) == pytest.approx(5 * rate, abs=2)
    first = max(0, start_ms / 1000 - zero)
    for number, time in enumerate(shown):
        meant = max(first, start_ms / 1000 + number / rate - zero)
        assert time == pytest.approx(meant, abs=0.1), number
    cut_still(program, film, start_ms + 2000, tmp_path / "hit.jpg")
    (still,) = times_shown(tmp_path / "hit.jpg", upright=how == "rotated")
    assert still == pytest.approx(start_ms / 1000 + 2 - zero, abs=0.1)


def test_a_clip_is_what_every_browser_plays_and_nothing_more(tmp_path: Path, program: Path) -> None:
    """Upright, small, no sound, no place, no date, no chapter; its index stands in front."""
    film = tmp_path / "film.mp4"
    chapters = tmp_path / "chapters"
    chapters.write_text(
        ";FFMETADATA1\n[CHAPTER]\nTIMEBASE=1/1000\nSTART=0\nEND=2000\ntitle=Maren\n"
    )
    ffmpeg(
        *("-f", "lavfi", "-i", "testsrc=size=1921x1081:rate=60:duration=3"),
        *("-f", "lavfi", "-i", "sine=duration=3", "-i", f"file:{chapters}", "-map_chapters", "2"),
        *("-metadata", "location=+38.7-009.1/", "-metadata", "title=Maren"),
        *("-metadata", "creation_time=2026-05-12T07:30:35Z", "-pix_fmt", "yuv444p"),
        *("-metadata:s:v", "handler_name=Maren", f"file:{tmp_path / 'lying.mp4'}"),
    )
    turned = ("-map", "0", "-codec", "copy", "-metadata:s:v", "rotate=90")
    ffmpeg("-i", f"file:{tmp_path / 'lying.mp4'}", *turned, f"file:{film}")
    assert {one["codec_type"] for one in probed(film)["streams"]} >= {"audio", "video"}
    clip, still = tmp_path / "clip.mp4", tmp_path / "hit.jpg"
    cut_clip(program, film, 500, 2500, clip)
    cut_still(program, film, 1500, still)
    told = probed(clip)
    (stream,) = told["streams"]
    assert (stream["codec_name"], stream["pix_fmt"]) == ("h264", "yuv420p")
    assert (stream["width"], stream["height"]) == (720, 1280)
    assert "side_data_list" not in stream
    assert (stream["r_frame_rate"], stream["start_time"]) == ("60/1", "0.000000")
    assert told["chapters"] == []
    assert set(told["format"]["tags"]) <= {"major_brand", "minor_version", "compatible_brands"}
    assert set(stream["tags"]) <= {"language", "handler_name", "vendor_id", "encoder"}
    for made_file in (clip, still):
        content = made_file.read_bytes()
        assert not any(word in content for word in (b"Maren", b"38.7", b"2026", b"film.mp4"))
    assert clip.read_bytes().index(b"moov") < clip.read_bytes().index(b"mdat")
    assert read_video(clip).written_ms is None
    if os.name == "posix":
        assert {oct(one.stat().st_mode & 0o777) for one in (clip, still)} == {"0o600"}


@pytest.mark.skipif(sys.platform == "win32", reason="such names are not allowed there")
@pytest.mark.parametrize("name", HOSTILE_NAMES)
def test_a_name_is_only_a_name(
    tmp_path: Path, program: Path, film: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    home = tmp_path / f"in {name}"
    home.mkdir()
    monkeypatch.chdir(home)
    shutil.copy(film, name)
    cut_clip(program, Path(name), 1000, 2000, Path(f"clip {name}"))
    cut_still(program, Path(name), 1500, Path(f"still {name}"))
    assert names_in(home) == sorted([name, f"clip {name}", f"still {name}"])
    assert times_shown(home / f"still {name}") == [1.5]
    assert times_shown(home / f"clip {name}")[0] == 1.0


def test_a_file_that_only_names_other_files_is_not_obeyed(
    tmp_path: Path, program: Path, film: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A list of files would lead ffmpeg to any file of the machine, and into the network."""
    monkeypatch.setattr(cutting, "clip_rate", lambda _: 30)
    listed = tmp_path / "list.mp4"
    for text in (
        f"ffconcat version 1.0\nfile 'file:{film}'\n",
        f"#EXTM3U\n#EXTINF:12,\nfile:{film}\n#EXT-X-ENDLIST\n",
    ):
        listed.write_text(text)
        with pytest.raises(CourtlogError, match=r"list\.mp4"):
            cut_clip(program, listed, 0, 1000, tmp_path / "clip.mp4")
        assert names_in(tmp_path) == ["list.mp4"]


@pytest.mark.parametrize("cut", [cut_clip, cut_still])
def test_what_ffmpeg_cannot_cut_is_told_in_its_own_words(
    tmp_path: Path, program: Path, film: Path, cut: Any
) -> None:
    """A whole file with damaged pictures, and a place after the end; what was there stays."""
    hollow = tmp_path / "hollow.mp4"
    hollow.write_bytes(video(mvhd(0, 1000, 60_000), track()))
    there = tmp_path / "there"
    there.write_text("before")
    span = (0, 1000) if cut is cut_clip else (0,)
    with pytest.raises(CourtlogError) as refused:
        cut(program, hollow, *span, there)
    assert refused.value.happened.startswith("ffmpeg could not cut a clip of hollow.mp4: ")
    assert "no reason given" not in refused.value.happened
    span = (60_000, 61_000) if cut is cut_clip else (60_000,)
    with pytest.raises(CourtlogError, match="film"):
        cut(program, film, *span, there)
    assert there.read_text() == "before"
    assert names_in(tmp_path) == ["hollow.mp4", "there"]


def script(path: Path, text: str) -> Path:
    """A program of a few lines in the place of ffmpeg."""
    path.write_text(f"#!{sys.executable}\n{text}\n")
    path.chmod(0o700)
    return path


@pytest.mark.skipif(sys.platform == "win32", reason="a script is no program there")
@pytest.mark.parametrize(
    ("listed", "chosen"),
    [
        ("libopenh264 libx264 libvpx-vp9", "libx264"),
        ("libvpx-vp9 h264_mf", "h264_mf"),
        ("mpeg4 libvpx-vp9", "libvpx-vp9"),
        ("mpeg4 libx264rgb", None),
        ("", None),
    ],
)
def test_the_encoder_is_one_that_this_ffmpeg_has(
    tmp_path: Path, film: Path, listed: str, chosen: str | None
) -> None:
    """It lists its encoders, and writes down what it was told."""
    lines = [f" V....D {name}   a codec" for name in listed.split()]
    told = tmp_path / "told.txt"
    program = script(
        tmp_path / "ffmpeg",
        "import shutil, sys\n"
        f"if '-encoders' in sys.argv: print({chr(10).join(lines)!r}); sys.exit()\n"
        f"open({str(told)!r}, 'w').write('\\n'.join(sys.argv))\n"
        f"shutil.copy({str(film)!r}, sys.argv[-1].removeprefix('file:'))\n",
    )
    if chosen is None:
        with pytest.raises(CourtlogError, match="cannot write a video that browsers play"):
            cut_clip(program, film, 0, 1000, tmp_path / "clip.mp4")
        assert not told.exists()
        return
    cut_clip(program, film, 0, 1000, tmp_path / "clip.mp4")
    words = told.read_text().split("\n")
    assert words[words.index("-codec:v") + 1] == chosen
    assert "-nostdin" in words
    for word in words:
        if str(tmp_path) in word or film.name in word:
            assert word == words[0] or word.startswith("file:")


@pytest.mark.skipif(sys.platform == "win32", reason="a script is no program there")
@pytest.mark.parametrize("end", ["sys.exit(1)", "os.kill(os.getpid(), 9)", "sys.exit(0)"])
def test_a_partial_clip_never_stays(tmp_path: Path, film: Path, end: str) -> None:
    """A program that fails, is killed, or has nothing to write."""
    write = "" if end == "sys.exit(0)" else "open(sys.argv[-1][5:], 'w').write('half')"
    program = script(
        tmp_path / "ffmpeg",
        "import os, sys\n"
        "if '-encoders' in sys.argv: print(' V....D libx264  a codec'); sys.exit()\n"
        f"{write}\n{end}\n",
    )
    with pytest.raises(CourtlogError, match="film"):
        cut_clip(program, film, 0, 1000, tmp_path / "clip.mp4")
    assert names_in(tmp_path) == ["ffmpeg"]


def test_an_ffmpeg_that_is_gone_is_told(tmp_path: Path, film: Path) -> None:
    with pytest.raises(CourtlogError, match="ffmpeg cannot be started"):
        cut_still(tmp_path / "ffmpeg", film, 0, tmp_path / "hit.jpg")
    assert names_in(tmp_path) == []


@pytest.mark.parametrize(
    ("rate", "clip"), [("24", 25), ("25", 25), ("30000/1001", 30), ("60", 60), ("120", 60)]
)
def test_a_frame_is_as_long_as_ffprobe_says(tmp_path: Path, rate: str, clip: int) -> None:
    film = tmp_path / "film.mp4"
    ffmpeg("-f", "lavfi", "-i", f"testsrc=size=64x64:rate={rate}:duration=4", f"file:{film}")
    (stream,) = probed(film)["streams"]
    over, under = map(int, stream["avg_frame_rate"].split("/"))
    assert frame_ms(film) == pytest.approx(1000 * under / over, rel=0.01)
    assert clip_rate(film) == clip


def test_a_file_that_says_nothing_of_its_frames_has_thirty(tmp_path: Path) -> None:
    film = tmp_path / "film.mp4"
    film.write_bytes(video(mvhd(0, 1000, 60_000), track()))
    assert frame_ms(film) == USUAL_MS


def test_films_are_known_by_their_fingerprint_under_any_name(tmp_path: Path, film: Path) -> None:
    """In the folder or one below; sound, texts and folders named like films are passed over."""
    other = made(tmp_path / "other.mov", "variable", 3)
    (tmp_path / "phone").mkdir()
    (tmp_path / "phone" / "deep").mkdir()
    for place in ("z copy.mp4", "phone/a.MP4", "phone/deep/b.mp4"):
        shutil.copy(film, tmp_path / place)
    (tmp_path / "a text.mp4").write_text("no film")
    (tmp_path / "folder.mp4").mkdir()
    assert films_in(tmp_path) == {
        read_video(film).fingerprint: tmp_path / "z copy.mp4",
        read_video(other).fingerprint: other,
    }
    with pytest.raises(CourtlogError, match="cannot be read"):
        films_in(tmp_path / "missing")
