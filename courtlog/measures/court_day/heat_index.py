"""How hot it feels in the shade, by the formula of a weather service. Never says it is safe.

A hard court in the sun is worse than this number: measure on court and follow the local rule.
"""

from __future__ import annotations

from math import sqrt
from typing import Literal

from courtlog.measures.common.arguments import finite, within

Band = Literal["caution", "extreme caution", "danger", "extreme danger"]

HOTTEST_F = 112.0
"""The formula was fitted to no higher temperature."""

FULL_SUN_ADDS_F = 15.0
"""Full sunshine can add up to this much."""

_BANDS: tuple[tuple[float, Band], ...] = (
    (125.0, "extreme danger"),
    (103.0, "danger"),
    (90.0, "extreme caution"),
    (80.0, "caution"),
)


def fahrenheit(celsius: float) -> float:
    """Degrees Celsius in degrees Fahrenheit."""
    return finite(celsius, "temperature") * 9 / 5 + 32


def celsius(fahrenheit: float) -> float:
    """Degrees Fahrenheit in degrees Celsius."""
    return (finite(fahrenheit, "temperature") - 32) * 5 / 9


def heat_index_f(temp_f: float, humidity: float, *, adjusted: bool = True) -> float | None:
    """Heat index in Fahrenheit from air temperature and relative humidity (0-100 %).

    None above 112 F, where the formula is not for use. Source: Rothfusz LP 1990, National Weather
    Service technical attachment SR 90-23, with the service's two adjustments and its simple form.
    Without `adjusted` it is the bare regression, which the service's printed chart was made from.
    """
    t, r = finite(temp_f, "temp_f"), within(humidity, "humidity", 0, 100)
    if t > HOTTEST_F:
        return None
    simple = 0.5 * (t + 61.0 + (t - 68.0) * 1.2 + r * 0.094)
    if adjusted and (simple + t) / 2 < 80:
        return (simple + t) / 2
    index = (
        -42.379
        + 2.04901523 * t
        + 10.14333127 * r
        - 0.22475541 * t * r
        - 0.00683783 * t * t
        - 0.05481717 * r * r
        + 0.00122874 * t * t * r
        + 0.00085282 * t * r * r
        - 0.00000199 * t * t * r * r
    )
    if not adjusted:
        return index
    if r < 13:  # below 80 F air so dry has the simple form
        index -= (13 - r) / 4 * sqrt((17 - abs(t - 95)) / 17)
    if r > 85 and 80 <= t <= 87:
        index += (r - 85) / 10 * (87 - t) / 5
    return index


def heat_band(index_f: float) -> Band | None:
    """The weather service's word for a heat index in Fahrenheit; None below 80."""
    index = finite(index_f, "index_f")
    return next((word for lowest, word in _BANDS if index >= lowest), None)
