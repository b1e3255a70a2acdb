"""What the commands do. Each module loads when a command first asks for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.cli.actions import (
        academy,
        agree,
        backups,
        clinics,
        completion,
        courts,
        demo,
        drills,
        erase,
        exchange,
        film,
        gather,
        heat,
        history,
        manual,
        pages,
        paper,
        plan,
        rosters,
        settings,
        sheets,
        takehome,
    )
else:
    __getattr__ = loader(__name__)
