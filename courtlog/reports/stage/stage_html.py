"""A stage as HTML: one video or more, the buttons that play them together, and their captions.

`stage.js` says what it needs of this HTML. Every text goes through `html_elements.escaped`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from courtlog.film.clip import Clip
from courtlog.reports.layout.html_elements import escaped, paragraph
from courtlog.reports.stage.hit_commands import HitMoves

UNPLAYABLE_CUT = "This clip does not play here: copy the whole folder, the clips beside the page."
UNPLAYABLE_FILM = (
    "This browser cannot play the film, or it is not where it was."
    " With ffmpeg the coach can make this page again, and then it plays in every browser."
)
WAITING = "waiting for a video"
HIT_IS_OFF = "Is the hit off?"
WHAT_A_HIT_DOES = "Both videos meet at the hit. Move it until the ball is on the strings."
KEEP = "Moved on this page alone. The coach keeps it by typing:"

_PLAYING = (
    ("play", "Play"),
    ("back", "Frame back"),
    ("on", "Frame on"),
    ("hit", "To the hit"),
)
_SPEEDS = (("full", "1"), ("half", "1/2"), ("quarter", "1/4"))


@dataclass(frozen=True, slots=True, kw_only=True)
class StageVideo:
    """One video of a stage, and what is said of it."""

    label: str
    """What it is called over the video and by its buttons: `Then`."""
    lines: Sequence[str]
    """The caption below it."""
    clip: Clip | None
    """Where it is; None where the page has no video."""
    why_no_clip: str = ""
    """One sentence where there is none."""
    moves: HitMoves | None = None
    """What is needed to move its hit; None where the hits of a stage stay."""


def stage(title: str, videos: Sequence[StageVideo]) -> str:
    """The videos with their buttons; `title` names the stage to who listens."""
    figures = "\n".join(map(_figure, videos))
    if all(video.clip is None for video in videos):
        return f'<div class="clips">\n{figures}\n</div>'
    controls = "\n".join(_controls())
    shown = [video for video in videos if video.clip is not None]
    panels = "\n".join(map(_panel, shown))
    hits = "".join(_hits([(video.label, video.moves) for video in shown if video.moves]))
    return (
        f'<div class="stage" role="group" aria-label="{escaped(title)}" data-state="still">\n'
        f'<div class="clips">\n{figures}\n</div>\n'
        f'<div class="controls" hidden>\n{controls}\n</div>\n'
        f'<div class="controls panels" hidden>\n{panels}\n</div>\n{hits}</div>'
    )


def _figure(video: StageVideo) -> str:
    caption = "".join(map(paragraph, filter(None, video.lines)))
    shown = f"<h3>{escaped(video.label)}</h3>"
    if video.clip is None:
        return (
            f'<figure class="no-clip">{shown}<p class="why">{escaped(video.why_no_clip)}</p>'
            f"<figcaption>{caption}</figcaption></figure>"
        )
    inside = "\n".join(_clip(video, video.clip))
    return (
        f'<figure class="clip" {_data(video, video.clip)}>{shown}\n{inside}\n'
        f"<figcaption>{caption}</figcaption></figure>"
    )


def _data(video: StageVideo, clip: Clip) -> str:
    values = {
        "start-ms": clip.start_ms,
        "hit-ms": clip.hit_ms,
        "end-ms": clip.end_ms,
        "frame-ms": clip.frame_ms,
    }
    texts: dict[str, object] = {}
    if video.moves is not None:
        moves = video.moves
        texts = {
            "film": moves.film,
            "ball-moved-ms": moves.ball_ms,
            "film-moved-ms": moves.film_ms,
            "film-command": moves.before,
            "ball-command": moves.before_ball,
            "after-command": moves.after,
        }
    every = {**values, **texts}
    return " ".join(f'data-{name}="{escaped(str(value))}"' for name, value in every.items())


def _clip(video: StageVideo, clip: Clip) -> Iterator[str]:
    source = clip.file
    if not clip.is_cut:
        # W3C Media Fragments URI 1.0, 4.2.1: normal play time from, to.
        source += f"#t={clip.start_ms / 1000:.3f},{clip.end_ms / 1000:.3f}"
    poster = f' poster="{escape(clip.still)}"' if clip.still is not None else ""
    has_still = " has-still" * (clip.still is not None)
    yield (
        f'<div class="picture{has_still}"><video src="{escape(source)}"{poster}'
        f' preload="metadata" controls muted playsinline title="{escaped(video.label)}"></video>'
    )
    if clip.still is not None:
        said = f"{video.label}, at the hit"
        yield f'<img class="still" src="{escape(clip.still)}" alt="{escaped(said)}">'
    sentence = UNPLAYABLE_CUT if clip.is_cut else UNPLAYABLE_FILM
    yield f'<p class="unplayable" hidden>{escaped(sentence)}</p></div>'


def _panel(video: StageVideo) -> str:
    """The buttons of one video."""
    label = escaped(video.label)
    inside = f"<p>{label}</p>{_button('mirror', 'Mirror', f'Mirror: {label}', pressed=False)}"
    return f'<div class="panel" role="group" aria-label="{label}">{inside}</div>'


def _hits(moves: Sequence[tuple[str, HitMoves]]) -> Iterator[str]:
    """What only who keeps the book needs, folded away: the hits, by the label of each video."""
    if not moves:
        return
    yield f'<div class="controls hits" hidden>\n<details><summary>{HIT_IS_OFF}</summary>\n'
    yield f'<p>{WHAT_A_HIT_DOES}</p>\n<div class="panels">\n'
    for label in (escaped(label) for label, _ in moves):
        yield (
            f'<div class="panel hit" role="group" aria-label="Hit: {label}"><p>{label}</p>'
            + _button("earlier", "Hit earlier", f"Hit earlier: {label}")
            + _button("later", "Hit later", f"Hit later: {label}")
            + "<output>hit as in the book</output>"
            + '<label><input type="checkbox" class="whole-film"> in all clips of its film</label>'
            + f'<p class="keep" hidden>{KEEP} <code></code></p></div>\n'
        )
    yield "</div>\n</details>\n</div>\n"


def _controls() -> Iterator[str]:
    for act, word in _PLAYING:
        yield _button(act, word)
    yield '<div class="speeds" role="group" aria-label="Speed">'
    for act, word in _SPEEDS:
        yield _button(act, word, pressed=act == "full")
    yield "</div>"
    yield _button("loop", "Loop", pressed=False)
    yield '<span class="where"><span class="place">at the hit</span>'
    yield f'<span class="waiting">, {WAITING}</span></span>'
    yield '<input type="range" data-act="place" min="-1" max="1" value="0" aria-label="Place">'


def _button(act: str, word: str, said: str = "", *, pressed: bool | None = None) -> str:
    """A button; `said` is HTML for who listens, and begins with the word that is seen."""
    label = f' aria-label="{said}"' if said else ""
    state = "" if pressed is None else f' aria-pressed="{str(pressed).lower()}"'
    return f'<button type="button" data-act="{act}"{label}{state}>{word}</button>'
