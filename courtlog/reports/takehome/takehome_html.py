"""The take-home sheet as one HTML file: no script, nothing from outside, one printed page.

Every text goes through `_said`: hidden characters made visible, markup escaped.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from html import escape

from courtlog.coaching.plans.homework import Homework, HomeYardstick
from courtlog.plain_text import plain
from courtlog.reports.layout.page import WIDTH
from courtlog.reports.takehome import takehome_words as said
from courtlog.reports.takehome.takehome_facts import TakeHome
from courtlog.reports.takehome.takehome_sheet import BALLS_A_LINE, home_sheet
from courtlog.reports.takehome.takehome_style import STYLE, size_class
from courtlog.reports.takehome.takehome_svg import curve_chart, days_chart

_TAG = re.compile(r"<desc.*?</desc>|<[^>]*>")

MOST_TEXT = 9_000
"""Characters of a printed page: with more, the drills are told in short."""

MOST_DAYS = 7
"""Days in the table of counts: the first and the latest; the chart has them all."""


def takehome_html(facts: TakeHome) -> str:
    """The whole file."""
    body = "\n".join(_body(facts))
    if _length(body) > MOST_TEXT:
        body = "\n".join(_body(facts, short=True))
    title = f"{facts.player}, to take home: {facts.clinic}"
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{_said(title)}</title>\n<style>\n{STYLE}</style>\n</head>\n"
        f'<body class="{size_class(_length(body))}">\n{body}\n</body>\n</html>\n'
    )


def _body(facts: TakeHome, short: bool = False) -> Iterator[str]:
    yield f"<header><h1>{_said(facts.player)}, to take home</h1>"
    yield f"<p>{escape(said.headline(facts))}</p></header>\n<main>"
    if not facts.stroke:
        yield f"<p>{_said(said.NO_BALLS)}</p>"
    else:
        yield _section("well", said.WELL, [_paragraph(text) for text in facts.well])
        yield _section("changed", said.CHANGED, _changed(facts))
        if facts.plan is None or not facts.plan.drills:
            yield _section("alone", said.ALONE, [_paragraph(said.NO_DRILLS)])
        if facts.plan is not None:
            yield from _plan(facts, facts.plan, short)
    care = "".join(f"<li>{_said(text)}</li>" for text in said.cautions(facts))
    yield _section("care", said.CARE, [f"<ul>{care}</ul>"])
    yield "</main>"


def _changed(facts: TakeHome) -> Iterator[str]:
    yield '<div class="words">'
    for cue in facts.cues:
        practice = f" {_said(cue.practice)}" if cue.practice else ""
        yield f"<p><strong>{_said(cue.name)}</strong>: {_said(cue.learned)}{practice}</p>"
    for other in facts.others:
        yield _paragraph(other)
    yield f'<p class="small">{_said(f"{said.READING} {said.meanings(facts)}".strip())}</p></div>'
    yield f'<div class="days">{days_chart(facts.cues, len(facts.dates))}{_counts(facts)}</div>'
    curves = [(cue, cue.curve) for cue in facts.cues[:4] if cue.curve is not None]
    if curves:
        yield '<div class="curves wide">'
        for number, (cue, curve) in enumerate(curves, 1):
            words = f"{cue.name}: {cue.curve_words}"
            yield f"<figure>{curve_chart(cue, curve, number)}"
            yield f"<figcaption>{_said(words)}</figcaption></figure>"
        yield "</div>"
        yield f'<p class="small wide">{_said(said.CURVES)}</p>'


def _counts(facts: TakeHome) -> str:
    days = list(range(len(facts.dates)))
    if len(days) > MOST_DAYS:
        days = [0, *days[1 - MOST_DAYS :]]
    head = "".join(f'<th scope="col">{_said(cue.name)}</th>' for cue in facts.cues)
    rows = "".join(
        f'<tr><th scope="row">{day + 1}</th>'
        + "".join(f"<td>{_said(cue.day_words(day))}</td>" for cue in facts.cues)
        + "</tr>"
        for day in days
    )
    not_seen = "".join(f'<p class="small">{_said(line)}</p>' for line in said.not_seen(facts, days))
    return (
        f"<table><caption>{_said(said.counts_words(facts))}</caption>"
        f"<thead><tr>{_short('day')}{head}</tr></thead><tbody>{rows}</tbody></table>{not_seen}"
    )


def _plan(facts: TakeHome, plan: Homework, short: bool) -> Iterator[str]:
    if plan.drills:
        drills = [
            f"<div><h3>{_said(said.drill_head(home))}</h3>"
            f"{_paragraph(said.drill_words(home, short))}</div>"
            for home in plan.drills
        ]
        yield _section("alone", said.ALONE, drills)
        if plan.weeks:
            yield _section("weeks", said.WEEKS, [_weeks(plan), _paragraph(said.dose_words(plan))])
        elif facts.pain is not None:
            yield _section("weeks", said.WEEKS, [_paragraph(said.no_doses(facts))])
    if plan.yardstick is None:
        return
    cues = "".join(
        f"<dt>{_said(cue.name)}</dt><dd>{escape(said.phrases(cue))}. Made: {_said(cue.made)}</dd>"
        for cue in plan.yardstick.cues
    )
    yield _section("say", said.SAY, [f"<dl>{cues}</dl>"])
    yield _section("again", said.AGAIN, _again(facts, plan.yardstick, short))


def _weeks(plan: Homework) -> str:
    names = "".join(f'<th scope="col">{_said(home.drill.name)}</th>' for home in plan.drills)
    rows = "".join(
        f'<tr><th scope="row">{week.number}</th><td>{week.sessions}</td>'
        + "".join(f"<td>{balls or '–'}</td>" for balls in week.balls)
        + f"<td>{week.total}</td></tr>"
        for week in plan.weeks
    )
    return (
        f"<table><caption>{_said(said.DOSES)}</caption>"
        f"<thead><tr>{_short('week')}{_short('sessions')}{names}"
        f"{_short('balls a week')}</tr></thead>"
        f"<tbody>{rows}</tbody></table>"
    )


def _again(facts: TakeHome, again: HomeYardstick, short: bool) -> Iterator[str]:
    words = (said.yardstick_words(again), said.set_up(again, short))
    yield f"<div>{''.join(map(_paragraph, words))}</div>"
    yield f"<div>{_paragraph(f'{said.RATING} {said.grades(again)} {said.TYPING}')}"
    yield f"<pre>{escape(chr(10).join(home_sheet(facts, again, WIDTH)))}</pre></div>"
    for _ in range(1 if again.on is not None else 2):
        yield f'<p class="wide">{_said(said.PEN)}</p><div class="boxes wide">'
        for start in range(0, again.balls, BALLS_A_LINE):
            yield _boxes(again, start, min(start + BALLS_A_LINE, again.balls))
        yield "</div>"


def _boxes(again: HomeYardstick, start: int, end: int) -> str:
    """The paper table: a column a ball, a row a cue; a column read downwards is a sheet's group."""
    head = "".join(f'<th scope="col">{ball}</th>' for ball in range(start + 1, end + 1))
    rows = "".join(
        f'<tr><th scope="row">{_said(cue.name)}</th>{"<td></td>" * (end - start)}</tr>'
        for cue in again.cues
    )
    return (
        f'<table class="pen"><caption>Balls {start + 1} to {end}</caption>'
        f'<thead><tr><th scope="col">cue</th>{head}</tr></thead><tbody>{rows}</tbody></table>'
    )


def _short(title: str) -> str:
    return f'<th scope="col" class="short">{title}</th>'


def _section(key: str, title: str, parts: Sequence[str] | Iterator[str]) -> str:
    inside = "\n".join(parts)
    return (
        f'<section class="{key}" aria-labelledby="{key}-head"><h2 id="{key}-head">{_said(title)}'
        f"</h2>\n{inside}</section>"
    )


def _paragraph(text: str) -> str:
    return f"<p>{_said(text)}</p>"


def _length(body: str) -> int:
    return len(_TAG.sub("", body))


def _said(text: str) -> str:
    return escape(plain(text))
