"""`courtlog day`, `trend`, `player` and `evening`; each loads only what it prints."""

from __future__ import annotations

from pathlib import Path

from courtlog import drafts, finished_steps, locations
from courtlog import settings as settings_file
from courtlog.cli.common import chosen_clinic, existing_book, library, typed_date, write_new
from courtlog.cli.output import Form, Shown, write
from courtlog.cli.zones import today
from courtlog.coaching.game.keeping import KeepTime
from courtlog.coaching.voice.statement import Depth
from courtlog.logbook.file.new_folder import new_folder
from courtlog.logbook.reads.find_person import player_named
from courtlog.plain_text import plain
from courtlog.reports import evening, everything, facts, one_screen, pages
from courtlog.reports.facts.models import DayFacts, PlayerFacts


def print_day(
    path: Path | None,
    clinic: str | None,
    on: str | None,
    player: str | None,
    shown: Shown,
    form: Form,
) -> None:
    """Print a day, of the group or of one player, as text or JSON."""
    with existing_book(path) as book:
        result = facts.day_facts.day_facts(
            book, chosen_clinic(book, clinic), typed_date(on), player
        )
    write(result, lambda: _day(result, player, shown), form)


def _day(result: DayFacts, player: str | None, shown: Shown) -> str:
    if shown.full:
        return pages.day_text.day_text(result)
    depth = Depth(shown.why, shown.figures)
    if player is None:
        return one_screen.day_page.day_page(result, depth)
    return one_screen.player_day_page.player_day_page(result, depth)


def write_evening(folder: Path, path: Path | None, clinic: str | None, on: str | None) -> None:
    """Write all that is handed out into a new or empty folder, and say what is in it."""
    with existing_book(path) as book:
        home = book.path.absolute().parent
        texts = evening.evening_texts(book, chosen_clinic(book, clinic), typed_date(on), library())
    with new_folder(folder, home) as scratch:
        for name, text in texts.items():
            with drafts.on_disk(scratch / name) as file:
                file.write(text)
    finished_steps.note(f"{folder} is written")
    for name in texts:
        print(plain(str(folder / name)))


def print_trend(path: Path | None, clinic: str | None, player: str, form: Form) -> None:
    """Print a player's trend as text or JSON."""
    with existing_book(path) as book:
        result = facts.cue_facts.trend_facts(book, chosen_clinic(book, clinic), player)
    write(result, lambda: pages.cue_table.trend_text(result), form)


def print_player(
    path: Path | None, clinic: str | None, player: str, shown: Shown, form: Form
) -> None:
    """Print a player's answer as text or JSON."""
    with existing_book(path) as book:
        result = facts.day_facts.player_facts(book, chosen_clinic(book, clinic), player)
    write(result, lambda: _player(result, shown), form)


def print_everything(
    path: Path | None, clinic: str | None, player: str, html: Path | None, form: Form, *, full: bool
) -> None:
    """Print what the book holds on a player on one page, or write it to a new HTML file.

    With `full` the whole list follows it; the facts as JSON are always whole.
    """
    settings = settings_file.read(locations.settings())
    with existing_book(path) as book:
        where = None if clinic is None else chosen_clinic(book, clinic).id
        result = everything.everything_facts.everything(
            book,
            player_named(book, player, where),
            KeepTime(settings.keep_months),
            settings.second_backup,
            today(),
        )
    as_text, as_html = everything.everything_text, everything.everything_html
    if html is None:
        page = as_text.everything_text if full else as_text.everything_page
        write(result, lambda: page(result), form)
    else:
        written = as_html.everything_html if full else as_html.everything_page_html
        write_new(html, written(result))


def _player(result: PlayerFacts, shown: Shown) -> str:
    if shown.full:
        return pages.player_text.player_text(result)
    depth = Depth(shown.why, shown.figures)
    return one_screen.player_page.player_page(result, depth, shown.charts)
