"""The keys of a page of stages, listed on it; `controls.js` obeys them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog.reports.layout.html_elements import escaped

_STAGE = (
    (("Space", "P"), "play or pause; from the hit it begins at the start"),
    (("←", "→"), "one frame back or on"),
    (("H",), "to the hit"),
    (("1", "2", "4"), "full, half or quarter speed"),
    (("L",), "loop"),
)
_MIRROR = ("M", "N")
_HITS = (("D", "F"), ("J", "K"))
WHERE = "Keys go to the videos in use, or else to those in the middle of the window."


def keys_list(videos: Sequence[str], *, hits_move: bool) -> str:
    """The keys for stages of these videos (`first video`), and a box that switches them off."""
    rows = "".join(
        f"<dt>{' '.join(f'<kbd>{key}</kbd>' for key in keys)}</dt><dd>{escaped(does)}</dd>"
        for keys, does in _keys(videos, hits_move)
    )
    return (
        f'<details class="keys"><summary>Keys</summary>\n<dl>{rows}</dl>\n<p>{WHERE}</p>\n'
        '<label><input type="checkbox" data-act="keys" checked> these keys are on</label></details>'
    )


def _keys(videos: Sequence[str], hits_move: bool) -> Iterator[tuple[tuple[str, ...], str]]:
    yield from _STAGE
    for key, video in zip(_MIRROR, videos, strict=False):
        yield (key,), f"mirror the {video}"
    if hits_move:
        for keys, video in zip(_HITS, videos, strict=False):
            yield keys, f"hit of the {video} a tenth of a second earlier or later"
        yield ("Shift",), "with these: the hit in all clips of its film"
