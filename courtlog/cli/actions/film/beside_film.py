"""The five files beside a film on disk: their names, what is there already, and writing them."""

from __future__ import annotations

import os
from collections.abc import Mapping, Set
from dataclasses import dataclass
from pathlib import Path, PurePath

from courtlog import drafts, finished_steps, private
from courtlog.errors import CourtlogError
from courtlog.film.film_files import FilmFile, film_of, not_as_written
from courtlog.film.film_search import path_from
from courtlog.given_files import read_ordinary
from courtlog.logbook.file.new_folder import unwritten
from courtlog.plain_text import listed

_MOST_BYTES = 1 << 28
"""A film of a day with a ball a second has files of a tenth of this."""

FilePlace = tuple[int, int]
"""A disk and the number of a file on it: two names of one file have the same."""


@dataclass(frozen=True, slots=True)
class FilesBeside:
    """Where the files of one film go."""

    film: Path
    """The video."""
    fingerprint: str
    """What the video is known by."""
    to: Path | None
    """The folder of the files, if it is not the film's own."""

    @property
    def names(self) -> dict[FilmFile, Path]:
        """Each file's place."""
        folder = self.film.parent if self.to is None else self.to
        return {kind: folder / f"{self.film.stem}.{kind}" for kind in FilmFile}

    @property
    def path_from(self) -> PurePath:
        """The film's path as it is from the folder of the files: whole only on another drive."""
        name = PurePath(self.film.name)
        path = name if self.to is None else path_from(self.to, self.film)
        try:
            str(path).encode()
        except UnicodeEncodeError as error:
            raise CourtlogError(
                f"{self.film.name} has a name or a folder that is no text.", "Give it another name."
            ) from error
        return path

    def there(self) -> list[str]:
        """The names of those that lie there already."""
        return [name.name for name in self.names.values() if os.path.lexists(name)]

    def places(self) -> set[FilePlace]:
        """Where those that are there lie, whatever their names."""
        found = (name.stat() for name in self.names.values() if name.exists())
        return {(one.st_dev, one.st_ino) for one in found}

    def check_free(self, written: Set[FilePlace], replace: bool) -> None:
        """Refuse to write over a film, over another film's files, or over what others wrote.

        `written` is what this command has written for other films: that is never replaced.
        """
        if any(name.exists() and name.samefile(self.film) for name in self.names.values()):
            raise CourtlogError(
                f"{self.film.name} has the name of a file that would be written.",
                "Nothing was written. --to names another folder.",
            )
        names = self.names
        if self.places() & written:
            raise self._of_another_film("Give one of the two films another name.")
        if replace:
            return
        held = {kind: _text_of(name) for kind, name in names.items() if os.path.lexists(name)}
        if film_of(held) not in ("", self.fingerprint):
            raise self._of_another_film("--replace writes over them, --to names another folder.")
        foreign = [names[kind].name for kind in not_as_written(held)]
        if foreign:
            raise CourtlogError(
                f"Not as courtlog wrote it: {listed(foreign)}.",
                "Nothing was written. --replace writes over it, --to names another folder.",
            )

    def write(self, texts: Mapping[FilmFile, str]) -> None:
        """Write all five, each whole or not at all."""
        names = self.names
        folder = next(iter(names.values())).parent
        try:
            if not folder.exists():
                private.make_folder(folder)
                finished_steps.note(f"the folder {folder} is made")
            drafts.write_each({names[kind]: text for kind, text in texts.items()})
        except OSError as error:
            raise unwritten(folder, error) from error
        finished_steps.note(f"the files of {self.film.name} are written")

    def _of_another_film(self, next_step: str) -> CourtlogError:
        return CourtlogError(
            f"The files named {self.film.stem} there are of another film of that name.",
            f"Nothing was written of {self.film.name}. {next_step}",
        )


def _text_of(name: Path) -> str:
    """What a file holds; bytes that are no text become signs that no digest fits."""
    try:
        return read_ordinary(name, "file to replace", _MOST_BYTES).decode(errors="replace")
    except OSError as error:
        raise unwritten(name.parent, error) from error
