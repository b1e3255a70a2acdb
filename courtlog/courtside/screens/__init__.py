"""The screens that lie over the court, one file for each; a file loads when it is first opened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.courtside.screens import (
        amend,
        blank,
        board,
        care,
        courts,
        feeds_screen,
        film,
        help_screen,
        manual,
        paper,
        people,
        plan,
        printed_page,
        reps,
        review,
        second_look,
        setup,
        teach,
        trend_player,
        trends,
    )
else:
    __getattr__ = loader(__name__)
