"""The day and the trend as plain text: at most 80 columns, no colour, the same in a file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from io import StringIO

from rich.cells import cell_len, set_cell_size
from rich.console import Console
from rich.text import Text

from courtlog.coaching import times
from courtlog.coaching.plain import many, plain
from courtlog.measures.enough import Level, Question, level
from courtlog.reports.charts import key_to, share_chart
from courtlog.reports.day_facts import (
    CueFacts,
    DayFacts,
    NoteFacts,
    PlayerDay,
    RoundFacts,
    TrendFacts,
)
from courtlog.reports.sparks import spark

WIDTH = 78
CAUTION = "The player's words. If anything hurts: stop, and ask a licensed clinician."

_PAGE = Console(width=WIDTH, file=StringIO())

SPARK_DAYS = 9
"""Days of a sparkline that fit beside the counts."""

MOST_LABELS = 10
"""Days that can be written `day 7` under a chart; more are numbers alone."""

CHART_DAYS = 2
"""A chart needs two days; before that there is nothing to draw."""


def day_text(facts: DayFacts) -> str:
    """The whole printed day."""
    return "\n".join(_day(facts)) + "\n"


def trend_text(facts: TrendFacts) -> str:
    """One player's cues across the clinic."""
    return "\n".join(_trend(facts)) + "\n"


def _day(facts: DayFacts) -> Iterator[str]:
    where = [f"court {plain(court)}" for court in facts.courts]
    who = [f"coach {plain(coach)}" for coach in facts.coaches]
    title = " · ".join(
        [
            plain(facts.clinic),
            f"day {facts.number}",
            f"{times.date_words(facts.date)} {facts.date.year}",
            *where,
            *who,
        ]
    )
    yield from _lines_of(title)
    yield "=" * WIDTH
    played = [player for player in facts.players if player.balls]
    if not facts.players:
        yield "No balls yet on this day."
    for player in facts.players:
        yield ""
        yield from _player(player, facts.number)
    if len(played) > 1:
        yield ""
        yield from _group(played)
    yield ""
    yield "Made is counted out of balls seen; near counts as not made. Rated by the coach"
    yield "who taught. These are counts of one day: they claim no change."


def _player(player: PlayerDay, number: int) -> Iterator[str]:
    yield from _lines_of(_headline(player))
    yield "-" * WIDTH
    if not player.balls:
        yield "  No balls today."
    best = _best(player.cues)
    if best is not None:
        yield f"  Most often made: {plain(best.name)} ({best.stroke}), {best.today.words()}."
    for stroke in dict.fromkeys(cue.stroke for cue in player.cues):
        cues = [cue for cue in player.cues if cue.stroke == stroke]
        yield ""
        yield from _cue_table(stroke, cues, number)
        yield from _chart(cues, number)
    rounds = ", ".join(map(_round_words, player.rounds))
    yield from _block("rounds", [rounds] if rounds else [])
    yield from _block("notes", [_note_words(note) for note in player.notes])
    yield from _block("clips", [_note_words(clip) for clip in player.clips])
    if player.check_ins:
        yield from _block("arm", [*map(plain, player.check_ins), CAUTION])


def _headline(player: PlayerDay) -> str:
    tough = f", {player.tough} of them tough" if player.tough else ""
    minutes = "" if player.minutes is None else f" · {player.minutes:.0f} min"
    return (
        f"{plain(player.player)}   {many(player.balls, 'ball')}{tough}"
        f" · {many(len(player.rounds), 'round')}{minutes}"
    )


def _best(cues: Sequence[CueFacts]) -> CueFacts | None:
    """The cue made in the largest share, among those with the most balls to speak for them."""
    for bearing in (Level.NORMAL, Level.WEAK):
        able = [
            cue
            for cue in cues
            if cue.today.made and level(Question.RATE, cue.today.seen) is bearing
        ]
        if able:
            return max(able, key=lambda cue: cue.today.share or 0.0)
    return None


def _cue_table(stroke: str, cues: Sequence[CueFacts], number: int) -> Iterator[str]:
    yield (
        f"  {_cell(plain(stroke), 15)}{'made today':<17}{'not seen':<10}{'made before':<25}"
        f"{_day_range(number)}"
    )
    for cue in cues:
        yield (
            f"  {_cell(plain(cue.name), 15)}{cue.today.words():<17}{cue.today.unseen or '':<10}"
            f"{_before(cue):<25}{spark(day.counts for day in cue.days[-SPARK_DAYS:])}"
        )


def _before(cue: CueFacts) -> str:
    """`55 of 93 (59%) on day 4`, or `none`."""
    if cue.before is None:
        return "none"
    number, counts = cue.before
    return f"{counts.words()} on day {number}"


def _day_range(number: int) -> str:
    """The days of the sparkline: all of them, or the last that fit."""
    return "day 1" if number == 1 else f"days {max(1, number - SPARK_DAYS + 1)}-{number}"


def _chart(cues: Sequence[CueFacts], number: int) -> Iterator[str]:
    drawn = cues[:4]
    if sum(any(cue.days[at].counts.seen for cue in drawn) for at in range(number)) < CHART_DAYS:
        return
    shares = {plain(cue.name): [day.share for day in cue.days] for cue in drawn}
    yield ""
    word = "day " if number <= MOST_LABELS else ""
    days = [f"{word}{n + 1}" for n in range(number)]
    for line in share_chart(shares, days, WIDTH - 2).split("\n"):
        yield f"  {line}"
    yield f"  made of seen: {key_to(list(shares))}"


def _round_words(played: RoundFacts) -> str:
    why = "" if played.purpose == "practice" else f" ({played.purpose})"
    return f"{plain(played.name)}{why} {many(played.balls, 'ball')}"


def _note_words(note: NoteFacts) -> str:
    ball = "" if note.ball is None else f" ball {note.ball}"
    time = "" if note.time is None else f"{note.time}  "
    return f"{time}{note.drill}{ball}: {plain(note.text)}"


def _group(players: Sequence[PlayerDay]) -> Iterator[str]:
    yield "The group"
    yield "-" * WIDTH
    yield f"  {'player':<14}{'balls':>6}{'tough':>7}{'rounds':>8}{'min':>6}   made most often"
    for player in players:
        best = _best(player.cues)
        minutes = "-" if player.minutes is None else f"{player.minutes:.0f}"
        words = "none" if best is None else f"{plain(best.name)} {best.today.words()}"
        yield (
            f"  {_cell(plain(player.player), 14)}{player.balls:>6}{player.tough:>7}"
            f"{len(player.rounds):>8}{minutes:>6}   {words}"
        )


def _trend(facts: TrendFacts) -> Iterator[str]:
    title = f"{plain(facts.player)} · {plain(facts.clinic)} · {many(len(facts.dates), 'day')}"
    yield from _lines_of(title)
    yield "=" * WIDTH
    if not facts.cues:
        yield "No balls yet."
    for stroke in dict.fromkeys(cue.stroke for cue in facts.cues):
        cues = [cue for cue in facts.cues if cue.stroke == stroke]
        yield ""
        yield f"  {plain(stroke)}"
        for cue in cues:
            yield f"  {_cell(plain(cue.name), 15)}{spark(day.counts for day in cue.days)}"
            for at, day in enumerate(cue.days, 1):
                yield f"    day {at}  {times.date_words(day.date):<12}{day.counts.words()}"
        yield from _chart(cues, len(facts.dates))
    yield ""
    yield "All drills and purposes together, near counted as not made: a record of"
    yield "practice, not of learning."


def _cell(text: str, width: int) -> str:
    """The text in exactly this many cells, with … and a blank where it was cut."""
    if cell_len(text) < width:
        return set_cell_size(text, width)
    return set_cell_size(text, width - 2) + "… "


def _lines_of(text: str) -> Iterator[str]:
    """The text on as many lines as it needs."""
    for line in Text(text).wrap(_PAGE, WIDTH):
        yield line.plain.rstrip()


def _block(label: str, entries: Sequence[str]) -> Iterator[str]:
    """Entries under a label, each on lines of its own, wrapped with a hanging indent."""
    if not entries:
        return
    yield ""
    for entry in entries:
        for line in Text(entry).wrap(_PAGE, WIDTH - 10):
            yield f"  {label:<8}{line.plain.rstrip()}"
            label = ""
