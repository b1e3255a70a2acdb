"""What the commands about films do. Each module loads when a command first asks for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.cli.actions.film import (
        add,
        beside_film,
        blind_page,
        blind_ratings,
        chapters,
        films,
        given_videos,
        hit,
        pair,
    )
else:
    __getattr__ = loader(__name__)
