"""Screens of the manual; a file loads when it is first opened, and Textual's Markdown then."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.courtside.screens.manual import topic_list
else:
    __getattr__ = loader(__name__)
