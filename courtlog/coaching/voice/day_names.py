"""Days as people name them: `Monday`, or `11 May` where a weekday would not say which one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from courtlog import times

WEEK = 7


@dataclass(frozen=True, slots=True)
class DayNames:
    """The names of a clinic's dates; `today` is set at the court, where a day is called so."""

    dates: tuple[date, ...]
    today: date | None = None

    @classmethod
    def of(cls, dates: Sequence[date], today: date | None = None) -> DayNames:
        """The names of these dates."""
        return cls(tuple(dates), today)

    def name(self, day: date) -> str:
        """`Monday`, or `11 May` in a clinic of more than a week."""
        dates = (*self.dates, day)
        if (max(dates) - min(dates)).days < WEEK:
            return times.weekday_word(day)
        return times.day_month_words(day)

    def brief(self, day: date) -> str:
        """`Mon`, or `11 May`."""
        return self.name(day)[:3] if self._by_weekday(day) else self.name(day)

    def brief_evening(self, day: date) -> str:
        """`Thu evening`, or `late 14 May`."""
        brief = self.brief(day)
        return f"{brief} evening" if self._by_weekday(day) else f"late {brief}"

    def brief_morning(self, day: date) -> str:
        """`Fri morning`, or `early 15 May`."""
        brief = self.brief(day)
        return f"{brief} morning" if self._by_weekday(day) else f"early {brief}"

    def on(self, day: date) -> str:
        """`on Monday`, or `today`."""
        return "today" if day == self.today else f"on {self.name(day)}"

    def morning(self, day: date) -> str:
        """`on Friday morning`, `early on 15 May`, or `this morning`."""
        if day == self.today:
            return "this morning"
        return (
            f"on {self.name(day)} morning"
            if self._by_weekday(day)
            else f"early on {self.name(day)}"
        )

    def evening(self, day: date) -> str:
        """`on Thursday evening`, or `late on 14 May`."""
        return (
            f"on {self.name(day)} evening" if self._by_weekday(day) else f"late on {self.name(day)}"
        )

    def _by_weekday(self, day: date) -> bool:
        return self.name(day) == times.weekday_word(day)
