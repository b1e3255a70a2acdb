"""What `courtlog roster add|edit|list|import` do."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from courtlog import given_files
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import clinic_to_set_up, existing_book, now
from courtlog.cli.keep_reminder import keep_reminder
from courtlog.cli.output import write_page
from courtlog.coaching.game.cards import PlayerCard, card_of
from courtlog.coaching.plans.clinic_plan import sentence
from courtlog.errors import CourtlogError
from courtlog.library.roster_in import MOST_BYTES, read_roster
from courtlog.logbook.reads import lookups, people_lookups
from courtlog.logbook.reads.film.films import films_of_person
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.names import folded_name
from courtlog.plain_text import many, plain
from courtlog.reports.pages.film_text import left_on_films, needed_for_films
from courtlog.reports.pages.roster_text import card_text, roster_text


def add(path: Path | None, clinic: str | None, values: Mapping[str, str], another: bool) -> None:
    """Add a player at the end of the roster."""
    card = _card(values)
    with book_beside(path) as book:
        chosen = clinic_to_set_up(book, clinic)
        known = None if another else people_lookups.known_from(book, chosen.id, card.name)
        roster = {folded_name(player.name) for player in lookups.players(book, chosen.id)}
        if folded_name(card.name) in roster and not another:
            raise CourtlogError(
                f"{card.name} is on the roster already.",
                "--another adds another person; `courtlog roster edit` changes a card.",
            )
        PeopleWriter(book).add_players(chosen.id, [card], now(), another)
        who = lookups.players(book, chosen.id)[-1]
        card = people_lookups.card(book, chosen.id, who.id)
    print(plain(f"{who.shown_name} is on the roster of {chosen.name}."))
    for line in needed_for_films(card):
        print(line)
    if known is not None:
        print(plain(f"The card came along from {known}; --another makes it another person."))


def edit(path: Path | None, clinic: str | None, player: str, values: Mapping[str, str]) -> None:
    """Change a player's card; what is not given stays."""
    if not values:
        raise CourtlogError("Nothing was said to change.", "`courtlog roster edit --help` says it.")
    with book_beside(path) as book:
        chosen = clinic_to_set_up(book, clinic)
        who = lookups.player_on_roster(book, chosen.id, player)
        before = people_lookups.card(book, chosen.id, who.id)
        card = _card(values, before)
        PeopleWriter(book).edit_card(chosen.id, who.id, card, now())
        who = next(one for one in lookups.players(book, chosen.id) if one.id == who.id)
        withdrawn = before.may_be_filmed and not card.may_be_filmed
        films = films_of_person(book, [who.id]) if withdrawn else []
    print(plain(f"The card of {who.shown_name} is kept."))
    for line in left_on_films(who.shown_name, films):
        print(plain(line))
    for line in needed_for_films(card):
        print(line)


def print_roster(path: Path | None, clinic: str | None, player: str | None, cards: bool) -> None:
    """Print the roster as a table, or as whole cards."""
    with existing_book(path) as book:
        chosen = clinic_to_set_up(book, clinic)
        entries = people_lookups.entries(book, chosen.id)
        if player is not None:
            who = lookups.player_on_roster(book, chosen.id, player)
            entries = [entry for entry in entries if entry.player.id == who.id]
        if player is None and not cards:
            page = roster_text(chosen, entries, keep_reminder(book))
        else:
            page = "\n".join(
                card_text(entry, people_lookups.focuses_in_words(book, chosen.id, entry.player.id))
                for entry in entries
            )
    write_page(page or f"Nobody is on the roster of {plain(chosen.name)} yet.\n")


def bring_in(path: Path | None, clinic: str | None, file: Path) -> None:
    """Add the players of a CSV file: all of them or none."""
    with book_beside(path) as book:
        chosen = clinic_to_set_up(book, clinic)
        there = [player.name for player in lookups.players(book, chosen.id)]
        cards = read_roster(_bytes(file), str(file), there)
        PeopleWriter(book).add_players(chosen.id, cards, now())
    print(f"{many(len(cards), 'player')} came onto the roster of {plain(chosen.name)}.")


def _card(values: Mapping[str, str], before: PlayerCard | None = None) -> PlayerCard:
    try:
        return card_of(values, before)
    except ValueError as error:
        raise CourtlogError(sentence(error.args), "Nothing was written.") from error


def _bytes(file: Path) -> bytes:
    try:
        return given_files.read_ordinary(file, "roster", MOST_BYTES)
    except OSError as error:
        raise CourtlogError(
            f"The roster {file} cannot be read ({error.strerror}).", "Check its name and place."
        ) from error
