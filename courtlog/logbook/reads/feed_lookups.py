"""Look-ups of how rounds are fed and when the coach spoke."""

from __future__ import annotations

from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.speaking import Wording
from courtlog.coaching.on_court.feed_order import FeedChoice
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.feed_rows import FEED_COLUMNS, feeds_of
from courtlog.logbook.rows.ids import is_before
from courtlog.values import json_of

_WITH_TOUGH = ", ".join(f"'{purpose}'" for purpose in Purpose if purpose.plans_tough)

_LAST = (
    f"SELECT {FEED_COLUMNS} FROM round JOIN drill_used ON drill_used.id = drill_id"
    " JOIN day ON day.id = day_id"
    " WHERE clinic_id = ? AND card = ? AND order_kind <> ''{}"
    " ORDER BY date DESC, round.id DESC LIMIT 1"
)


def last_choice(book: Book, clinic_id: int, used: UsedDrill) -> FeedChoice:
    """What the clinic's last round of the drill, as its card reads now, was fed by; else the card.

    The share of tough balls is that of the last round in which any could be planned.
    """
    card = FeedChoice.of_card(used.drill)
    key = [clinic_id, json_of(used)]
    row = book.db.execute(_LAST.format(""), key).fetchone()
    if row is None:
        return card
    last = feeds_of(*row)
    row = book.db.execute(_LAST.format(f" AND purpose IN ({_WITH_TOUGH})"), key).fetchone()
    tough = card if row is None else feeds_of(*row).choice(used.drill)
    return FeedChoice(last.kind or card.order, tough.tough, tough.of, last.every, last.speak)


def rounds_before(book: Book, round_id: int) -> int:
    """The player's practice rounds of this drill, with a ball, earlier on the round's date."""
    (count,) = book.db.execute(
        "SELECT count(*) FROM round JOIN day ON day.id = round.day_id"
        " JOIN drill_used ON drill_used.id = round.drill_id"
        " JOIN round AS earlier ON earlier.player_id = round.player_id AND earlier.id <> round.id"
        f" AND earlier.purpose = 'practice' AND {is_before('earlier', 'round')}"
        " JOIN day AS that ON that.id = earlier.day_id"
        " AND that.clinic_id = day.clinic_id AND that.date = day.date"
        " JOIN drill_used AS used ON used.id = earlier.drill_id AND used.name = drill_used.name"
        " WHERE round.id = ?"
        " AND EXISTS (SELECT 1 FROM ball WHERE round_id = earlier.id AND taken)",
        [round_id],
    ).fetchone()
    return int(count)


def spoken_after(book: Book, round_id: int) -> tuple[tuple[int, Wording], ...]:
    """After which balls of the round the coach spoke, by number, and in which wording."""
    rows = book.db.execute(
        "SELECT number, wording FROM said JOIN ball ON ball.id = ball_id WHERE round_id = ?"
        " ORDER BY number",
        [round_id],
    )
    return tuple((number, Wording(wording)) for number, wording in rows)
