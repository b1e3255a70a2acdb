"""`courtlog courts N`: players dealt to courts, shown, changed, and a book written for each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from courtlog import finished_steps, locations, times
from courtlog.cli.actions.courts.proposed_dealing import ProposedDealing, first_dealing
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import clinic_to_set_up, now, typed_date
from courtlog.cli.new_book import COURTS_FOLDER
from courtlog.cli.opening import has_terminal
from courtlog.coaching.game.court_book import COURT_FILES
from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.court_dealing import CourtGroup, Level
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.courts.court_books import MOST_COURTS, write_court_books
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.head_book import check_head_book
from courtlog.logbook.reads import lookups
from courtlog.plain_text import listed, many, plain
from courtlog.reports.layout.page import labelled, lines_of
from courtlog.systems.shell_words import quoted


@dataclass(frozen=True, slots=True, kw_only=True)
class DealingWish:
    """What was typed: of which clinic and day, how players are dealt, and where books go."""

    clinic: str | None
    on: str | None
    by: str | None
    named: tuple[str, ...]
    """Each like `2=Maren,Tove`."""
    mine: str | None
    """The head coach's own court; `0` for none."""
    folder: Path | None
    show: bool
    """Whether nothing is written."""


def deal_courts(path: Path | None, count: int, wish: DealingWish) -> None:
    """Show the dealing, let the coach change it, and write a book for each court."""
    if not 1 <= count <= MOST_COURTS:
        raise CourtlogError(f"A clinic has 1 to {MOST_COURTS} courts.", "Nothing was written.")
    with book_beside(path) as book:
        check_head_book(book.db)
        clinic = clinic_to_set_up(book, wish.clinic)
        at_ms = now()
        on = typed_date(wish.on) or times.local_date(at_ms, clinic.place)
        dealing = first_dealing(book, clinic, on, count, wish.by, wish.named)
        head = _head_court(wish.mine, dealing.courts, _court_today(book, clinic.id, on))
        heading = f"{clinic.name}, {times.date_words(on)}, {dealing.how}."
        agreed = _agreed(dealing, heading, head, wish)
        if agreed is None:
            return
        folder = wish.folder or locations.book(path).absolute().parent / COURTS_FOLDER
        files = write_court_books(book, clinic.id, on, agreed.groups, head, folder, at_ms)
        finished_steps.note(f"the books of {many(len(files), 'court')} are in {folder}")
        for line in written_lines(agreed.groups, head, files):
            for part in [line] if line.startswith(_TO_TYPE) else lines_of(line):
                print(plain(part))


def _agreed(
    dealing: ProposedDealing, heading: str, head: str | None, wish: DealingWish
) -> ProposedDealing | None:
    """The dealing as the coach agrees to it at the terminal; None where nothing is to be written.

    Without a terminal nobody is asked, nor about one that is as it was before.
    """
    while True:
        print(plain(heading))
        for line in dealing_lines(dealing.groups, head, dealing.shown_levels):
            print(line)
        for move in dealing.before.moves if dealing.before else ():
            print(plain(move.words))
        if wish.show:
            return None
        if not has_terminal():
            return dealing
        if dealing.is_kept and not wish.named:
            print(_ANOTHER)
            return dealing
        try:
            answer = input(_QUESTION).strip()
        except EOFError:
            answer = "q"
            print()
        if answer.casefold() in ("q", "quit"):
            print("Nothing was written.")
            return None
        if not answer:
            return dealing
        try:
            dealing = dealing.with_named([answer])
        except CourtlogError as error:
            print(*lines_of(plain(str(error))), sep="\n")


_QUESTION = "Enter writes the books, 2=NAME,NAME puts players on court 2, q leaves: "
_TO_TYPE = "  courtlog "
"""How a line begins that is typed as it stands, and so is never broken."""
_ANOTHER = "Another dealing: --deal level, or --court 2=NAME,NAME."


def dealing_lines(
    groups: Sequence[CourtGroup], head: str | None, levels: Mapping[int, Level] | None
) -> Iterator[str]:
    """`court 1  yours: Maren, Tove`; dealt by level with what is known of each."""
    for group in groups:
        names = [plain(_with_level(player, levels)) for player in group.players]
        whose = ["yours:"] if group.court == head else []
        yield from labelled(
            f"court {group.court}", [" ".join((*whose, ", ".join(names) or "nobody"))]
        )
    if levels is not None:
        yield from labelled("", ["In brackets: the rung reached, and what was made there."])


def _with_level(player: Player, levels: Mapping[int, Level] | None) -> str:
    if levels is None:
        return player.shown_name
    level = levels.get(player.id)
    known = "new" if level is None else f"{level.rung}, {level.made} of {level.seen}"
    return f"{player.shown_name} ({known})"


def written_lines(
    groups: Sequence[CourtGroup],
    head: str | None,
    files: Sequence[Path],
) -> Iterator[str]:
    """What was written, who opens what, and what comes in the evening."""
    folder = files[0].parent
    yield f"{many(len(files), 'book')} written to {folder}: {', '.join(f.name for f in files)}."
    if head is not None:
        yield f"You go on with your own book, which is court {head}: type courtlog as always."
    others = [group.court for group in groups if group.court != head]
    if others:
        example = folder / f"court-{others[0]}.db"
        court = "Court" if len(others) == 1 else "Courts"
        yield f"{court} {listed(others)}: copy the file to the laptop, then"
        yield f"{_TO_TYPE}--book {quoted(example.name)}"
    others_there = sorted({*folder.glob(COURT_FILES)} - {*files})
    if others_there:
        names = listed([file.name for file in others_there])
        was = "is" if len(others_there) == 1 else "are"
        yield f"{names} there {was} from before: delete what nobody plays with."
    yield "In the evening:"
    yield f"{_TO_TYPE}gather {quoted(str(folder / COURT_FILES))}"


def _court_today(book: Book, clinic_id: int, on: date) -> str:
    """The court on which the book has begun that day; empty where it has not."""
    mark = lookups.bookmark(book)
    day = None if mark is None else lookups.day(book, mark.day_id)
    begun = day is not None and day.clinic_id == clinic_id and day.date == on
    return day.court if begun and day is not None else ""


def _head_court(mine: str | None, courts: Sequence[str], today: str) -> str | None:
    """The head coach's court: where today has begun, else the first; or as named."""
    if mine is None:
        return today if today in courts else courts[0]
    if mine == "0":
        return None
    if mine not in courts:
        raise CourtlogError(f"There is no court {mine}.", "Write --mine 0 for none of them.")
    return mine
