"""The one rounding of a share to whole hundredths, for percentages and for points.

A half goes away from zero on both sides, so that a rise and the like fall read the same.
"""

from __future__ import annotations

from fractions import Fraction

FINEST = 1_000_000
"""A float stands for the nearest fraction with at most this denominator.

Shares of up to a thousand balls, and their differences, come back as the fractions they were. The
float of 29 of 200 lies just below 14.5 hundredths.
"""


def hundredths(share: Fraction | float) -> int:
    """A share, or a change of one, in whole hundredths."""
    exact = share if isinstance(share, Fraction) else Fraction(share).limit_denominator(FINEST)
    whole, rest = divmod(100 * abs(exact.numerator), exact.denominator)
    whole += 2 * rest >= exact.denominator
    return whole if exact >= 0 else -whole
