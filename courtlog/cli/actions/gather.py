"""`courtlog gather`: the books of several laptops joined into this one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from courtlog import finished_steps, given_files, locations, times
from courtlog.cli.actions.erase import erase_from_backups, owed_words, refuse_unread
from courtlog.cli.book_to_write import book_alone
from courtlog.cli.common import existing_book, now
from courtlog.cli.opening import has_terminal
from courtlog.coaching.care.arm_care import BEFORE_COURT
from courtlog.coaching.voice.fairness_voice import missing_court
from courtlog.errors import BookError, CourtlogError
from courtlog.logbook.exchange import removals
from courtlog.logbook.exchange.courts.stick import note_joined
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.exchange.matching import Question
from courtlog.logbook.exchange.removals import PersonToRemove, Removal
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.care_lookups import reds_in_words
from courtlog.logbook.reads.courts.feed_shares import missing_courts
from courtlog.logbook.writes.disagreements import decide, disagreements
from courtlog.names import folded_name
from courtlog.plain_text import many, plain
from courtlog.reports.layout.page import lines_of


def gather_books(
    path: Path | None,
    others: Sequence[Path],
    same: Sequence[str],
    apart: Sequence[str],
    show: bool,
    decided: Sequence[int],
    yes: bool,
) -> None:
    """Join every other book into this one, then print what came in and where the books disagree.

    `decided` are numbers of disagreements in which the value shown is right. With `yes` people go
    unasked whom another book removed for good.
    """
    if others and decided:
        raise CourtlogError("First join the books, then decide.", "`courtlog gather --show`")
    if not others and not show and not decided:
        raise CourtlogError("Name the other books.", "`courtlog gather OTHER.db`")
    others = _without_own([file for other in others for file in _fitting(other)], path)
    for other in others:
        given_files.check_ordinary(other, "book")
        if not other.exists():  # before a new book is made for it
            raise BookError(f"There is no book at {other}.", "Check its name and place.")
    one, two = ({folded_name(name) for name in names} for names in (same, apart))

    def ask(question: Question) -> bool:
        name = folded_name(question.name)
        if (name in one) != (name in two):
            return name in one
        return _asked(question)

    def may_remove(removal: Removal) -> bool:
        return yes or _asked_about(removal)

    if others:
        with book_alone(path, new=True) as book:
            for other in others:
                came = join_book(book, other, ask, now(), may_remove)
                finished_steps.note(f"{other} is joined")
                note_joined(book, came.court)
                of_court = f"court {came.court.own.court}, " if came.court else ""
                print(
                    plain(f"{of_court}{other}: {many(came.balls, 'ball')} and")
                    + f" {many(came.keys, 'key')} came in."
                )
                for red in reds_in_words(book, came.reds):
                    print(plain(f"A red that both books together call for: {red}. {BEFORE_COURT}"))
                for went in came.removed:
                    _tell(book, went)
                if came.removed and came.backup is not None:
                    print(f"The backup made before the joining is {plain(str(came.backup))}.")
            for words in _still_missing(book):
                for line in lines_of(plain(words)):
                    print(line)
    if decided:
        with book_alone(path) as book:
            decide(book, decided)
    _show(path, show or bool(decided))


def _fitting(other: Path) -> list[Path]:
    """The files that a pattern like `court-*.db` fits: not every shell puts them in its place."""
    if other.exists() or not set(other.name) & set("*?["):
        return [other]
    fitting = sorted(other.parent.glob(other.name))
    if not fitting:
        raise BookError(f"No file fits {other}.", "Check its name and place.")
    return fitting


def _without_own(others: Sequence[Path], path: Path | None) -> list[Path]:
    """Of several books those that are not this one: `court-*.db` may name it too."""
    own = locations.book(path)
    if len(others) < 2 or not own.exists():
        return list(others)
    return [other for other in others if not other.exists() or not other.samefile(own)]


def _still_missing(book: Book) -> Iterator[str]:
    """A sentence for each court of a day played of which nothing is in the book yet."""
    for clinic in lookups.clinics(book):
        for on in lookups.dates(book, clinic.id):
            for gone in missing_courts(book, clinic.id, on):
                yield f"{times.date_words(on)}: {missing_court(gone.court, gone.players)}"


def _asked_about(removal: Removal) -> bool:
    """Ask before people go. Raises CourtlogError where nobody can be asked."""
    if not has_terminal():
        return removals.refuse_removal(removal)
    print(plain(removal.words))
    if removal.backup is not None:
        print(plain(f"The backup made just now, {removal.backup}, loses them too."))
    print("`courtlog backup FILE` first would keep a copy that joining does not touch.")
    return input("Type yes to go on (Enter alone changes nothing): ").strip().casefold() == "yes"


def _tell(book: Book, went: PersonToRemove) -> None:
    """Erase from the backups of this book whoever was erased in the other one."""
    changed, unreadable = erase_from_backups(book, went.player, went.in_notes)
    print(
        plain(
            f"{went.player.shown_name} was erased from the other book, and is gone from this one"
            f" and from {many(changed, 'backup')}."
        )
    )
    for line in owed_words(went.player):
        print(plain(line))
    refuse_unread(went.player, unreadable)


def _asked(question: Question) -> bool:
    said = [f"{plain(words)}" for words in (question.here, question.there) if words]
    about = f" ({' / '.join(said)})" if said else ""
    words = f"Both books have a {question.table} called {plain(question.name)}{about}."
    if not has_terminal():
        raise CourtlogError(
            words,
            f'Nothing was changed. Say --same "{plain(question.name)}" if they are one,'
            f' --apart "{plain(question.name)}" if they are two.',
        )
    print(words)
    while (answer := input("Are they the same? yes or no: ").strip().casefold()) not in _WORDS:
        pass
    return _WORDS[answer]


_WORDS = {"yes": True, "y": True, "no": False, "n": False}


def _show(path: Path | None, wished: bool) -> None:
    with existing_book(path) as book:
        found = disagreements(book)
    if not wished:
        if undecided := [one for one in found if not one.decided]:
            was = "was" if len(undecided) == 1 else "were"
            print(f"{many(len(undecided), 'thing')} {was} said differently; --show lists them.")
        return
    for number, one in enumerate(found, 1):
        print(plain(f"{number}. {one.sentence}"))
    if not found:
        print("Nothing was said differently.")
    if not all(one.decided or one.counts_twice for one in found):
        print(
            "Change what is wrong at the court (put a ball right, edit a card);"
            " --decide and the number keeps what stands."
        )
    if any(one.counts_twice for one in found):
        print(
            "Take back the step of the round that is wrong: `courtlog history back STEP`."
            " --decide and the number keeps both rounds."
        )
