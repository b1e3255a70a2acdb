"""The films of a clinic in words; at most 78 columns."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog import times
from courtlog.film.film_start import StartSource
from courtlog.plain_text import many, plain
from courtlog.reports.facts.film_facts import FilmFacts, FilmList, NotAgreed
from courtlog.reports.layout.page import WIDTH, block, labelled, lines_of

SECONDS_OFF = "it may be some seconds off."

KNOWN_BY = {
    StartSource.SLATE: "It shows the slate, so the start is known to a tenth of a second.",
    StartSource.MARK: "It shows the moment of a clip mark: the start is known to about a second.",
    StartSource.ZONE: f"The start is the date in the file: {SECONDS_OFF}",
    StartSource.FILE: f"The start is the file's own time, told by its name: {SECONDS_OFF}",
    StartSource.SAID: f"The start is the file's own time, read as you said: {SECONDS_OFF}",
    StartSource.NAME: f"The start is the time in the file's name: {SECONDS_OFF}",
}
"""How the start of a film is known, and what that is worth."""

HOW_TO_TELL = (
    "A film of the slate (Esc . on court) makes a start exact:"
    " `courtlog film add FILE --at 0:02 --shows 09:31:07.4`."
)

NOT_AGREED = "Whoever has not agreed is left out of all that courtlog makes of films."
MINORS = "Pictures of minors need a guardian's yes; follow the rules of your place."


def film_text(facts: FilmList) -> str:
    """Every film of a list."""
    return "\n".join(_lines(facts)) + "\n"


def added_text(facts: FilmList) -> str:
    """The films that came in just now, without a heading."""
    return "\n".join(_bodies(facts)).lstrip("\n") + "\n"


def _lines(facts: FilmList) -> Iterator[str]:
    yield from lines_of(f"{plain(facts.clinic)} · {many(len(facts.films), 'film')}")
    yield "=" * WIDTH
    if not facts.films:
        yield "No film yet: `courtlog film add FILE` takes one in."
        return
    yield from _bodies(facts)


def _bodies(facts: FilmList) -> Iterator[str]:
    for film in facts.films:
        yield ""
        yield from _film(film)
    if any(not film.to_the_tenth for film in facts.films):
        yield from block("to know", [HOW_TO_TELL])
    if facts.not_agreed:
        words = [f"{plain(one.player)}: {_why(one)}" for one in facts.not_agreed]
        yield from block("no yes", [*words, NOT_AGREED])
        if any(one.minor for one in facts.not_agreed):
            yield from labelled("", [MINORS])


def _film(film: FilmFacts) -> Iterator[str]:
    yield from lines_of(plain(film.name))
    ends = f"{film.ended:%H:%M:%S}"
    if film.ended.date() != film.began.date():
        ends = f"{times.date_words(film.ended.date())} {ends}"
    span = f"{times.date_words(film.began.date())} {film.began:%H:%M:%S} to {ends}"
    yield from labelled("runs", [f"{span} ({times.span_words(film.length_ms)})"])
    yield from labelled("start", [KNOWN_BY[film.source]])
    players = ", ".join(f"{plain(one.player)} {one.balls}" for one in film.players)
    yield from labelled("balls", [f"{film.balls}: {players}" if players else "none of the book's"])
    if film.without_moment:
        count = many(film.without_moment, "ball")
        verb = "has" if film.without_moment == 1 else "have"
        yield from labelled("", [f"{count} of a sheet {verb} no moment, and no place in a film."])


def _why(one: NotAgreed) -> str:
    if one.filming == "yes":
        return "a minor, and no guardian's name stands beside the yes"
    asked = {"": "nobody has asked", "asked": "asked, no answer yet", "no": "said no"}[one.filming]
    return f"{asked}; a minor, so a guardian answers" if one.minor else asked
