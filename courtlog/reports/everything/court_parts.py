"""What was played and how it was kept: rounds and balls by count, the day, plans, films."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date

from courtlog import times
from courtlog.coaching.game.court_book import Arrival
from courtlog.logbook.reads.person.person_rows import Row
from courtlog.plain_text import capital, listed, many
from courtlog.reports.everything.parts import Entry, Held, Part, in_time, sentence
from courtlog.systems.shell_words import quoted

_GRADES = ("missed", "near", "made")

_STATES = {"here": "there", "late": "came later", "left": "left"}

_ORDERS = {"inner": "in words about the body", "outer": "in words about the ball"}

_MOVES = {
    Arrival.DEALT: "dealt to",
    Arrival.HANDED: "handed over to",
    Arrival.PICKED: "came to",
}

_COUNTED = {
    "journal": ("key", "of the coach, each with its moment"),
    "amended": ("value", "that a sheet brought in or a correction changed"),
}
"""Tables whose rows are only counted, in words."""


def court_parts(held: Held, films: Sequence[str]) -> Iterator[Part]:
    """These parts in the order of the page."""
    title = "Rounds and balls, by count"
    yield Part("rounds", title, in_time(_days(held)), amount=_rounds_and_balls(held))
    yield Part("on_the_day", "Your place and turn on the day", in_time(_on_the_day(held)))
    yield Part("planned", "Planned rounds", in_time(_planned(held)))
    yield Part("second", "Balls rated a second time", tuple(_second(held)))
    yield Part("at_home", "Watched at home", in_time(_at_home(held)))
    yield Part("put_right", "Put right afterwards", in_time(_put_right(held)))
    yield Part("films", "Films you may be seen in", tuple(_films(held, films)), "none is known")


def _rounds_and_balls(held: Held) -> str:
    tables = {"round": "round", "ball": "ball", "rating": "grade"}
    return sentence(*(many(len(held.of(table)), word) for table, word in tables.items()))


def _days(held: Held) -> Iterator[Entry]:
    """One entry a day: rounds, who rated, from when to when, balls and grades."""
    balls = _by(held.of("ball"), "round_id")
    grades = _by(held.of("rating"), "ball_id")
    cues = _by(held.of("round_cue"), "round_id")
    for day_id, rounds in _by(held.of("round"), "day_id").items():
        starts = [row["started_at"] for row in rounds if row["started_at"] is not None]
        ends = [row["ended_at"] for row in rounds if row["ended_at"] is not None]
        purposes = Counter(row["purpose"] for row in rounds)
        hit = [ball for row in rounds for ball in balls.get(row["id"], ())]
        given = Counter(g["grade"] for ball in hit for g in grades.get(ball["id"], ()))
        used = {
            held.cue(held.stroke_of(row["drill_id"]), cue["cue"])
            for row in rounds
            for cue in cues.get(row["id"], ())
        }
        words = [
            sentence(
                f"{many(len(rounds), 'round')}"
                f" ({listed([f'{count} {name}' for name, count in purposes.items()])})",
                f"rated by {listed(sorted({held.coach(row['coach_id']) for row in rounds}))}",
                f"court {held.day(day_id)['court']}",
                sentence(
                    f"from {held.clock(min(starts), day_id)}" if starts else "",
                    f"to {held.clock(max(ends), day_id)}" if ends else "",
                ).replace(", ", " "),
            ),
            f"drills: {'; '.join(sorted({held.drill(row['drill_id']) for row in rounds}))}",
            f"cues: {listed(sorted(used))}" if used else "",
            _ball_words(hit),
            f"grades: {listed([f'{given[grade]} {_GRADES[grade]}' for grade in (2, 1, 0)])}",
        ]
        yield Entry(". ".join(map(capital, filter(None, words))) + ".", on=held.date(day_id))


def _ball_words(hit: Sequence[Row]) -> str:
    counts = {
        "tough": sum(ball["tough"] for ball in hit if ball["taken"]),
        "marked for a clip": sum(ball["clip_at"] is not None for ball in hit),
        "struck out or still open": sum(not ball["taken"] for ball in hit),
    }
    said = (f"{count} {what}" for what, count in counts.items() if count)
    return sentence(many(sum(ball["taken"] for ball in hit), "ball"), *said)


def _on_the_day(held: Held) -> Iterator[Entry]:
    for row in held.of("attendance"):
        credit = f"{row['head_start']:g} balls credited" if row["head_start"] else ""
        words = sentence(_STATES[row["state"]], held.clock(row["at"], row["day_id"]), credit)
        yield Entry(words, "who is there", held.date(row["day_id"]))
    for row in held.of("standing"):
        before = f"before: {row['before']}" if row["before"] else ""
        words = sentence(row["station"], held.clock(row["since"], row["day_id"]), before)
        yield Entry(words, "place on court", held.date(row["day_id"]))
    for row in held.of("solo"):
        words = f"{row['reps']} at {row['station']}"
        words = sentence(words, held.clock(row["at"], row["day_id"]))
        yield Entry(words, "alone, as you said", held.date(row["day_id"]))
    for row in held.of("queue_swap"):
        clock = held.clock(row["at"], row["day_id"])
        words = sentence(f"in rotation {row['turn'] + 1}", clock)
        yield Entry(words, "changed places", held.date(row["day_id"]))
    for row in held.of("player_court"):
        clinic = held.clinic(row["clinic_id"])
        clock = times.minute_words(row["at"], clinic.place)
        words = sentence(f"{_MOVES[row['kind']]} court {row['court']}", clock, clinic.name)
        yield Entry(words, "your court", date.fromisoformat(row["date"]))
    rounds = {row["id"]: row["day_id"] for row in held.of("round")}
    days = {row["id"]: rounds[row["round_id"]] for row in held.of("ball")}
    spoken = Counter((days[row["ball_id"]], row["wording"]) for row in held.of("said"))
    for (day_id, wording), count in spoken.items():
        words = f"after {many(count, 'ball')}, {_ORDERS[wording]}"
        yield Entry(words, "the coach spoke", held.date(day_id))


def _planned(held: Held) -> Iterator[Entry]:
    for row in held.of("planned_round"):
        words = f"{held.drill_called(row['drill'])}, {row['purpose']}, {many(row['balls'], 'ball')}"
        yield Entry(
            words, f"for {held.clinic(row['clinic_id']).name}", date.fromisoformat(row["date"])
        )


def _second(held: Held) -> Iterator[Entry]:
    for coach, rows in _by(held.of("second_rating"), "coach_id").items():
        for sitting, given in _by(rows, "sitting").items():
            grades = Counter(row["grade"] for row in given)
            words = [f"{grades[grade]} {_GRADES[grade]}" for grade in (2, 1, 0)]
            words += [f"{grades[None]} not seen"] if grades[None] else []
            balls = many(len({row["ball_id"] for row in given}), "ball")
            label = f"by {held.coach(coach)}, sitting {sitting}"
            yield Entry(f"{balls}, grades: {listed(words)}", label)


def _put_right(held: Held) -> Iterator[Entry]:
    days = {row["id"]: row["day_id"] for row in held.of("round")}
    for row in held.of("amendment"):
        day_id = days[row["round_id"]]
        undone = "taken back again" if row["undoes"] else ""
        words = sentence(f"by {row['who']}" if row["who"] else "", undone)
        clock = held.clock(row["at"], day_id)
        yield Entry(sentence(words, clock), row["kind"], held.date(day_id))


def _at_home(held: Held) -> Iterator[Entry]:
    for row in held.of("home_yardstick"):
        cues = [held.cue(held.stroke_of(row["drill_id"]), cue) for cue in row["cues"].split()]
        words = sentence(
            held.drill(row["drill_id"]),
            held.clinic(row["clinic_id"]).name,
            f"watched by {held.text(row['watcher'])}" if row["watcher"] else "",
            listed(cues),
            f"grades ball by ball: {row['balls']}",
            "taken back" if row["taken_back"] else "",
        )
        yield Entry(words, "yardstick at home", date.fromisoformat(row["date"]))


def _films(held: Held, films: Sequence[str]) -> Iterator[Entry]:
    for name in films:
        yield Entry(held.text(name))
    if held.of("moved_hit"):
        yield Entry(f"{many(len(held.of('moved_hit')), 'ball')} with the hit moved in a film")
    clips, sittings = (_by(held.of(name), "page_id") for name in ("blind_ball", "blind_sitting"))
    for row in held.of("blind_page"):
        raters = [held.coach(one["coach_id"]) for one in sittings.get(row["id"], ())]
        cues = [held.cue(row["stroke"], cue) for cue in row["cues"].split()]
        words = [
            f"{many(len(clips.get(row['id'], ())), 'clip')} to rate without knowing the day",
            f"page {held.text(row['code'])}",
            f"{held.clinic(row['clinic_id']).name}",
            f"{held.stroke(row['stroke'])}: {listed(cues)}",
            f"rated by {listed(raters)}" if raters else "",
        ]
        yield Entry(sentence(*words))


def counted(held: Held) -> list[str]:
    """`1240 keys of the coach, each with its moment`: what is kept and only counted here."""
    return [
        f"{many(len(held.of(table)), thing)} {more}"
        for table, (thing, more) in _COUNTED.items()
        if held.of(table)
    ]


def commands(held: Held, name: str) -> list[str]:
    """For the coach: what prints the days and every ball, and what removes all of it."""
    who = quoted(name)
    days = {row["day_id"] for row in held.of("round")}
    dates = sorted(str(held.day(day)["date"]) for day in days)
    clinics = dict.fromkeys(held.clinic(held.day(day)["clinic_id"]).name for day in sorted(days))
    return [
        *(f"courtlog day --full --player {who} --date {on}: a day, by cue" for on in dates[-1:]),
        f"courtlog history --player {who}: every key, ball by ball",
        *(
            f"courtlog sheet out --clinic {quoted(clinic)}: every ball, of others too"
            for clinic in clinics
        ),
        f"courtlog erase {who}: removes all of it",
    ]


def _by(rows: Sequence[Row], column: str) -> dict[int, list[Row]]:
    found: dict[int, list[Row]] = {}
    for row in rows:
        found.setdefault(row[column], []).append(row)
    return found
