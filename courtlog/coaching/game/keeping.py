"""How long what is held on a player is kept, counted from the last day of their last clinic.

It is a time to be reminded at; nothing is ever deleted because it is over.
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class KeepTime:
    """How many months after the last day; 0: no time is set."""

    months: int

    def until(self, last_day: date | None) -> date | None:
        """The last date of that time; None where no time is set, or no day is over."""
        if last_day is None or not self.months:
            return None
        return months_after(last_day, self.months)

    def is_over(self, last_day: date | None, today: date) -> bool:
        """Whether that time has passed."""
        until = self.until(last_day)
        return until is not None and today > until


def months_after(day: date, months: int) -> date:
    """The same date so many months later, or the last of that month where it is shorter."""
    years, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(years, month + 1, min(day.day, monthrange(years, month + 1)[1]))
