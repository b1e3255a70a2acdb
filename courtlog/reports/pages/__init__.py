"""The printed pages, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.pages import (
        agree_text,
        arm_text,
        change_text,
        clinic_text,
        cue_table,
        day_text,
        past_steps_text,
        plan_text,
        player_text,
        review_aloud,
        review_text,
        roster_text,
    )
else:
    __getattr__ = loader(__name__)
