"""Columns of a person's rows that the page does not print one by one, each with its reason.

A test walks the schema: every column of every table that hangs on a player changes the page when it
changes, or stands here. Tables that hang on nobody are listed too.
"""

from __future__ import annotations

from collections.abc import Mapping

NUMBERS = "the numbers by which the book finds its lines, and places in lists"
MOMENTS = "the moment at which a line was written, beside its date"
FEEDING = "how a round was to be fed and spoken on: order, tough balls, pauses"
EACH = "each grade of each ball, and each key with its moment: counted above"
AGAIN = "counts that follow from those balls"
BEFORE = "values as they were before they were put right: counted above"
SHEET = "by which number of the day a sheet on paper is known when it is typed in again"

LEFT_OUT: Mapping[str, Mapping[str, str]] = {
    "player": {"id": NUMBERS},
    "roster": {"player_id": NUMBERS, "place": NUMBERS},
    "round": {
        **dict.fromkeys(("id", "player_id", "place"), NUMBERS),
        **dict.fromkeys(("feed_seed", "feed_order", "order_kind", "tough_plan"), FEEDING),
        **dict.fromkeys(("rate_every", "speak", "planned_balls", "paused_ms"), FEEDING),
    },
    "round_cue": {"round_id": NUMBERS, "row": NUMBERS},
    "ball": {"id": NUMBERS, "round_id": NUMBERS, "number": NUMBERS, "taken_at": EACH},
    "rating": {"ball_id": NUMBERS, "row": EACH},
    "journal": dict.fromkeys(("id", "ball_id", "kind", "before", "after", "undoes", "at"), EACH),
    "note": {"id": NUMBERS},
    "check_in": {"id": NUMBERS, "player_id": NUMBERS, "round_id": NUMBERS},
    "tally": dict.fromkeys(
        (
            *("player_id", "stroke", "cue", "day_id", "drill_id", "purpose", "tough"),
            *("missed", "near", "made", "unseen"),
        ),
        AGAIN,
    ),
    "focus": {"player_id": NUMBERS},
    "main_cue": {"id": NUMBERS, "player_id": NUMBERS},
    "attendance": {"player_id": NUMBERS},
    "standing": {"player_id": NUMBERS},
    "queue_swap": {"id": NUMBERS, "one_id": NUMBERS, "other_id": NUMBERS},
    "solo": {"id": NUMBERS, "player_id": NUMBERS},
    "said": {"ball_id": NUMBERS, "at": MOMENTS},
    "red_flag": {"id": NUMBERS, "player_id": NUMBERS, "check_in_id": NUMBERS},
    "clinician_word": {"id": NUMBERS},
    "amendment": {"id": NUMBERS, "other_id": NUMBERS},
    "amended": {
        **dict.fromkeys(("id", "amendment_id", "journal_id", "row_id"), NUMBERS),
        **dict.fromkeys(("what", "before", "after"), BEFORE),
    },
    "planned_round": {"id": NUMBERS, "player_id": NUMBERS, "place": NUMBERS},
    "second_rating": {"id": NUMBERS, "row": EACH, "at": MOMENTS},
    "moved_hit": {"film_id": NUMBERS, "ball_id": NUMBERS, "hit_ms": EACH},
    "filming_consent": {"id": NUMBERS, "player_id": NUMBERS, "at": MOMENTS},
    "home_yardstick": {"id": NUMBERS, "player_id": NUMBERS, "at": MOMENTS},
    "sheet_round": {
        **dict.fromkeys(("round_id", "first_ball_id"), NUMBERS),
        **dict.fromkeys(("number", "digest", "balls"), SHEET),
    },
    "blind_page": {"id": NUMBERS, "player_id": NUMBERS, "seed": NUMBERS, "at": MOMENTS},
    "player_court": {"id": NUMBERS, "player_id": NUMBERS},
    "blind_ball": {"page_id": NUMBERS, "number": NUMBERS, "ball_id": NUMBERS},
    "blind_sitting": {"page_id": NUMBERS, "sitting": NUMBERS},
}

ABOUT_NOBODY: Mapping[str, str] = {
    "book": "says which file this is",
    "home": "says on which laptop this file lies",
    "clinic": "a clinic, the same for everyone on it; named on the page",
    "coach": "who coached; named on the page",
    "day": "a day of a clinic, the same for everyone; named on the page",
    "drill_used": "the text of a drill; named on the page",
    "heat": "the weather of a day, the same for everyone",
    "film": "a film of a clinic; named where its time fits the player's balls",
    "film_court": "which court a film shows, the same for everyone in it",
    "court_book": "says of which court this file is the book",
    "court_reading": "says how old what is known of another court is",
    "bookmark": "where the book was left open",
    "erased": "numbers of those who were removed; nobody who is in the book",
    "former": "earlier versions of lines: their texts stand on the page",
    "conflict": "versions of lines that joined books disagree on: their texts stand on the page",
    "matched": "which numbers of joined books mean one person, clinic or round",
}
"""Tables that hang on no player, by what they hold."""

REASONS = (NUMBERS, FEEDING, EACH, BEFORE, AGAIN, MOMENTS, SHEET)
