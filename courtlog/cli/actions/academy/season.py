"""`courtlog academy season`: what changed over all books of a folder."""

from __future__ import annotations

from pathlib import Path

from courtlog.academy.asking import HERE, ask_folder
from courtlog.academy.engine_name import EngineName
from courtlog.academy.season.page import season_page
from courtlog.academy.season.season import season
from courtlog.cli import output
from courtlog.cli.output import Form
from courtlog.coaching.voice.statement import Depth


def print_season(
    folder: Path,
    engine: EngineName,
    master: str | None,
    clinic: str | None,
    why: bool,
    figures: bool,
    full: bool,
    as_json: bool,
) -> None:
    """Print the season, or its facts as JSON."""
    facts = ask_folder(
        folder,
        engine,
        lambda session, books: season(session, books, clinic),
        master or HERE,
    )
    depth = Depth(why=why, figures=figures)
    output.write(facts, lambda: season_page(facts, full, depth), Form.wished(as_json, False))
