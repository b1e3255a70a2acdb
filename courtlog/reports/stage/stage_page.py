"""A page of stages as one HTML file: style and script stand in it, and it loads only its clips.

The policy names both by their digests (W3C, Content Security Policy Level 3). So nothing else
runs, and nothing comes from a network: not even a script that a name could smuggle in.
"""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256
from importlib.resources import files

from courtlog.reports.layout.html_elements import html_file
from courtlog.reports.stage.stage_style import STAGE_STYLE

SCRIPTS = ("clip_video.js", "stage.js", "hit_moves.js", "controls.js")
"""The script's parts in their order; the first one has `use strict` for all."""


def stage_page(title: str, body: str, style: str = "") -> str:
    """The whole file; `body` holds stages, `style` is added to theirs."""
    script = stage_script()
    styles = STAGE_STYLE + style
    return html_file(
        title, styles, f"{body}\n<script>\n{script}</script>", policy=_policy(styles, script)
    )


def stage_script() -> str:
    """The script of every stage of a page."""
    room = files("courtlog.reports.stage")
    return "\n".join(room.joinpath(name).read_text(encoding="utf-8") for name in SCRIPTS)


def _policy(style: str, script: str) -> str:
    """Clips and pictures from where the page lies; `file:` since some browsers need it said."""
    return (
        f"default-src 'none'; script-src '{_digest(script)}'; style-src '{_digest(style)}';"
        " img-src 'self' file:; media-src 'self' file:; base-uri 'none'; form-action 'none'"
    )


def _digest(text: str) -> str:
    """The digest of an element's text, which begins with a line end."""
    return "sha256-" + b64encode(sha256(f"\n{text}".encode()).digest()).decode()
