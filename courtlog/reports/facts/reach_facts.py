"""The facts of what planned yardsticks will be able to tell."""

from __future__ import annotations

from courtlog.coaching.plans.yardstick_reach import (
    LEAST_SEEN,
    OUT_OF,
    RISES,
    YardstickPair,
    YardstickReach,
)
from courtlog.reports.facts.plan_models import ReachFacts, ReachLine, RiseFacts


def reach_facts(reach: YardstickReach | None) -> ReachFacts | None:
    """The reach as facts; None where no yardstick will be compared."""
    if reach is None:
        return None
    advised = () if reach.advised is None else (_line(reach.advised, advised=True),)
    return ReachFacts(
        again=reach.again,
        lines=(*(_line(pair, advised=False) for pair in reach.planned), *advised),
        least=LEAST_SEEN,
        too_few=tuple(player.shown_name for player in reach.too_few),
    )


def _line(pair: YardstickPair, advised: bool) -> ReachLine:
    return ReachLine(
        first=pair.first,
        last=pair.last,
        of_hold=pair.of_hold,
        advised=advised,
        rises=tuple(
            RiseFacts(before=before, after=after, out_of=OUT_OF, chance=round(chance, 3))
            for (before, after), chance in zip(RISES, pair.found, strict=True)
        ),
    )
