"""Write people: each entry is one committed transaction. `at_ms` is milliseconds UTC."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence

from courtlog.coaching.game.cards import Focus, PlayerCard
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups, people_lookups
from courtlog.logbook.reads.main_cue_lookups import SETTLED, is_settled, named_main
from courtlog.logbook.rows.red_flags import flag_reds_everywhere
from courtlog.logbook.rows.row_changes import add_to_roster, insert, player_id
from courtlog.names import folded_name
from courtlog.times import local_date

_PERSON = (
    "UPDATE player SET name = ?, short_name = ?, hand = ?, backhand = ?, level = ?,"
    " complaints = ?, age_group = ?, contact = ? WHERE id = ?"
)
_PLACE = (
    "UPDATE roster SET goal = ?, usual_week = ?, ball_limit = ?"
    " WHERE clinic_id = ? AND player_id = ?"
)
_FILL = (
    "UPDATE player SET short_name = coalesce(nullif(?, ''), short_name),"
    " hand = coalesce(nullif(?, ''), hand), backhand = coalesce(nullif(?, ''), backhand),"
    " level = coalesce(nullif(?, ''), level), complaints = coalesce(nullif(?, ''), complaints),"
    " age_group = coalesce(nullif(?, ''), age_group), contact = coalesce(nullif(?, ''), contact)"
    " WHERE id = ?"
)


class PeopleWriter:
    """Rosters, cards, and what the coach saw."""

    def __init__(self, book: Book) -> None:
        self._book = book

    def add_players(
        self, clinic: int, cards: Sequence[PlayerCard], at_ms: int, another_person: bool = False
    ) -> None:
        """Add players at the end of the clinic's roster, all of them or none. Raises BookError.

        The book's only person of exactly that name brings the card of the earlier clinic; the new
        words replace it. A name that is on this roster already is refused, unless `another_person`
        says that somebody else has the same name.
        """
        with self._book.setting_up() as db:
            for card in cards:
                if not another_person and self._is_here(db, clinic, card.name):
                    raise BookError(
                        f"{card.name} is on the roster already.",
                        "Write a letter more of the name; nothing was written.",
                    )
                self._add(db, clinic, card, at_ms, another_person)

    def edit_card(self, clinic: int, player: int, card: PlayerCard, at_ms: int) -> None:
        """Set everything that the card says. Raises BookError for another player's name.

        When it now says minor, earlier check-ins may call for a red: it is set with the card.
        """
        with self._book.setting_up() as db:
            (name,) = db.execute("SELECT name FROM player WHERE id = ?", [player]).fetchone()
            renamed = folded_name(name) != folded_name(card.name)
            if renamed and self._is_here(db, clinic, card.name):
                raise BookError(
                    f"{card.name} is on the roster already.", "Write a letter more of the name."
                )
            db.execute(_PERSON, [card.name, *_person(card), player])
            db.execute(_PLACE, [*_place(card), clinic, player])
            self._keep_filming(db, clinic, player, card, at_ms)
            flag_reds_everywhere(db, player)

    def move_in_roster(self, clinic: int, player: int, by: int) -> None:
        """Swap the player with the one before (-1) or after (1) on the roster, if there is one."""
        with self._book.setting_up() as db:
            ids = [
                row[0]
                for row in db.execute(
                    "SELECT player_id FROM roster WHERE clinic_id = ? ORDER BY place", [clinic]
                )
            ]
            index = ids.index(player) if player in ids else -1
            if index < 0 or not 0 <= index + by < len(ids):
                return
            ids[index], ids[index + by] = ids[index + by], ids[index]
            for place, row in enumerate(ids, 1):
                db.execute(
                    "UPDATE roster SET place = ? WHERE clinic_id = ? AND player_id = ?",
                    [place, clinic, row],
                )

    def keep_focus(self, clinic: int, player: int, focus: Focus, at_ms: int) -> None:
        """Keep what the coach saw on a stroke; the moment is that of the strengths.

        A new main cue is kept beside the earlier ones. Raises BookError where it is none of the
        cues, or where the main cue is settled; then nothing is kept.
        """
        with self._book.setting_up() as db:
            self._name_main_cue(db, clinic, player, focus, at_ms)
            db.execute(
                "INSERT INTO focus VALUES (?, ?, ?, ?, ?, ?, ?)"
                " ON CONFLICT (clinic_id, player_id, stroke) DO UPDATE SET"
                " at = CASE WHEN strengths = excluded.strengths THEN at ELSE excluded.at END,"
                " strengths = excluded.strengths, cues = excluded.cues, why = excluded.why",
                [
                    clinic,
                    player,
                    focus.stroke,
                    focus.strengths,
                    " ".join(focus.cues),
                    focus.why,
                    at_ms,
                ],
            )

    def _name_main_cue(
        self, db: sqlite3.Connection, clinic: int, player: int, focus: Focus, at_ms: int
    ) -> None:
        where = (self._book, clinic, player, focus.stroke)
        if focus.main in ("", named_main(*where)):
            return
        if focus.main not in focus.cues:
            raise BookError("The main cue is one of the picked cues.", "Pick it too.")
        if is_settled(*where):
            raise BookError(SETTLED, "The other cues can still be changed.")
        insert(
            db,
            self._book.ids,
            at_ms,
            "main_cue",
            clinic_id=clinic,
            player_id=player,
            stroke=focus.stroke,
            cue=focus.main,
            at=at_ms,
        )

    def _keep_filming(
        self, db: sqlite3.Connection, clinic: int, player: int, card: PlayerCard, at_ms: int
    ) -> None:
        """Keep the word on filming where it is not what was said last."""
        before = people_lookups.card(self._book, clinic, player)
        said = (card.filming, card.filming_on, card.filming_by)
        if said == (before.filming, before.filming_on, before.filming_by):
            return
        place = lookups.clinic(self._book, clinic).place
        insert(
            db,
            self._book.ids,
            at_ms,
            "filming_consent",
            player_id=player,
            answer=card.filming,
            date=card.filming_on or local_date(at_ms, place).isoformat(),
            who=card.filming_by,
            at=at_ms,
        )

    def _add(
        self,
        db: sqlite3.Connection,
        clinic: int,
        card: PlayerCard,
        at_ms: int,
        another_person: bool,
    ) -> None:
        if another_person or self._is_here(db, clinic, card.name):
            player = insert(db, self._book.ids, at_ms, "player", name=card.name)
        else:
            player = player_id(db, self._book.ids, at_ms, card.name, card.hand)
        db.execute(_FILL, [*_person(card), player])
        add_to_roster(db, clinic, player)
        db.execute(_PLACE, [*_place(card), clinic, player])
        if card.filming:
            self._keep_filming(db, clinic, player, card, at_ms)
        flag_reds_everywhere(db, player)

    def _is_here(self, db: sqlite3.Connection, clinic: int, name: str) -> bool:
        rows = db.execute(
            "SELECT name FROM roster JOIN player ON player.id = player_id WHERE clinic_id = ?",
            [clinic],
        )
        return folded_name(name) in {folded_name(row[0]) for row in rows}


def _person(card: PlayerCard) -> list[str]:
    return [
        card.short,
        card.hand,
        card.backhand,
        card.level,
        card.complaints,
        card.age,
        card.contact,
    ]


def _place(card: PlayerCard) -> list[str | int | None]:
    return [card.goal, card.usual_week, card.limit]
