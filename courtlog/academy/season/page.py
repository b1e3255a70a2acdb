"""The season on a page: what changed by clinic, how the balls went round, drills that go along."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog import times
from courtlog.academy.season.drills import NO_CAUSE
from courtlog.academy.season.models import Change, ClinicSeason, CourtLoad, DrillChange, Season
from courtlog.coaching.voice.statement import Depth
from courtlog.measures.common.enough import DOUBT
from courtlog.plain_text import capital, many, plain
from courtlog.reports.layout.page import cell, lines_of

MOST = 12
"""Changes of a clinic that are printed, and drills of all; `--full` prints each."""

_INDENT = "  "
_GROUPS = (
    ("A real gain", lambda one: one.is_clear and one.direction > 0),
    ("May be a gain", lambda one: not one.is_clear and one.direction > 0),
    ("A real drop", lambda one: one.is_clear and one.direction < 0),
    ("May be a drop", lambda one: not one.is_clear and one.direction < 0),
)


def season_page(season: Season, full: bool, depth: Depth) -> str:
    """The page; `full` has every change, drill and line."""
    return "\n".join(_lines(season, full, depth)) + "\n"


def _lines(season: Season, full: bool, depth: Depth) -> Iterator[str]:
    balls = sum(clinic.balls for clinic in season.clinics)
    books = many(season.books, "book")
    if season.clinics:
        yield f"{many(len(season.clinics), 'clinic')} in {books}: {many(balls, 'ball')}."
    else:
        yield f"There is no day of a clinic in {books} yet."
    if season.minors_left_out:
        yield f"{many(season.minors_left_out, 'minor')} stayed at home when the books were added."
    for book in season.books_left_out:
        yield f"Book {book} is of a later courtlog, and is left out. Update courtlog."
    for clinic in season.clinics:
        yield ""
        yield from _clinic(clinic, full, depth)
    if season.clinics:
        yield ""
        yield from _luck(season)
    if season.drills:
        yield ""
        yield from _drills(season.drills, full)
    if full:
        yield ""
        yield from _table(season)
    elif season.lines:
        yield ""
        yield "--full prints every cue, player and purpose; --json all there is."


def _clinic(clinic: ClinicSeason, full: bool, depth: Depth) -> Iterator[str]:
    name = capital(plain(clinic.clinic))
    yield from lines_of(
        f"{name}: {many(len(clinic.dates), 'day')} from {times.date_words(clinic.dates[0])},"
        f" {many(clinic.players, 'player')}, {many(clinic.balls, 'ball')}"
    )
    yield from _changes(clinic, full, depth)
    yield from _loads(clinic.courts)


def _changes(clinic: ClinicSeason, full: bool, depth: Depth) -> Iterator[str]:
    changes = clinic.changes
    if not changes:
        yield f"{_INDENT}Nothing was tested twice, so then and now cannot be compared."
        return
    left = MOST
    for title, belongs in _GROUPS:
        group = sorted(
            filter(belongs, changes), key=lambda one: (-abs(one.value or 0), one.player, one.cue)
        )
        if group:
            yield f"{_INDENT}{title}: {len(group)} of {many(len(changes), 'cue')}"
        shown = group if full else group[: max(left, 0)]
        left -= len(shown)
        for one in shown:
            yield from _change(one, depth)
        if len(shown) < len(group):
            yield f"{_INDENT * 2}and {len(group) - len(shown)} more with --full"
    untold = [one for one in changes if not one.direction]
    if untold:
        yield from lines_of(
            f"These balls cannot tell of {many(len(untold), 'other cue')}.", _INDENT
        )
    if full:
        for one in untold:
            yield from _change(one, depth)
    if clinic.tested_once:
        yield from lines_of(
            f"{many(clinic.tested_once, 'cue')} tested once: play that round again to compare.",
            _INDENT,
        )


def _change(one: Change, depth: Depth) -> Iterator[str]:
    yield from lines_of(f"{plain(one.player)}, {one.stroke}", _INDENT * 2)
    yield from lines_of(plain(one.said), _INDENT * 3)
    if depth.why and one.reason:
        yield from lines_of(plain(one.reason), _INDENT * 4)
    if depth.figures and one.value is not None:
        yield f"{_INDENT * 4}{one.value:+.2f}, from {one.low:+.2f} to {one.high:+.2f}"


def _loads(courts: Sequence[CourtLoad]) -> Iterator[str]:
    yield f"{_INDENT}court       days  players   balls  tough  a player and day"
    for one in courts:
        yield (
            f"{_INDENT}{cell(plain(one.court) or 'no name', 10)}{one.days:>6}{one.players:>9}"
            f"{one.balls:>8}{one.tough:>7}  {one.fewest} to {one.most}, widest day {one.widest}"
        )


def _luck(season: Season) -> Iterator[str]:
    if season.families:
        most = max(1, round(season.families * DOUBT))
        yield from lines_of(
            f"{many(season.families, 'stroke')} of a player could show a real gain or drop."
            f" Chance alone makes about {most} of them look so."
        )


def _drills(drills: Sequence[DrillChange], full: bool) -> Iterator[str]:
    yield "Who practised a drill, and who went up"
    yield from lines_of(NO_CAUSE, _INDENT)
    told = [one for one in drills if one.direction] + [one for one in drills if not one.direction]
    for one in told if full else told[:MOST]:
        others = f"{one.up_without} of {one.players_without} who did not"
        counts = (
            f"{plain(one.drill)}: {one.up_with} of {many(one.players_with, 'player')} who did,"
            f" {others if one.players_without else 'and nobody went without it'}."
        )
        yield from lines_of(f"{counts} {one.said}", _INDENT)
    if len(told) > MOST and not full:
        yield f"{_INDENT}and {len(told) - MOST} more with --full"


def _table(season: Season) -> Iterator[str]:
    yield f"{'player':<18}{'stroke':<11}{'cue':<12}{'purpose':<10}  made  near missed not seen"
    clinic = 0
    for one in season.lines:
        if one.clinic_id != clinic:
            clinic = one.clinic_id
            yield cell(capital(plain(one.clinic)), 78).rstrip()
        words = (
            cell(plain(word), width)
            for word, width in (
                (one.player, 18),
                (one.stroke, 11),
                (one.cue, 12),
                (one.purpose, 10),
            )
        )
        counts = f"{one.made:>6}{one.near:>6}{one.missed:>7}{one.not_seen:>9}"
        yield "".join(words) + counts
