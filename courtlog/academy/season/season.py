"""The season of a folder: what the shipped questions say, and what courtlog makes of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date
from typing import Any

from courtlog.academy.engines.engine import Engine
from courtlog.academy.folder import Books, shipped
from courtlog.academy.season.changes import ChangeRows, change_fact, changes_of_strokes
from courtlog.academy.season.drills import drill_changes
from courtlog.academy.season.models import ClinicSeason, CourtLoad, Season, SeasonLine
from courtlog.errors import UnknownNameError
from courtlog.names import folded_name


def season(engine: Engine, books: Books, clinic: str | None = None) -> Season:
    """The season; of one clinic where it is named. Raises UnknownNameError."""

    def rows(question: str) -> list[tuple[Any, ...]]:
        return engine.rows(shipped("questions", question)).rows

    days: dict[int, list[date]] = defaultdict(list)
    names: dict[int, str] = {}
    planned: dict[int, int | None] = {}
    for clinic_id, name, planned_days, on in rows("clinic_days"):
        days[clinic_id].append(on)
        names[clinic_id], planned[clinic_id] = name, planned_days
    asked = _asked_for(names, clinic)
    change_rows = ChangeRows(
        *(rows(one) for one in ("yardsticks", "neighbours", "main_cues", "rated_twice"))
    )
    strokes = changes_of_strokes(change_rows, days, planned)
    twice = set(change_rows.rated_twice)
    load: dict[int, list[tuple[Any, ...]]] = defaultdict(list)
    for row in rows("load"):
        load[row[0]].append(row)
    clinics = []
    for clinic_id in asked:
        of_clinic = {of: one for of, one in strokes.items() if of.clinic_id == clinic_id}
        clinics.append(
            ClinicSeason(
                clinic_id=clinic_id,
                clinic=names[clinic_id],
                dates=tuple(days[clinic_id]),
                players=len({row[4] for row in load[clinic_id]}),
                balls=sum(row[7] for row in load[clinic_id]),
                changes=tuple(
                    change_fact(
                        of,
                        one.player,
                        cue,
                        comparison,
                        days[clinic_id],
                        (clinic_id, of.stroke, cue) in twice,
                    )
                    for of, one in of_clinic.items()
                    for cue, comparison in one.comparisons.items()
                ),
                tested_once=sum(one.tested_once for one in of_clinic.values()),
                courts=_courts(clinic_id, load[clinic_id]),
            )
        )
    return Season(
        books=len(books.read),
        books_left_out=tuple(books.left_out),
        minors_left_out=sum(entry.minors_left_out for entry in books.read.values()),
        clinics=tuple(clinics),
        families=sum(
            any(cue.planned for cue in one.comparisons.values())
            for of, one in strokes.items()
            if of.clinic_id in asked
        ),
        drills=drill_changes(strokes, rows("practised")),
        lines=tuple(
            line
            for row in rows("season")
            if (line := SeasonLine(**dict(zip(_LINE, row, strict=True)))).clinic_id in asked
        ),
    )


_LINE = tuple(SeasonLine.__dataclass_fields__)


def _asked_for(names: dict[int, str], clinic: str | None) -> list[int]:
    """All clinics, or those of that name."""
    if clinic is None:
        return list(names)
    wanted = [one for one, name in names.items() if folded_name(name) == folded_name(clinic)]
    if not wanted:
        known = ", ".join(sorted(set(names.values())))
        raise UnknownNameError(
            f"There is no clinic called {clinic!r}.",
            f"The folder has {known}." if known else "The folder has no day of a clinic yet.",
        )
    return wanted


def _courts(clinic_id: int, rows: Sequence[tuple[Any, ...]]) -> tuple[CourtLoad, ...]:
    courts = []
    for court in sorted({row[3] for row in rows}):
        here = [row for row in rows if row[3] == court]
        by_day: dict[date, list[int]] = defaultdict(list)
        for row in here:
            by_day[row[2]].append(row[7])
        courts.append(
            CourtLoad(
                clinic_id=clinic_id,
                court=court,
                days=len(by_day),
                players=len({row[4] for row in here}),
                balls=sum(row[7] for row in here),
                tough=sum(row[8] for row in here),
                fewest=min(row[7] for row in here),
                most=max(row[7] for row in here),
                widest=max(max(balls) - min(balls) for balls in by_day.values()),
            )
        )
    return tuple(courts)
