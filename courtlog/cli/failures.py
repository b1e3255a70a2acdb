"""Unexpected errors: kept in a file, and the court opened again from the book."""

from __future__ import annotations

import platform
import sys
import traceback
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from courtlog import __version__, drafts, locations, private
from courtlog.errors import CourtlogError

if TYPE_CHECKING:
    from courtlog.courtside.app.own_app import OwnApp

MOST = 60_000
"""Characters that the file of errors keeps: about fifty errors, the newest last."""


@dataclass(frozen=True, slots=True)
class RunEnd:
    """How a run of an application ended."""

    failure: Exception | None
    """The error that ended it; None when it was left as usual."""

    keys: int
    """Keys, pastes and clicks that it had taken."""

    code: int
    """The exit code that it asks for."""

    @classmethod
    def of(cls, app: OwnApp) -> RunEnd:
        """How this application ended."""
        return cls(app.failure, app.keys.delivered, app.return_code or 0)


def run(until_closed: Callable[[str], RunEnd]) -> None:
    """Run an application; after an error open it again with a sentence about the error.

    `until_closed` opens it from the book. Raises CourtlogError when it fails twice without a key
    between: it cannot be used.
    """
    said = ""
    while True:
        ended = until_closed(said)
        if ended.failure is None:
            if ended.code:
                sys.exit(ended.code)
            return
        failed_before, said = bool(said), sentence_for(ended.failure)
        if failed_before and not ended.keys:
            raise _over(said) from ended.failure


def run_once(app: OwnApp) -> None:
    """Run an application that is not opened again. Raises CourtlogError after an error."""
    app.run()
    if app.failure is not None:
        raise _over(sentence_for(app.failure)) from app.failure


def _over(said: str) -> CourtlogError:
    return CourtlogError(said, "All that was on the screen is in the book.")


def sentence_for(error: Exception) -> str:
    """The sentence for the coach; what was not expected goes to the file of errors first."""
    if isinstance(error, CourtlogError):
        return str(error)
    where = locations.error_file()
    kept = "Nothing could be kept of it"
    with suppress(OSError):
        keep(error)
        kept = f"{where} says where in the program"
    return f"courtlog met an error of its own and read the book again. {kept}."


def keep(error: Exception) -> None:
    """Add an error to the file of errors: its kind and its places in the program. Raises OSError.

    No message and no value, since they could hold a name.
    """
    where = locations.error_file()
    private.make_folder(where.parent)
    before = where.read_text(encoding="utf-8", errors="replace") if where.exists() else ""
    drafts.write(where, (before + _entry(error))[-MOST:])


def _entry(error: BaseException) -> str:
    moment = datetime.now(UTC).isoformat(timespec="seconds")
    system = f"courtlog {__version__}, Python {platform.python_version()}, {sys.platform}"
    lines = [f"{moment}  {system}"]
    cause: BaseException | None = error
    while cause is not None:
        lines.append(f"  {type(cause).__module__}.{type(cause).__qualname__}")
        # The module's name, not its file: a path may show somebody's name.
        lines += [
            f"    {frame.f_globals.get('__name__')}:{line} {frame.f_code.co_name}"
            for frame, line in traceback.walk_tb(cause.__traceback__)
        ]
        cause = cause.__cause__ or cause.__context__
    return "\n".join(lines) + "\n"
