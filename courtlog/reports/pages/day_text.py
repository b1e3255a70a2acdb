"""The printed day: per player what is made, what changed, what was said, what comes tomorrow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from courtlog import times
from courtlog.coaching.plans.courts_fairness import CourtsFairness
from courtlog.coaching.voice.figures import LOOKS_BY_LUCK, looks_told
from courtlog.coaching.voice.statement import EVERYTHING, Statement
from courtlog.measures.common.hundredths import hundredths
from courtlog.plain_text import many, plain
from courtlog.reports.facts.models import (
    DayFacts,
    NoteFacts,
    PlayerDay,
    RoundFacts,
)
from courtlog.reports.layout import person_lines as minors
from courtlog.reports.layout.page import BETWEEN, WIDTH, block, cell, lines_of
from courtlog.reports.layout.person_lines import look_words
from courtlog.reports.pages.arm_text import arm_block, heat_block
from courtlog.reports.pages.change_text import day_blocks
from courtlog.reports.pages.cue_table import cue_table, days_chart


def day_text(facts: DayFacts) -> str:
    """The whole printed day."""
    lines = list(_day(facts))
    if looks_told(lines):
        lines += lines_of(LOOKS_BY_LUCK)
    return "\n".join(lines) + "\n"


def day_title(facts: DayFacts) -> str:
    """`Harbour Week · day 5 of 5 · Fri 15 May 2026 · court 2 · coach Ines`."""
    planned = facts.planned_days
    of = f" of {planned}" if planned is not None and facts.number <= planned else ""
    where = _one_or_more("court", facts.courts)
    who = _one_or_more("coach", facts.coaches)
    date = f"{times.date_words(facts.date)} {facts.date.year}"
    return BETWEEN.join([plain(facts.clinic), f"day {facts.number}{of}", date, *where, *who])


def _one_or_more(what: str, names: Sequence[str]) -> list[str]:
    """`court 2`, or `courts 1, 2`; nothing without a name."""
    words = {"court": "courts", "coach": "coaches"}[what] if len(names) > 1 else what
    return [f"{words} {', '.join(map(plain, names))}"] if names else []


def _day(facts: DayFacts) -> Iterator[str]:
    yield from lines_of(day_title(facts))
    yield "=" * WIDTH
    played = [player for player in facts.players if player.balls]
    if not facts.players:
        yield "No balls yet on this day."
    if len(played) > 1:
        yield ""
        yield from _group(played, facts.date, facts.fair)
        yield from _morning(facts)
    for sentence in facts.missing:
        yield ""
        yield from lines_of(plain(sentence))
    if facts.over_courts is not None:
        yield ""
        yield from _courts_table(facts.over_courts, facts.crowded)
    for player in facts.players:
        yield ""
        yield from _player(player, facts.number)
    yield from heat_block(facts.heat)
    yield ""
    if any(player.minor for player in facts.players):
        yield from lines_of(minors.ON_A_DAY)
    yield "Made is counted out of balls seen; near counts as not made. Rated by the coach"
    yield "who taught. Practice shows performance; rounds without help show learning."


def _player(player: PlayerDay, number: int) -> Iterator[str]:
    yield from lines_of(_headline(player))
    yield "-" * WIDTH
    if not player.balls:
        yield "  No balls today."
    for change in player.changes:
        if change.good:
            stroke = f" ({change.title})" if len(player.changes) > 1 else ""
            yield from lines_of(plain(f"Good: {change.good.short}{stroke}."), "  ")
    for look in player.looks:
        yield from block("saw", [f"{plain(look.title)} · {look_words(look)}"])
    for stroke in dict.fromkeys(cue.title for cue in player.cues):
        cues = [cue for cue in player.cues if cue.title == stroke]
        yield ""
        yield from cue_table(stroke, cues, number)
        yield from days_chart(cues, number)
    for change in player.changes:
        yield from day_blocks(change, number, several=len(player.changes) > 1)
    rounds = ", ".join(map(_round_words, player.rounds))
    yield from block("rounds", [rounds] if rounds else [])
    yield from block("notes", [_note_words(note) for note in player.notes])
    yield from block("clips", [_note_words(clip) for clip in player.clips])
    if player.alone:
        yield from block("alone", [f"as the player says: {', '.join(map(plain, player.alone))}"])
    yield from arm_block(player)
    if player.rung:
        yield from block("rung", [plain(player.rung)])
    if player.tomorrow:
        yield from block("tomorrow", [plain(player.tomorrow)])


def _headline(player: PlayerDay) -> str:
    tough = f", {player.tough} of them tough" if player.tough else ""
    minutes = "" if player.minutes is None else f" · {player.minutes:.0f} min"
    age = f" ({minors.MARK})" if player.minor else ""
    return (
        f"{plain(player.player)}{age}   {many(player.balls, 'ball')}{tough}"
        f" · {many(len(player.rounds), 'round')}{minutes}"
    )


def _round_words(played: RoundFacts) -> str:
    why = "" if played.purpose == "practice" else f" ({played.purpose})"
    return f"{plain(played.name)}{why} {many(played.balls, 'ball')}"


def _note_words(note: NoteFacts) -> str:
    ball = "" if note.ball is None else f" ball {note.ball}"
    time = "" if note.time is None else f"{note.time}  "
    return f"{time}{note.drill}{ball}: {plain(note.text)}"


def _group(players: Sequence[PlayerDay], on: date, fair: Sequence[str]) -> Iterator[str]:
    yield "The group"
    yield "-" * WIDTH
    yield f"  {'player':<14}{'balls':>6}{'tough':>7}{'rounds':>8}{'min':>6}   good"
    for player in players:
        good = player.changes[0].good.short if player.changes else ""
        minutes = "-" if player.minutes is None else f"{player.minutes:.0f}"
        yield (
            f"  {cell(plain(player.player), 14)}{player.balls:>6}{player.tough:>7}"
            f"{len(player.rounds):>8}{minutes:>6}   {plain(good) or 'none'}"
        )
    ready = [plain(p.player) for p in players if p.ready and not p.arm.holds(on)]
    yield from block("up", [f"ready to move up a rung: {', '.join(ready) or 'nobody yet'}"])
    slips = [
        f"{plain(player.player)} ({', '.join(map(plain, player.slipping))})"
        for player in players
        if player.slipping
    ]
    if slips:
        yield from block("slips", [f"was ready to move up, and is missed more: {', '.join(slips)}"])
    yield from block("shares", [plain(words) for words in fair])


def _morning(facts: DayFacts) -> Iterator[str]:
    if facts.morning:
        why = "as planned" if facts.morning_is_planned else "fewest balls first"
        yield from block("morning", [f"{why}: {', '.join(map(plain, facts.morning))}"])


def _courts_table(fair: CourtsFairness, crowded: Statement) -> Iterator[str]:
    """Everybody's part of today and of the clinic, fewest balls today first; then what it says."""
    yield "Over all courts"
    yield "-" * WIDTH
    yield f"  {'':<14}{'':<10}{'today':>22}{'':4}{'clinic':>22}"
    yield f"  {'player':<14}{'court':<10}{_SHARE_HEAD}{'':4}{_SHARE_HEAD}"
    for share in fair.shares:
        court = plain(" then ".join(share.courts)) or "-"
        today = _feed_part(share.balls, share.minutes, share.share)
        ever = _feed_part(share.clinic_balls, share.clinic_minutes, share.clinic_share)
        yield f"  {cell(plain(share.player), 14)}{cell(court, 10)}{today}{'':4}{ever}"
    yield "  Share: of all the minutes that anybody was at the feed."
    if crowded:
        for text in (crowded.sentence, *EVERYTHING.below(crowded)):
            yield from lines_of(plain(text), "  ")


_SHARE_HEAD = f"{'balls':>7}{'min':>7}{'share':>8}"


def _feed_part(balls: int, minutes: float | None, share: float | None) -> str:
    told = "-" if minutes is None else f"{minutes:.0f}"
    of_all = "-" if share is None else f"{hundredths(share)}%"
    return f"{balls:>7}{told:>7}{of_all:>8}"
