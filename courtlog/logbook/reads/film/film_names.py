"""Which film a typed name means."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import PurePath

from courtlog.errors import UnknownNameError
from courtlog.logbook.reads.film.films import Film
from courtlog.names import folded_name


def film_called(films: Sequence[Film], clinic: str, typed: str) -> Film:
    """The film of that name; a folder before it is left out. Raises UnknownNameError."""
    name = PurePath(typed).name
    exact = [film for film in films if film.name == name]
    fits = exact or [film for film in films if folded_name(film.name) == folded_name(name)]
    if len(fits) == 1:
        return fits[0]
    if fits:
        raise UnknownNameError(
            f"{len(fits)} films of {clinic} are called {name}.",
            "Write the name of the file with its folder, so that it can be looked at.",
        )
    known = ", ".join(film.name for film in films)
    raise UnknownNameError(
        f"{clinic} has no film called {name}.",
        f"Its films: {known}." if known else "`courtlog film add FILE` takes one in.",
    )
