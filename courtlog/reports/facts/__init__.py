"""The facts that are printed and given as JSON, put together from the book."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.facts import (
        agree_facts,
        answer_facts,
        arm_facts,
        cue_facts,
        day_facts,
        models,
        plan_facts,
        player_day_facts,
    )
else:
    __getattr__ = loader(__name__)
