"""Films made with ffmpeg: each frame is a bar code of its own time in twentieths of a second."""

from __future__ import annotations

import subprocess
import tempfile
from functools import cache
from pathlib import Path

BITS, BAR = 12, 8
WIDTH, HEIGHT = BITS * BAR, 16
TWENTIETHS = "floor(T*20+0.001)"
BAR_CODE = f"geq=lum='255*mod(floor({TWENTIETHS}/pow(2,floor(X/{BAR}))),2)':cb=128:cr=128"


def ffmpeg(*words: str | Path) -> bytes:
    """What ffmpeg writes to its output."""
    command = ["ffmpeg", "-v", "error", "-nostdin", "-y", *map(str, words)]
    return subprocess.run(command, capture_output=True, check=True, timeout=120).stdout


def made(path: Path, how: str, seconds: int = 50) -> Path:
    """A film; its clock is 37 s off, or three hours, or it knows no date."""
    path.write_bytes(_film(path.stem, path.suffix, how, seconds))
    return path


@cache
def _film(title: str, suffix: str, how: str, seconds: int) -> bytes:
    """The film as ffmpeg makes it, which takes a second of the processor."""
    source = f"color=size={WIDTH}x{HEIGHT}:rate=30:duration={seconds},{BAR_CODE}"
    rate = []
    if how == "variable":
        source += ",select='if(lt(t,15),1,mod(n,3))'"
        rate = ["-vsync", "vfr"]
    created = {"off": "2026-05-12T07:30:35Z", "zone": "2026-05-12T10:29:58Z"}.get(how)
    when = ["-metadata", f"creation_time={created}"] if created else []
    when += ["-metadata", f"title=Maren in {title}"]  # which no clip may keep
    turned = ["-metadata:s:v", "rotate=90"] if how == "rotated" else []
    with tempfile.TemporaryDirectory() as folder:
        plain, film = Path(folder) / "made.mp4", Path(folder) / f"film{suffix}"
        ffmpeg("-f", "lavfi", "-i", source, *rate, "-pix_fmt", "yuv420p", *when, f"file:{plain}")
        ffmpeg("-i", f"file:{plain}", "-codec", "copy", *when, *turned, f"file:{film}")
        return film.read_bytes()


def seen_at(film: Path, seconds: float) -> float:
    """The time that the frame shows on which a player lands that seeks to this place."""
    return _read(
        ffmpeg(
            *("-noautorotate", "-ss", f"{seconds:.3f}", "-i", f"file:{film}"),
            *("-frames:v", "1", "-f", "rawvideo", "-pix_fmt", "gray", "-"),
        )
    )


def times_shown(clip: Path, *, upright: bool = False) -> list[float]:
    """The time that each frame of a clip shows; `upright` for one that is higher than wide."""
    turn = ("-vf", "transpose=clock") if upright else ()
    raw = ffmpeg(
        *("-noautorotate", "-i", f"file:{clip}", *turn),
        *("-vsync", "passthrough", "-f", "rawvideo", "-pix_fmt", "gray", "-"),
    )
    size = WIDTH * HEIGHT
    assert len(raw) % size == 0
    return [_read(raw[place : place + size]) for place in range(0, len(raw), size)]


def _read(picture: bytes) -> float:
    row = picture[WIDTH * (HEIGHT // 2) :]
    return sum((row[BAR * bit + BAR // 2] > 127) << bit for bit in range(BITS)) / 20
