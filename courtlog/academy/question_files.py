"""Questions to a folder: those that are shipped, and SQL files of one's own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from courtlog import given_files
from courtlog.errors import CourtlogError, UnknownNameError

_ENDING = ".sql"


@dataclass(frozen=True, slots=True)
class ShippedQuestion:
    """A question by its name, what it asks, and its statement."""

    name: str
    about: str
    statement: str


def shipped_questions() -> list[ShippedQuestion]:
    """All questions of this package, by name."""
    found = []
    for file in sorted((files(__package__) / "questions").iterdir(), key=lambda one: one.name):
        if file.name.endswith(_ENDING):
            found.append(_question(file.name, file.read_text(encoding="utf-8")))
    return found


def statement_of(name: str, folders: Sequence[Path] = ()) -> str:
    """The statement of a file, else of a question by its name. Raises CourtlogError.

    A name is looked for in these folders first, then among those shipped.
    """
    for path in (Path(name), *(folder / f"{name}{_ENDING}" for folder in folders)):
        if path.suffix == _ENDING and path.exists():
            text = given_files.read_ordinary(path, "question")
            try:
                return text.decode("utf-8-sig")
            except UnicodeDecodeError as error:
                raise CourtlogError(f"The file {path} is no text.", "Save it as UTF-8.") from error
    for question in shipped_questions():
        if question.name == name:
            return question.statement
    raise UnknownNameError(
        f"There is no question {name!r}.", "`courtlog academy questions` lists them."
    )


def _question(file: str, text: str) -> ShippedQuestion:
    comment = []
    for line in text.splitlines():
        if not line.startswith("--"):
            break
        comment.append(line.removeprefix("--").strip())
    return ShippedQuestion(file.removesuffix(_ENDING), " ".join(comment), text)
