"""Whose pages of pairs are made: one player's, or everybody's who can have one."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from courtlog.cli.actions.film.agreed import check_agreed
from courtlog.cli.actions.film.page_files import PageFiles
from courtlog.cli.actions.film.pair_clips import folder_words
from courtlog.coaching.game.people import Clinic
from courtlog.errors import CourtlogError
from courtlog.film.page_names import safe_name
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.film.filming_consent import filming_consent
from courtlog.plain_text import listed
from courtlog.reports.pages.film_text import why_left_out
from courtlog.reports.pairs.chosen_pairs import ChosenPairs, chosen_pairs
from courtlog.reports.pairs.pair_finder import ByHand

_NOBODYS_CHOICE = ByHand({}, {})


@dataclass(slots=True)
class PagesToMake:
    """The pages that are to be made, and who has none."""

    pages: list[ChosenPairs] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    """A line for each player who has no page."""

    def leave_out(self, player: str, why: str) -> None:
        """Note who has no page, and why."""
        self.left_out.append(f"No page of {player}: {why}")

    def keep_those_at_hand(self, videos: Collection[str], folders: Sequence[Path]) -> None:
        """Leave out who is on none of these videos, given by their fingerprints."""
        for page in list(self.pages):
            why = why_not_at_hand(page, videos, folders)
            if why:
                self.pages.remove(page)
                self.leave_out(page.page.player, why)


def one_players_page(book: Book, clinic: Clinic, name: str, by_hand: ByHand) -> ChosenPairs:
    """The pairs of the player of that name. Raises CourtlogError where there are none."""
    who = lookups.player_on_roster(book, clinic.id, name)
    check_agreed(book, clinic, who, f"No page of {who.shown_name}")
    return chosen_pairs(book, clinic, who, by_hand)


def everybodys_pages(book: Book, clinic: Clinic, home: Path) -> PagesToMake:
    """The pairs of everybody on the roster who has some and agreed; of the others why not.

    A page in the folder `home` from when there was a yes is named, since it is to be deleted.
    """
    to_make = PagesToMake()
    not_agreed = filming_consent(book, clinic.id).not_agreed
    for who in lookups.players(book, clinic.id):
        if who.id in not_agreed:
            why = f"{why_left_out(not_agreed[who.id])}."
            before = PageFiles(home, safe_name(who.shown_name)).page
            if before.exists():
                why += f" {before} was made before; deleting it with its clips is up to you."
            to_make.leave_out(who.shown_name, why)
            continue
        try:
            to_make.pages.append(chosen_pairs(book, clinic, who, _NOBODYS_CHOICE))
        except CourtlogError as error:
            to_make.leave_out(who.shown_name, error.happened)
    return to_make


def why_not_at_hand(page: ChosenPairs, videos: Collection[str], folders: Sequence[Path]) -> str:
    """Why nothing of a page can be shown; empty where at least one of its films is at hand."""
    films = [wanted.place.film for wanted in page.clips]
    if any(film.fingerprint in videos for film in films):
        return ""
    names = listed(list(dict.fromkeys(film.name for film in films)))
    return f"None of the films is in {folder_words(folders)}: {names}."
