"""The strip of the court screen: who is next, who is where and for how long."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from textual.content import Content

from courtlog import times
from courtlog.coaching.game.people import Player
from courtlog.coaching.on_court.next_act import Act
from courtlog.coaching.plans.day_fairness import (
    fairness,
)
from courtlog.coaching.plans.rotation import (
    FEED,
    REST,
    Court,
    Presence,
    TurnOrder,
)
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.surface.lettering import fit, fit_short
from courtlog.courtside.surface.surface import Part
from courtlog.plain_text import plain

TALL = 8
"""Lines from which everyone has a line."""

NAME, STATION = 12, 11

LONGEST_TURN_MS = 3 * 60 * 60 * 1000


class Strip(Part):
    """Two lines under the cues, or a column at the right of a wide terminal."""

    def subject(self, view: CourtView) -> object:
        seconds = view.turn_ms // 1000
        return view.rotation, view.day.id, seconds, view.now // 60_000, self.height >= TALL

    def text(self, view: CourtView, width: int) -> Content:
        if self.height >= TALL:
            return _column(view, width, self.height)
        first = " · ".join(filter(None, (_next(view), clock_words(view))))
        return Content(f"{fit_short(first, width)}\n{fit_short(_around(view), width)}")


def where_words(view: CourtView, player: Player) -> str:
    """`fence 4 min`, with the minutes since the player went there."""
    standing = view.rotation.standings.get(player.id)
    if standing is None:
        return ""
    return f"{plain(standing.station)} {_minutes(view, standing.since)}".strip()


def clock_words(view: CourtView) -> str:
    """`rotation 7 · 3:10 of 5:00`; one left open for hours has no time worth showing."""
    court, limit = view.rotation.court, view.rotation.plan.turn_seconds
    if not court.number:
        return ""
    if view.turn_ms > LONGEST_TURN_MS:
        return f"rotation {court.number}"
    of = f" of {times.span_words(1000 * limit)}" if limit else ""
    return f"rotation {court.number} · {times.span_words(view.turn_ms)}{of}"


def _next(view: CourtView) -> str:
    names = [plain(player.list_name) for player in view.rotation.waiting[:2]]
    if not view.roster:
        return f"nobody is on the roster yet: {view.key(Act.ADD_PLAYER)} adds a player"
    return "next up: " + ", then ".join(names) if names else "nobody else is waiting"


def stations_words(court: Court, where: Mapping[int, str]) -> list[str]:
    """`self-feed Tove`, `Maren + Ruben`, `rest Ilse, Pilou`: who is where but at the feed."""
    names_at: dict[str, list[str]] = {}
    for player in (*court.waiting, *(p for p in court.present if p.id in court.off)):
        station = where.get(player.id, FEED)
        if station != FEED:
            mark = " (off)" if player.id in court.off else ""
            names_at.setdefault(station, []).append(f"{plain(player.list_name)}{mark}")
    rest_last = sorted(names_at.items(), key=lambda pair: pair[0] == REST)
    paired = court.order is TurnOrder.PAIRS
    return [
        plain(station) if paired and station != REST else f"{plain(station)} {', '.join(names)}"
        for station, names in rest_last
    ]


def _around(view: CourtView) -> str:
    """`self-feed Tove · fence Ruben · rest Ilse, Pilou · late Jorun`."""
    court = view.rotation.court
    standings = view.rotation.standings
    parts = stations_words(court, {who: standing.station for who, standing in standings.items()})
    for presence in (Presence.LATE, Presence.LEFT):
        names = [plain(p.list_name) for p in court.roster if court.away.get(p.id) is presence]
        if names:
            parts.append(f"{presence} {', '.join(names)}")
    return " · ".join(parts)


def _column(view: CourtView, width: int, height: int) -> Content:
    lines = list(_column_lines(view, width))
    everyone = f"{view.key(Act.WHO_IS_WHERE)} shows everyone"
    kept = lines if len(lines) <= height else [*lines[: height - 1], (everyone, "")]
    return Content("\n").join(Content.styled(fit(text, width), style) for text, style in kept)


def _column_lines(view: CourtView, width: int) -> Iterator[tuple[str, str]]:
    court = view.rotation.court
    after = view.rotation.waiting
    yield clock_words(view), ""
    yield fit_short(_next(view), width), "bold"
    yield "", ""
    feeder = [player for player in court.present if player.id == court.at_feed]
    listed = [*feeder, *after, *(p for p in court.present if p.id in court.off and p not in feeder)]
    for player in listed:
        at_feed = player.id == court.at_feed
        standing = view.rotation.standings.get(player.id)
        since = "" if standing is None else _minutes(view, standing.since)
        station = "" if standing is None else plain(standing.station)
        if player.id in court.off:
            station = f"off the {FEED}" if standing is None else f"{station} (off)"
        line = f"{fit(('► ' if at_feed else '  ') + plain(player.list_name), NAME)} "
        line += f"{fit(station, STATION)} {since}"
        yield line, "bold" if at_feed else ""
    for player in court.roster:
        if player.id in court.away:
            yield f"  {fit(plain(player.list_name), NAME - 2)} {court.away[player.id]}", "$quiet"
    if len(court.turns) > 1:
        even = fairness(court, view.now)
        fair = "more than a rotation" if even.unfair else "fair"
        apart = f"{even.spread:g} apart" + " with credits" * bool(even.credits)
        yield "", ""
        yield f"balls {apart}: {fair}", "$quiet"


def _minutes(view: CourtView, since: int) -> str:
    until = view.now if view.paused_at is None else view.paused_at
    elapsed = max(0, until - since)
    return "" if elapsed > LONGEST_TURN_MS else f"{elapsed // 60_000} min"
