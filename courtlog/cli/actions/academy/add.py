"""`courtlog academy add`: books into the academy's folder."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from courtlog import finished_steps
from courtlog.academy import adding
from courtlog.cli.book_to_write import this_writer
from courtlog.cli.common import now
from courtlog.logbook.exchange.export_choice import ExportOptions
from courtlog.logbook.exchange.parquet import check_installed
from courtlog.plain_text import many, plain


def add_books(books: Sequence[Path], folder: Path, with_minors: bool, with_names: bool) -> None:
    """Add each book and say what of it is in the folder now."""
    check_installed("`pip install 'courtlog[academy]'`")
    wish = ExportOptions(
        with_minors=with_minors, anonymous=not with_names, parquet=True, names_by_id=True
    )
    at_home = 0
    with adding.folder_to_write(folder, this_writer()):
        for path in books:
            added = adding.add_book(path, folder, wish, now())
            if added.is_older:
                print(plain(f"{path}: the folder holds a later state of this book, which stays."))
                continue
            finished_steps.note(f"{path} is in the folder")
            print(plain(f"{path}: {many(added.balls, 'ball')} in {folder}."))
            at_home += added.minors_left_out
    if at_home:
        print(
            f"{many(at_home, 'minor')} stayed at home with everything about them;"
            " --with-minors takes them along."
        )
