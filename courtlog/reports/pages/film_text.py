"""The films of a clinic in words; at most 78 columns."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import PurePath

from courtlog import times
from courtlog.coaching.game.cards import PlayerCard
from courtlog.film.film_files import FilmFile
from courtlog.film.film_start import StartSource
from courtlog.logbook.reads.film.filming_consent import NotAgreed
from courtlog.plain_text import listed, many, plain
from courtlog.reports.facts.film_facts import FilmedPlayer, FilmFacts, FilmList
from courtlog.reports.layout.page import WIDTH, block, labelled, lines_of
from courtlog.reports.layout.picture_words import PICTURE_WORDS
from courtlog.systems.shell_words import quoted

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
OTHERS = "A film may show others too: look before you show it to anyone."
MADE_BEFORE = "What was made of films while there was a yes is yours to delete."


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
        words = [f"{plain(one.player)}: {why_left_out(one)}" for one in facts.not_agreed]
        yield from block("no yes", [*words, NOT_AGREED])
        if any(one.agreed_before for one in facts.not_agreed):
            yield from labelled("", [MADE_BEFORE])
    if facts.films:
        yield from block("pictures", [OTHERS, PICTURE_WORDS[-1]])


def _film(film: FilmFacts) -> Iterator[str]:
    yield from lines_of(plain(film.name))
    ends = f"{film.ended:%H:%M:%S}"
    if film.ended.date() != film.began.date():
        ends = f"{times.date_words(film.ended.date())} {ends}"
    span = f"{times.date_words(film.began.date())} {film.began:%H:%M:%S} to {ends}"
    yield from labelled("runs", [f"{span} ({times.span_words(film.length_ms)})"])
    yield from labelled("start", [KNOWN_BY[film.source]])
    if film.court is None and film.courts:
        yield from labelled("court", [plain(court_to_say(film.courts))])
    elif film.court and set(film.courts) != {film.court}:
        yield from labelled("court", [plain(film.court)])
    players = _players(film.players)
    yield from labelled("balls", [f"{film.balls}: {players}" if players else "none of the book's"])
    if film.without_moment:
        count = many(film.without_moment, "ball")
        verb = "has" if film.without_moment == 1 else "have"
        yield from labelled("", [f"{count} of a sheet {verb} no moment, and no place in a film."])


def court_to_say(courts: Sequence[str]) -> str:
    """That nobody has said which court a film shows, and what to type."""
    several = listed([f"court {court}" for court in courts])
    return (
        f"not known: {several} were open while it ran. Nothing is made of the film until"
        f" `courtlog film add FILE --court {quoted(courts[0])}`, or another, says it."
    )


def _players(filmed: Sequence[FilmedPlayer]) -> str:
    """`Maren 5, Tove 3`; of several courts `court 1: Maren 5; court 2: Tove 3`."""
    courts: dict[str, list[str]] = {}
    for one in filmed:
        courts.setdefault(one.court, []).append(f"{plain(one.player)} {one.balls}")
    told = {court: ", ".join(players) for court, players in courts.items()}
    if len(told) < 2:
        return "".join(told.values())
    return "; ".join(f"court {plain(court)}: {players}" for court, players in told.items())


def why_left_out(one: NotAgreed) -> str:
    """`said no on 12 May`, and whose word is needed where that is a guardian's."""
    if one.filming == "yes":
        if one.minor:
            return "a minor, and no guardian's name stands beside the yes"
        return "a yes, but nobody wrote whose, nor that this is an adult"
    on = times.day_month_words(date.fromisoformat(one.filming_on)) if one.filming_on else ""
    asked = {
        "": "not yet asked about filming",
        "asked": f"asked on {on}, no answer yet",
        "no": f"said no on {on}",
    }[one.filming]
    return f"{asked}; a minor, so a guardian answers" if one.minor else asked


def needed_for_films(card: PlayerCard) -> list[str]:
    """What a yes still lacks to count, right where it was written down."""
    if card.filming != "yes" or card.may_be_filmed:
        return []
    if card.minor:
        return ["The yes counts once a guardian's name is beside it: --filming-by."]
    return ["The yes counts once it says whose it is (--filming-by), or --adult."]


def left_out_words(balls: Mapping[str, int]) -> list[str]:
    """Whose balls are left out, by name and number: for every command that makes something."""
    if not balls:
        return []
    whose = listed([f"{count} of {plain(name)}" for name, count in balls.items()])
    return [f"Left out, since filming is not agreed: {whose}."]


def others_words(without_yes: Sequence[str]) -> list[str]:
    """Who may be seen behind somebody else's ball without a yes, as far as the book knows."""
    if not without_yes:
        return [OTHERS]
    names = listed([plain(name) for name in without_yes])
    return [f"{OTHERS} No yes from {names}."]


def left_on_films(player: str, films: Sequence[str]) -> list[str]:
    """Which films show the player, and what may have been made of them: nothing of it is deleted.

    The book knows no folder, so the files beside a film are told by their names.
    """
    if not films:
        return []
    first, *others = FilmFile
    endings = f"{first}, .{', .'.join(others)}"
    return [
        f"courtlog deletes no film, nor files made of it. {player} may be in these:",
        *(f"  {name}" for name in films),
        f"The name {player} may stand beside them, or where --to put it:",
        *(f"  {stem}.{endings}" for stem in dict.fromkeys(PurePath(name).stem for name in films)),
        f"Pages and clips made of {player} by `courtlog film` are yours to delete too.",
    ]
