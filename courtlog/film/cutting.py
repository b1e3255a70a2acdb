"""Clips and stills cut from a video by the machine's own ffmpeg; the video stays as it is.

Sources: ffmpeg's own manual (`-seek_timestamp`, `-map_metadata`), its formats (mov, mp4, mjpeg) and
its filters (fps, scale). It is called without a shell, and each name is only a name after `file:`.
Whatever a file claims to be, it is read as MP4 or MOV, so that it cannot name other files.
"""

from __future__ import annotations

import contextlib
import re
import shutil
import subprocess
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from courtlog import drafts
from courtlog.errors import CourtlogError, NotAVideoError
from courtlog.film.frame_times import frame_ms
from courtlog.film.video_times import read_video

_LONG_SIDE = 1280
_FRAMES_A_SECOND = (25, 30, 50, 60)
ALIKE_RATE = 30
"""How many frames a second clips have that are to be told apart by nothing."""

_SQUARE = 960
_TOLERANCE = 0.98
"""29.97 frames a second count as 30."""

_LONGEST_RUN_S = 600
_ENCODERS = {
    "libx264": ("-preset", "veryfast", "-crf", "23"),
    "libopenh264": ("-b:v", "3M"),
    "h264_videotoolbox": ("-b:v", "3M"),
    "h264_mf": ("-b:v", "3M"),
    "libvpx-vp9": ("-b:v", "0", "-crf", "34", "-deadline", "realtime"),
}
"""What can write a clip that browsers play, the most widely played first, with its own options."""

_FIT = (
    f"scale='if(gte(iw,ih),trunc(min(iw,{_LONG_SIDE})/2)*2,-2)'"
    f":'if(gte(iw,ih),-2,trunc(min(ih,{_LONG_SIDE})/2)*2)'"
)
_NOTHING_ELSE = ("-an", "-sn", "-dn", "-map_metadata", "-1", "-map_chapters", "-1")
_NO_NAME_OF_ENCODER = ("-fflags", "+bitexact", "-flags:v", "+bitexact")


def find_ffmpeg() -> Path | None:
    """The ffmpeg of this machine; None where nothing can be cut."""
    path = shutil.which("ffmpeg")
    return None if path is None else Path(path).absolute()


def clip_rate(source: Path) -> int:
    """How many frames a second a clip of this video gets: the video's own, at most sixty.

    Raises NotAVideoError and OSError.
    """
    own = 1000 / frame_ms(source)
    return next((rate for rate in _FRAMES_A_SECOND if own * _TOLERANCE <= rate), 60)


def cut_clip(ffmpeg: Path, source: Path, start_ms: int, end_ms: int, to: Path) -> None:
    """Write a stretch of a video as a small MP4: upright, without sound, without metadata.

    Its frames are evenly spaced, the first at zero. Raises CourtlogError; then no file stays.
    """
    picture = f"fps={clip_rate(source)}:start_time=0,{_FIT}"
    _write_clip(ffmpeg, source, start_ms, end_ms, to, picture)


def cut_alike_clip(ffmpeg: Path, source: Path, start_ms: int, end_ms: int, to: Path) -> None:
    """Write such a clip of one size, frame rate and length, whatever film it is cut from.

    A square with black beside the picture, so that neither tells films apart. Raises CourtlogError.
    """
    picture = (
        f"fps={ALIKE_RATE}:start_time=0,tpad=stop_mode=clone:stop_duration=1,"
        f"scale={_SQUARE}:{_SQUARE}:force_original_aspect_ratio=decrease,"
        f"pad={_SQUARE}:{_SQUARE}:(ow-iw)/2:(oh-ih)/2"
    )
    _write_clip(ffmpeg, source, start_ms, end_ms, to, picture)


def _write_clip(
    ffmpeg: Path, source: Path, start_ms: int, end_ms: int, to: Path, picture: str
) -> None:
    encoder = _encoder(ffmpeg)
    output = (
        *("-t", _seconds(end_ms - start_ms)),
        *("-vf", f"{picture},setsar=1,format=yuv420p"),
        *("-codec:v", encoder, *_ENCODERS[encoder], "-g", "15"),
        *(("-bf", "0") if "264" in encoder else ()),
        *("-movflags", "+faststart", "-f", "mp4"),
    )
    with _draft(ffmpeg, source, start_ms, output, to) as draft:
        try:
            read_video(draft)
        except NotAVideoError as error:  # a film without a picture
            raise _no_picture(source, start_ms) from error


def cut_still(ffmpeg: Path, source: Path, at_ms: int, to: Path) -> None:
    """Write the picture at that place of a video as a JPEG. Raises CourtlogError."""
    output = (
        *("-vf", f"{_FIT},setsar=1", "-frames:v", "1"),
        *("-codec:v", "mjpeg", "-q:v", "3", "-pix_fmt", "yuvj420p", "-f", "mjpeg"),
    )
    with _draft(ffmpeg, source, at_ms, output, to) as draft:
        if not draft.stat().st_size:
            raise _no_picture(source, at_ms)


@contextlib.contextmanager
def _draft(
    ffmpeg: Path, source: Path, at_ms: int, output: tuple[str, ...], to: Path
) -> Iterator[Path]:
    """What ffmpeg wrote, to be looked at; then it gets its name."""
    with drafts.file_in(to.parent) as draft:
        command = (
            *(str(ffmpeg), "-nostdin", "-hide_banner", "-v", "error", "-y"),
            # The place is counted from the film's own zero, as players count it.
            *("-seek_timestamp", "1", "-ss", _seconds(at_ms)),
            *("-protocol_whitelist", "file", "-f", "mov", "-i", f"file:{source.absolute()}"),
            *("-map", "0:V:0", *_NOTHING_ELSE, *_NO_NAME_OF_ENCODER, *output, f"file:{draft}"),
        )
        _run(command, source.name)
        yield draft
        drafts.put(draft, to)


def _no_picture(source: Path, at_ms: int) -> CourtlogError:
    return CourtlogError(
        f"{source.name} has no picture at {_seconds(at_ms)} s.",
        "Its recording may have stopped early; copy it from the phone again.",
    )


def _run(command: tuple[str, ...], name: str) -> None:
    try:
        done = subprocess.run(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            timeout=_LONGEST_RUN_S,
            check=False,
        )
    except subprocess.TimeoutExpired as error:
        raise CourtlogError(
            f"ffmpeg did not finish a clip of {name} in ten minutes.", "Copy the film again."
        ) from error
    except OSError as error:
        raise CourtlogError(
            f"ffmpeg cannot be started ({error.strerror}).", "Install it again."
        ) from error
    if done.returncode:
        lines = done.stderr.decode(errors="replace").split("\n")
        last = next((line.strip() for line in reversed(lines) if line.strip()), "no reason given")
        raise CourtlogError(
            f"ffmpeg could not cut a clip of {name}: {last}", "The film itself is unchanged."
        )


@lru_cache
def _encoder(ffmpeg: Path) -> str:
    """The best of the encoders that this ffmpeg has. Raises CourtlogError without any."""
    command = [str(ffmpeg), "-nostdin", "-hide_banner", "-v", "error", "-encoders"]
    try:
        done = subprocess.run(
            command, stdin=subprocess.DEVNULL, capture_output=True, timeout=60, check=False
        )
        listed = set(re.findall(r"^ V\S{5} (\S+)", done.stdout.decode(errors="replace"), re.M))
    except (OSError, subprocess.TimeoutExpired):
        listed = set()
    for encoder in _ENCODERS:
        if encoder in listed:
            return encoder
    raise CourtlogError(
        "This ffmpeg cannot write a video that browsers play.",
        "Install one that has the encoder libx264.",
    )


def _seconds(milliseconds: int) -> str:
    return f"{milliseconds // 1000}.{milliseconds % 1000:03}"
