"""The back of a take-home sheet as HTML: figures, charts, the four weeks, the table to fill in."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from courtlog.coaching.plans.homework import Homework, HomeYardstick
from courtlog.reports.layout.html_elements import escaped, paragraph, section, short_head
from courtlog.reports.layout.page import WIDTH
from courtlog.reports.takehome import takehome_words as said
from courtlog.reports.takehome.takehome_facts import TakeHome
from courtlog.reports.takehome.takehome_sheet import BALLS_A_LINE, home_sheet
from courtlog.reports.takehome.takehome_svg import curve_chart, days_chart

MOST_DAYS = 7
"""Days in the table of counts: the first and the latest; the chart has them all."""

MOST_UNBROKEN = 3
"""Columns of counts that stand beside the chart without a line break in a cell."""

MOST_CURVES = 3
"""Skill curves that stand side by side on paper."""


def back_parts(facts: TakeHome) -> Iterator[str]:
    """The sections of the back in order."""
    if facts.stroke:
        yield section("well", said.WELL, [paragraph(text) for text in facts.well])
        yield section("figures", said.changed_title(facts), _changed(facts))
        if facts.plan is not None:
            yield from _plan(facts, facts.plan)
    care = "".join(f"<li>{escaped(text)}</li>" for text in said.cautions(facts))
    yield section("care", said.CARE, [f"<ul>{care}</ul>"])


def _changed(facts: TakeHome) -> Iterator[str]:
    yield '<div class="words">'
    for cue in facts.cues if not facts.minor else ():
        words = " ".join(filter(None, (cue.learned, cue.reason, cue.practice)))
        yield f"<p><strong>{escaped(cue.name)}</strong>: {escaped(words)}</p>"
    for other in facts.others:
        yield paragraph(other)
    if said.reading(facts):
        yield f"<p>{escaped(said.reading(facts))}</p>"
    yield "</div>"
    chart = "" if facts.minor else days_chart(facts.cues, len(facts.dates))
    yield f'<div class="days">{chart}<div>{_counts(facts)}</div></div>'
    curves = [(cue, cue.curve) for cue in facts.cues if cue.curve is not None][:MOST_CURVES]
    if curves:
        yield '<div class="curves wide">'
        for number, (cue, curve) in enumerate(curves, 1):
            words = f"{cue.name}: {cue.curve_words}"
            yield f"<figure>{curve_chart(cue, curve, number)}"
            yield f"<figcaption>{escaped(words)}</figcaption></figure>"
        yield "</div>"
        yield f'<p class="wide">{escaped(said.CURVES)}</p>'


def _counts(facts: TakeHome) -> str:
    days = list(range(len(facts.dates)))
    if len(days) > MOST_DAYS:
        days = [0, *days[1 - MOST_DAYS :]]
    head = "".join(f'<th scope="col">{escaped(cue.name)}</th>' for cue in facts.cues)
    rows = "".join(
        f'<tr><th scope="row">{day + 1}</th>'
        + "".join(f"<td>{escaped(cue.day_words(day))}</td>" for cue in facts.cues)
        + "</tr>"
        for day in days
    )
    not_seen = "".join(map(paragraph, said.not_seen(facts, days)))
    wrap = "" if len(facts.cues) > MOST_UNBROKEN else ' class="unbroken"'
    return (
        f"<table{wrap}><caption>{escaped(said.counts_words(facts))}</caption>"
        f"<thead><tr>{short_head('day')}{head}</tr></thead><tbody>{rows}</tbody></table>{not_seen}"
    )


def _plan(facts: TakeHome, plan: Homework) -> Iterator[str]:
    if plan.drills:
        drills = [
            f"<div><h3>{escaped(said.drill_head(home))}</h3>"
            f"{_long_and_short(said.drill_words(home), said.drill_words(home, short=True))}</div>"
            for home in plan.drills
        ]
        yield section("alone", said.ALONE, drills)
        if plan.weeks:
            yield section("weeks", said.WEEKS, [_weeks(plan), paragraph(said.dose_words(plan))])
    if plan.yardstick is None:
        return
    cues = "".join(
        f"<dt>{escaped(cue.name)}</dt>"
        f"<dd>{escape(said.phrases(cue))}. Made: {escaped(cue.made)}</dd>"
        for cue in plan.yardstick.cues
    )
    yield section("phrases", said.SAY, [f"<dl>{cues}</dl>"])
    yield section("again", said.AGAIN, _again(facts, plan.yardstick))


def _weeks(plan: Homework) -> str:
    names = "".join(f'<th scope="col">{escaped(home.drill.name)}</th>' for home in plan.drills)
    rows = "".join(
        f'<tr><th scope="row">{week.number}</th><td>{week.sessions}</td>'
        + "".join(f"<td>{balls or '–'}</td>" for balls in week.balls)
        + f"<td>{week.total}</td></tr>"
        for week in plan.weeks
    )
    return (
        f"<table><caption>{escaped(said.DOSES)}</caption>"
        f"<thead><tr>{short_head('week')}{short_head('sessions')}{names}"
        f"{short_head('balls a week')}</tr></thead>"
        f"<tbody>{rows}</tbody></table>"
    )


def _again(facts: TakeHome, again: HomeYardstick) -> Iterator[str]:
    set_up = _long_and_short(said.set_up(again), said.set_up(again, short=True))
    rating = f"{said.RATING} {said.grades(again)} {said.TYPING}"
    yield f"<div>{paragraph(said.yardstick_words(again))}{set_up}{paragraph(rating)}</div>"
    yield f"<pre>{escape(chr(10).join(home_sheet(facts, again, WIDTH)))}</pre>"
    for _ in range(1 if again.on is not None else 2):
        yield f'<p class="wide">{escaped(said.PEN)}</p><div class="boxes wide">'
        for start in range(0, again.balls, BALLS_A_LINE):
            yield _boxes(again, start, min(start + BALLS_A_LINE, again.balls))
        yield "</div>"


def _long_and_short(whole: str, short: str) -> str:
    """The whole text on a screen, the short one on paper."""
    return f'<p class="screen">{escaped(whole)}</p><p class="paper">{escaped(short)}</p>'


def _boxes(again: HomeYardstick, start: int, end: int) -> str:
    """The paper table: a column a ball, a row a cue; a column read downwards is a sheet's group."""
    head = "".join(f'<th scope="col">{ball}</th>' for ball in range(start + 1, end + 1))
    rows = "".join(
        f'<tr><th scope="row">{escaped(cue.name)}</th>{"<td></td>" * (end - start)}</tr>'
        for cue in again.cues
    )
    return (
        f'<table class="pen"><caption>Balls {start + 1} to {end}</caption>'
        f'<thead><tr><th scope="col">cue</th>{head}</tr></thead><tbody>{rows}</tbody></table>'
    )
