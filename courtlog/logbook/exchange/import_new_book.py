"""An exported folder into a book that is not there yet: it has its name once it is whole."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from courtlog import drafts, private
from courtlog.errors import BookError, BookLockedError
from courtlog.logbook.exchange.import_folder import JOIN_LATER, Import, import_folder
from courtlog.logbook.file.opening import create_or_open
from courtlog.logbook.file.refusals import translate_errors


def import_new_book(path: Path, folder: Path, now: int) -> Import:
    """Make a book of the folder; it gets its name when all is in it.

    Raises BookError or LibraryError; a book that somebody else began meanwhile stays theirs.
    """
    try:
        private.make_folder(path.absolute().parent)
        with translate_errors(path), drafts.folder_in(path.absolute().parent) as scratch:
            with closing(create_or_open(scratch / "book.db", now)) as book:
                came = import_folder(book, folder)
            drafts.put_new(scratch / "book.db", path)
    except FileExistsError as error:
        raise BookError(
            f"Another program began the book {path} meanwhile; it is as that one left it.",
            JOIN_LATER,
        ) from error
    except OSError as error:
        raise BookLockedError(
            f"The book {path} cannot be made here ({error.strerror}); nothing was written.",
            "Choose a folder you may write to with --book.",
        ) from error
    return came
