"""TAB in a shell: what a line may go on with, and how a shell learns to ask."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.cli.actions.completion import (
        answer,
        book_names,
        drill_names,
        installing,
        setting_names,
        typed_words,
    )
else:
    __getattr__ = loader(__name__)
