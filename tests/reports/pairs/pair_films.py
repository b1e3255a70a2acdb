"""Clips whose every frame is a bar code of its own number, and how a page reads it."""

from __future__ import annotations

from pathlib import Path

from tests.film.bar_films import BAR, BAR_CODE, BITS, HEIGHT, WIDTH, ffmpeg

FRAMES_A_SECOND = 20
"""So a frame's number is its time in twentieths of a second, as in the bar code."""

FRAME_IN_VIDEO = f"""
const canvas = document.createElement("canvas");
canvas.width = {WIDTH};
canvas.height = {HEIGHT};
const drawing = canvas.getContext("2d");
return stages[arguments[0] || 0].clips.map(clip => {{
  drawing.drawImage(clip.video, 0, 0, {WIDTH}, {HEIGHT});
  const row = drawing.getImageData(0, {HEIGHT // 2}, {WIDTH}, 1).data;
  let number = 0;
  for (let bit = 0; bit < {BITS}; bit += 1) {{
    number += row[4 * ({BAR} * bit + {BAR // 2})] > 127 ? 2 ** bit : 0;
  }}
  return number;
}});
"""
"""A script: the numbers of the frames that the videos of a stage show."""


def bar_clip(path: Path, seconds: int) -> Path:
    """A small clip that every browser with H.264 plays."""
    size = f"size={WIDTH}x{HEIGHT}:rate={FRAMES_A_SECOND}:duration={seconds}"
    ffmpeg("-f", "lavfi", "-i", f"color={size},{BAR_CODE}", "-pix_fmt", "yuv420p", f"file:{path}")
    return path
