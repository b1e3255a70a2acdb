"""`courtlog export` and `courtlog import`: the book as a folder of CSV files, and back."""

from __future__ import annotations

from pathlib import Path

from courtlog import finished_steps, locations
from courtlog.cli.book_to_write import book_alone
from courtlog.cli.common import chosen_clinic, existing_book, now
from courtlog.logbook.exchange.export import export
from courtlog.logbook.exchange.export_choice import ExportOptions
from courtlog.logbook.exchange.import_folder import import_folder, import_new_book
from courtlog.logbook.exchange.parquet import check_installed
from courtlog.logbook.schema.views import VIEWS
from courtlog.plain_text import many, plain


def send_out(
    folder: Path,
    path: Path | None,
    clinic: str | None,
    with_minors: bool,
    anonymous: bool,
    parquet: bool,
) -> None:
    """Write the folder and say what is in it."""
    if parquet:
        check_installed("`pip install pyarrow`, or leave out --parquet")
    with existing_book(path) as book:
        only = None if clinic is None else chosen_clinic(book, clinic).id
        out = export(book, folder, ExportOptions(only, with_minors, anonymous, parquet), now())
    finished_steps.note(f"{folder} is written")
    went = f"{many(out.balls, 'ball')} and {many(out.rows, 'row')} in all went to {folder}."
    print(plain(went))
    if out.minors_left_out:
        print(
            f"{many(out.minors_left_out, 'minor')} stayed at home with everything about them;"
            " --with-minors takes them along."
        )


def take_back(folder: Path, path: Path | None) -> None:
    """Fill a new or empty book from an exported folder and say what came in."""
    where = locations.book(path)
    if where.exists():
        with book_alone(where, new=True) as book:
            came = import_folder(book, folder)
    else:
        came = import_new_book(where, folder, now())
    came_in = f"{many(came.clinics, 'clinic')} and {many(came.balls, 'ball')} came into {where}."
    print(plain(came_in))


def list_views() -> None:
    """Print each view: what one row of it is, and its columns."""
    width = max(len(name) for view in VIEWS for name, _ in view.columns)
    for view in VIEWS:
        print(f"{view.name}: one row is {view.about}.")
        for name, meaning in view.columns:
            print(f"  {name:{width}}  {meaning}")
        print()
    print("Open the book read-only: sqlite3 'file:BOOK?mode=ro' (`courtlog version` says where).")
