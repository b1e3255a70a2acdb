"""Heat as a coach types and reads it: readings, own lines, the usual cautions, the rest timer.

It gives the number and the band of a weather service; nothing here says that play may go on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from courtlog.measures.court_day.heat_index import (
    FULL_SUN_ADDS_F,
    HOTTEST_F,
    Band,
    celsius,
    fahrenheit,
    heat_band,
    heat_index_f,
)

LIMITS = (
    f"The heat index is for shade and light wind; full sun can add up to {FULL_SUN_ADDS_F:.0f} F"
    f" (8 C). It is not for use in air above {HOTTEST_F:.0f} F (44 C). Source: Rothfusz 1990,"
    " National Weather Service SR 90-23. A hard court in sun is worse than the number: measure WBGT"
    " on court and follow your governing body."
)
DEFER = "Follow your club's and national body's heat rule."
REST = "Drink, shade, rest."
NO_LINES = (
    "No lines filled in: take them from your local rule. An example, not your rule: ITF events"
    " modify play at 30.1 C and suspend it at 32.2 C."
)
EMERGENCY = (
    "Confused, staggering or collapsing in the heat is an emergency: call for help and cool the"
    " player at once (Roberts and others 2021, Curr Sports Med Rep 20:470-484)."
)

_DEGREES = re.compile(r"(?P<number>-?[0-9]{1,3}(?:[.,][0-9]{1,2})?)\s*°?\s*(?P<unit>[CcFf]?)")
_COLDEST, _HOTTEST = -30.0, 60.0


@dataclass(frozen=True, slots=True)
class HeatReading:
    """Air temperature and measured WBGT in degrees Celsius, relative humidity in per cent."""

    celsius: float | None
    humidity: float | None
    wbgt: float | None
    at_ms: int

    @property
    def index_f(self) -> float | None:
        """Heat index in Fahrenheit; None without both numbers or above the formula's range."""
        if self.celsius is None or self.humidity is None:
            return None
        return heat_index_f(fahrenheit(self.celsius), self.humidity)

    @property
    def band(self) -> Band | None:
        """The service's word for the index as it is shown, in whole degrees Fahrenheit."""
        return None if self.index_f is None else heat_band(round(self.index_f))


@dataclass(frozen=True, slots=True)
class HeatLines:
    """The coach's own limits for a measured WBGT, in degrees Celsius, and whose rule they are."""

    modify: float | None = None
    stop: float | None = None
    rule: str = ""

    def crossed(self, wbgt: float) -> str:
        """`stop`, `modify`, or nothing: the highest line this WBGT has reached."""
        if self.stop is not None and wbgt >= self.stop:
            return "stop"
        return "modify" if self.modify is not None and wbgt >= self.modify else ""


def typed_degrees(text: str, name: str) -> float | None:
    """Degrees Celsius from `31`, `31C`, `88F`; None from nothing. ValueError with a sentence."""
    try:
        return degrees_of(text, name)
    except ValueError as error:
        raise ValueError(f"{error}.") from None


def degrees_of(text: str, name: str) -> float | None:
    """The same; ValueError with the words of a sentence, without its full stop."""
    if not text.strip():
        return None
    match = _DEGREES.fullmatch(text.strip())
    if match is None:
        raise ValueError(f"{text.strip()!r} is no {name}: write it like 31, 31C or 88F")
    degrees = float(match["number"].replace(",", "."))
    in_c = celsius(degrees) if match["unit"] in ("F", "f") else degrees
    if not _COLDEST <= in_c <= _HOTTEST:
        more = "" if match["unit"] else f". Write {match['number']}F if it is Fahrenheit"
        raise ValueError(f"{text.strip()} is no {name} a court has{more}")
    return in_c


def typed_humidity(text: str) -> float | None:
    """Relative humidity from `60` or `60%`; None from nothing. ValueError with a sentence."""
    words = text.strip().removesuffix("%").strip().replace(",", ".")
    if not words:
        return None
    if not re.fullmatch(r"[0-9]{1,3}(\.[0-9]{1,2})?", words) or float(words) > 100:
        raise ValueError(f"Humidity lies in 0 to 100 per cent, not {text.strip()!r}.")
    return float(words)


def reading_of(temperature: str, humidity: str, wbgt: str, at_ms: int) -> HeatReading:
    """A reading as typed. ValueError with a sentence for nonsense or nothing."""
    read = HeatReading(
        typed_degrees(temperature, "temperature"),
        typed_humidity(humidity),
        typed_degrees(wbgt, "WBGT"),
        at_ms,
    )
    if (read.celsius is None) is not (read.humidity is None):
        raise ValueError("The heat index needs temperature and humidity, both.")
    if read.celsius is None and read.wbgt is None:
        raise ValueError("Nothing to keep: write temperature and humidity, or a measured WBGT.")
    return read


def degrees(in_c: float) -> str:
    """`31 C (88 F)`."""
    return f"{in_c:.0f} C ({fahrenheit(in_c):.0f} F)"


def heat_words(reading: HeatReading, lines: HeatLines) -> tuple[str, ...]:
    """What the reading says, and the usual cautions, as sentences."""
    return tuple(_words(reading, lines))


def in_short(reading: HeatReading, lines: HeatLines) -> str:
    """The words for the top of the screen: a line that was reached, else the band, else nothing."""
    reached = "" if reading.wbgt is None else lines.crossed(reading.wbgt)
    if reached:
        return f"WBGT: {reached} line"
    if reading.celsius is not None and fahrenheit(reading.celsius) > HOTTEST_F:
        return "heat: over the bands"
    return f"heat: {reading.band}" if reading.band else ""


def _words(reading: HeatReading, lines: HeatLines) -> Iterator[str]:
    danger = False
    if reading.celsius is not None and reading.humidity is not None:
        air = f"{degrees(reading.celsius)}, humidity {reading.humidity:.0f} %"
        index = reading.index_f
        if index is None:
            danger = True
            yield f"{air}: hotter than the formula of the heat index goes, so it has no number."
        else:
            danger = reading.band in ("danger", "extreme danger")
            band = reading.band or "under the first band"
            yield f"{air}: heat index {degrees(celsius(index))}, {band}."
    if reading.wbgt is not None:
        danger = danger or bool(lines.crossed(reading.wbgt))
        yield _against(reading.wbgt, lines)
    yield LIMITS
    if danger:
        yield EMERGENCY
    yield f"{DEFER} {REST}"


def _against(wbgt: float, lines: HeatLines) -> str:
    if lines.modify is None and lines.stop is None:
        return f"WBGT {wbgt:.1f} C. {NO_LINES}"
    rule = f" ({lines.rule})" if lines.rule else ""
    reached = lines.crossed(wbgt)
    if reached:
        line = lines.stop if reached == "stop" else lines.modify
        return f"WBGT {wbgt:.1f} C has reached your {reached} line, {line:.1f} C{rule}."
    lowest = lines.stop if lines.modify is None else lines.modify
    name = "stop" if lines.modify is None else "modify"
    return f"WBGT {wbgt:.1f} C; your {name} line is {lowest:.1f} C{rule}. What you see comes first."


PROMPT = REST
"""What the prompt says; it names no volume of drink and no length of rest."""


def rest_due(started_at: int, last_prompt_at: int | None, now: int, minutes: int | None) -> bool:
    """Whether a prompt is due: `minutes` have passed since the last one, or since the start.

    Moments are milliseconds UTC. None as `minutes` (no timer set) is never due; a clock that went
    back is not due either. The caller keeps `last_prompt_at` when it shows PROMPT.
    """
    if minutes is None:
        return False
    since = started_at if last_prompt_at is None else max(started_at, last_prompt_at)
    return now - since >= minutes * 60_000
