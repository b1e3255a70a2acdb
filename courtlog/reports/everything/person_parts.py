"""Who the player is and what was said: card, filming, arm, what the coach saw and wrote."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from courtlog import times
from courtlog.coaching.game.cards import FIELDS
from courtlog.coaching.game.clinic_record import Sign
from courtlog.logbook.reads.person.person_rows import Row
from courtlog.plain_text import listed, many
from courtlog.reports.everything.parts import Entry, Held, Part, in_time, sentence

_TITLES = {field.key: field.title for field in FIELDS} | {"age": "age group"}

_CARD = {
    "name": "name",
    "short_name": "short",
    "hand": "hand",
    "backhand": "backhand",
    "level": "level",
    "complaints": "complaints",
    "age_group": "age",
    "contact": "contact",
}
"""Columns of the card, by the key of the line that asks for them."""

_OF_A_CLINIC = {"goal": "goal", "usual_week": "usual_week", "ball_limit": "limit"}

ON_THE_ROSTER = "on the roster of"
"""The label of a clinic, before what is held for it."""

_ABOUT_OTHERS = {
    "note": "a note on another player's round",
    "check_in": "a check-in of another player",
    "player": "the card of another player",
    "roster": "what another player comes for",
    "focus": "what the coach saw of another player",
    "red_flag": "a red of another player",
    "clinician_word": "a clinician's word on another player",
    "filming_consent": "a yes or no to filming another player",
}

_ANSWERS = {"": "taken back", "asked": "asked, no answer yet", "yes": "yes", "no": "no"}


def person_parts(held: Held) -> Iterator[Part]:
    """These parts in the order of the page."""
    yield Part("card", "Your card", tuple(_card(held)))
    yield Part("clinics", "Clinics", tuple(_clinics(held)))
    yield Part("filming", "Yes or no to filming", tuple(_filming(held)), "nobody was asked")
    yield Part("check_ins", "What you said of pain and effort", in_time(_check_ins(held)))
    yield Part("reds", "When play was stopped", in_time(_reds(held)), "never")
    yield Part("seen", "What the coach saw", in_time(_seen(held)))
    yield Part("notes", "Notes on your balls and rounds", in_time(_notes(held)))
    yield Part("earlier", "Texts that were changed since", tuple(_earlier(held)))
    yield Part("elsewhere", "Texts about others with your name", in_time(_elsewhere(held)))


def _card(held: Held) -> Iterator[Entry]:
    for row in held.of("player"):
        for column, key in _CARD.items():
            if row[column]:
                # Whom to call is the family's own word, another player's mother too.
                said = row[column] if column in ("name", "contact") else held.text(row[column])
                yield Entry(str(said), _TITLES[key])


def _clinics(held: Held) -> Iterator[Entry]:
    for row in held.of("roster"):
        clinic = held.clinic(row["clinic_id"])
        yield Entry(clinic.name, ON_THE_ROSTER)
        for column, key in _OF_A_CLINIC.items():
            if row[column]:
                yield Entry(held.text(row[column]), _TITLES[key])
        if row["next_drill"]:
            yield Entry(held.drill_called(row["next_drill"]), "next drill")


def _filming(held: Held) -> Iterator[Entry]:
    """Every word in its order: the last one counts."""
    for row in sorted(held.of("filming_consent"), key=lambda row: int(row["id"])):
        who = f"said by {row['who']}" if row["who"] else ""
        yield Entry(sentence(_ANSWERS[row["answer"]], who), on=date.fromisoformat(row["date"]))


def _check_ins(held: Held) -> Iterator[Entry]:
    for row in held.of("check_in"):
        yield Entry(
            sentence(
                held.clock(row["at"], row["day_id"]),
                "" if row["pain"] is None else f"pain {row['pain']} of 10",
                f"at the {held.text(row['place'])}" if row["place"] else "",
                "" if row["effort"] is None else f"effort {row['effort']} of 10",
                "" if row["minutes"] is None else many(row["minutes"], "minute"),
                *(_sign_words(held, sign) for sign in row["signs"].replace(",", " ").split()),
                held.text(row["note"]),
            ),
            row["moment"] or "",
            held.date(row["day_id"]),
        )


def _sign_words(held: Held, written: str) -> str:
    """The sign in words; what no sheet writes stays as it is written."""
    return Sign(written).words if written in set(Sign) else held.text(written)


def _reds(held: Held) -> Iterator[Entry]:
    for row in held.of("red_flag"):
        on, clock = held.date(row["day_id"]), held.clock(row["at"], row["day_id"])
        yield Entry(sentence(clock, held.text(row["reason"])), "red", on)
        for word in held.of("clinician_word"):
            if word["red_flag_id"] == row["id"]:
                said = f"{held.text(word['who'])}: {held.text(word['text'])}"
                clock = held.clock(word["at"], row["day_id"])
                yield Entry(sentence(clock, said), "a clinician said", on)


def _seen(held: Held) -> Iterator[Entry]:
    for row in held.of("focus"):
        said = {
            "good already": held.text(row["strengths"]),
            "cues": listed([held.cue(row["stroke"], cue) for cue in row["cues"].split()]),
            "because": held.text(row["why"]),
        }
        words = sentence(*(f"{name}: {text}" for name, text in said.items() if text))
        yield _of_a_stroke(held, row, words)
    for row in held.of("main_cue"):
        yield _of_a_stroke(held, row, f"the main cue: {held.cue(row['stroke'], row['cue'])}")


def _of_a_stroke(held: Held, row: Row, words: str) -> Entry:
    clinic = held.clinic(row["clinic_id"])
    label = f"{held.stroke(row['stroke'])}, {clinic.name}"
    return Entry(words, label, times.local_date(row["at"], clinic.place))


def _notes(held: Held) -> Iterator[Entry]:
    rounds = {row["id"]: row for row in held.of("round")}
    numbers = {row["id"]: row["number"] for row in held.of("ball")}
    for row in held.of("note"):
        of = rounds[row["round_id"]]
        ball = numbers.get(row["ball_id"], 0)
        where = f"ball {ball}" if ball > 0 else "a ball" if row["ball_id"] else "a round"
        label = sentence(where, held.clock(row["at"], of["day_id"]))
        yield Entry(held.text(row["text"]), label, held.date(of["day_id"]))


def _earlier(held: Held) -> Iterator[Entry]:
    for one in held.rows.earlier:
        own = one.table == "player" and one.column in ("name", "short_name", "contact")
        label = {"player": "your card", "check_in": "a check-in", "note": "a note"}.get(one.table)
        yield Entry(one.text if own else held.text(one.text), label or "another text")


def _elsewhere(held: Held) -> Iterator[Entry]:
    for one in dict.fromkeys(held.rows.elsewhere):
        count = held.rows.elsewhere.count(one)
        again = f" ({many(count, 'time')})" if count > 1 else ""
        yield Entry(_ABOUT_OTHERS[one.table] + again, on=one.date)
