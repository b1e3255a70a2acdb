"""Look-ups of people: the roster with its cards, and what the coach saw of a player."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, fields
from datetime import date

from courtlog import times
from courtlog.coaching.game.cards import Focus, PlayerCard, missing
from courtlog.coaching.game.people import Player
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups, main_cue_lookups
from courtlog.logbook.rows.ids import COUNT_BITS


@dataclass(frozen=True, slots=True)
class RosterLine:
    """One line of a clinic's roster."""

    player: Player
    card: PlayerCard


def entries(book: Book, clinic_id: int) -> list[RosterLine]:
    """The clinic's roster in its order, with everyone's card."""
    rows = book.db.execute(
        "SELECT player.id, name, short_name, hand, backhand, level, goal, usual_week, complaints,"
        " ball_limit, age_group, contact, coalesce(answer, ''),"
        " iif(coalesce(answer, '') = '', '', said.date), coalesce(said.who, '')"
        " FROM roster JOIN player ON player.id = roster.player_id"
        " LEFT JOIN filming_consent AS said ON said.id = (SELECT id FROM filming_consent"
        "   WHERE player_id = player.id AND id IN"
        "     (SELECT max(id) FROM filming_consent GROUP BY player_id, id >> :tag)"
        "   ORDER BY at DESC, id DESC LIMIT 1)"
        " WHERE clinic_id = :clinic",
        # Within a book ids tell what was said last, of two books that were joined the moment does.
        {"clinic": clinic_id, "tag": COUNT_BITS},
    )
    columns = [field.name for field in fields(PlayerCard)]
    cards = {player: PlayerCard(**dict(zip(columns, card, strict=True))) for player, *card in rows}
    return [RosterLine(player, cards[player.id]) for player in lookups.players(book, clinic_id)]


def card(book: Book, clinic_id: int, player_id: int) -> PlayerCard:
    """The player's card in this clinic; the player is on its roster."""
    return next(e.card for e in entries(book, clinic_id) if e.player.id == player_id)


def still_to_ask(book: Book, clinic_id: int) -> dict[int, tuple[str, ...]]:
    """What is open on each player's card, by the player's id; it holds no value of any card."""
    return {entry.player.id: missing(entry.card) for entry in entries(book, clinic_id)}


def known_from(book: Book, clinic_id: int, name: str) -> str | None:
    """The latest other clinic of the book's only person of exactly that name, if there is one."""
    ids = book.db.execute("SELECT id FROM player WHERE name = ?", [name]).fetchall()
    if len(ids) != 1:
        return None
    row = book.db.execute(
        "SELECT clinic.name FROM roster JOIN clinic ON clinic.id = clinic_id"
        " WHERE player_id = ? AND clinic_id <> ? ORDER BY clinic_id DESC LIMIT 1",
        [ids[0][0], clinic_id],
    ).fetchone()
    return None if row is None else str(row[0])


def focuses(book: Book, clinic_id: int, player_id: int) -> list[Focus]:
    """What the coach saw of the player in this clinic, by stroke."""
    rows = book.db.execute(
        "SELECT stroke, strengths, cues, why, at FROM focus"
        " WHERE clinic_id = ? AND player_id = ? ORDER BY stroke",
        [clinic_id, player_id],
    )
    return [
        Focus(
            stroke,
            strengths,
            tuple(cues.split()),
            why,
            at,
            main_cue_lookups.named_main(book, clinic_id, player_id, stroke) or "",
        )
        for stroke, strengths, cues, why, at in rows
    ]


@dataclass(frozen=True, slots=True)
class FocusInWords:
    """What the coach saw on a stroke, with its title and the cues' names, and on which date."""

    stroke: str
    title: str
    strengths: str
    cues: tuple[str, ...]
    why: str
    on: date
    main: str
    """The name of the cue judged first; empty where the coach named none."""


def focuses_in_words(book: Book, clinic_id: int, player_id: int) -> list[FocusInWords]:
    """What the coach saw of the player, in words."""
    names, titles = day_lookups.cue_names(book), day_lookups.stroke_titles(book)
    place = lookups.clinic(book, clinic_id).place
    return [
        FocusInWords(
            one.stroke,
            titles.get(one.stroke, one.stroke),
            one.strengths,
            tuple(names.get((one.stroke, cue), cue) for cue in one.cues),
            one.why,
            times.local_date(one.at_ms, place),
            names.get((one.stroke, one.main), one.main),
        )
        for one in focuses(book, clinic_id, player_id)
    ]


def focus(book: Book, clinic_id: int, player_id: int, stroke: str) -> Focus:
    """What the coach saw on one stroke; an empty one before anything was kept."""
    found = focuses(book, clinic_id, player_id)
    return next((one for one in found if one.stroke == stroke), Focus(stroke))


def cues_to_rate(
    book: Book,
    clinic_id: int,
    player_id: int,
    stroke: str,
    known: Collection[str],
    kept: tuple[str, ...] = (),
) -> tuple[str, ...]:
    """The cues the coach chose for the player on this stroke, else those kept, else the last.

    Cues that the stroke no longer has (`known`) are passed over; without any it is empty.
    """
    chosen = focus(book, clinic_id, player_id, stroke).cues
    if chosen and set(chosen) <= set(known):
        return chosen
    if kept:
        return kept
    last = lookups.last_cues_of(book, player_id, clinic_id, stroke) or ()
    return last if set(last) <= set(known) else ()
