"""The text of a page: Textual's Markdown, with one widget for a line of a list and for a table."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from types import new_class
from typing import ClassVar

from markdown_it.token import Token
from rich import box
from rich.console import Console, ConsoleOptions, RenderResult
from rich.segment import Segment
from rich.table import Table
from rich.text import Text
from textual.content import Content
from textual.geometry import Region
from textual.strip import Strip
from textual.widgets import Markdown, Static
from textual.widgets.markdown import MarkdownBlock, MarkdownFence

from courtlog import manual
from courtlog.courtside.screens.manual.page_markup import LIST_LINE, TABLE, page_parser
from courtlog.manual.search import Place

_GAP = 2
"""Blank cells between two columns."""

FOUND = "bold reverse"
"""How a word looks that was searched for."""


class Code(MarkdownFence):
    """Lines to type, in one colour: no guess is made at what language they are."""

    @classmethod
    def highlight(cls, code: str, language: str, ansi: bool = False, dark: bool = False) -> Content:
        return Content(code)


class LightBlock(MarkdownBlock):
    """A block for which the page keeps the styles within a line."""

    @classmethod
    @cache
    def _get_component_classes(cls) -> frozenset[str]:
        return frozenset()


class ListLine(LightBlock):
    """A paragraph of a list, its sign before the first line of it."""

    def __init__(self, markdown: Markdown, token: Token) -> None:
        super().__init__(markdown, token)
        self._sign = " " * 2 * (token.meta["depth"] - 1) + f"{token.meta['sign'] or ' '} "
        self.styles.padding = (0, 0, 0, len(self._sign))
        self.set_class(token.meta["is_last"], "last")
        self.build_from_token(token)

    def render_lines(self, crop: Region) -> list[Strip]:
        strips = super().render_lines(crop)
        if crop.y == crop.x == 0 and strips:
            width = len(self._sign)
            sign = Segment(self._sign, self.rich_style)
            strips[0] = Strip.join([Strip([sign], width), strips[0].crop(width)])
        return strips


class WholeTable(LightBlock):
    """A table, as wide as its words or as the screen."""

    def __init__(self, markdown: Markdown, token: Token, searched: re.Pattern[str]) -> None:
        super().__init__(markdown, token)
        rows = [[_cell(cell, searched) for cell in row] for row in token.meta["rows"]]
        self.update(_Rows(rows))


@dataclass(frozen=True, slots=True)
class _Rows:
    """Rows of cells, the first one the head."""

    rows: Sequence[Sequence[Text]]

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        head, *rows = self.rows
        columns = zip(*self.rows, strict=True)
        wide = sum(max(cell.cell_len for cell in column) + _GAP for column in columns)
        fits = wide - _GAP <= options.max_width
        # Where cells are broken, columns stand closer and a row is parted from the next one.
        table = Table(
            box=box.SIMPLE_HEAD,
            show_edge=False,
            pad_edge=False,
            padding=(0, _GAP if fits else 1, 0, 0),
            leading=0 if fits else 1,
        )
        for cell in head:
            parts = cell.split("-")
            table.add_column(cell if fits else Text("-\n").join(parts), overflow="fold")
        for row in rows:
            table.add_row(*row)
        yield table


def _cell(inline: Token, searched: re.Pattern[str]) -> Text:
    """The words of a cell; whatever stands out in it is bold."""
    text, depth = Text(), 0
    for token in inline.children or ():
        depth += token.nesting
        stands_out = depth or token.type == "code_inline"
        text.append(token.content, "bold" if stands_out else "")
    text.highlight_regex(searched, FOUND)
    return text


_BLOCKS = {
    name: new_class(block.__name__, (block, LightBlock))
    for name, block in (Markdown.BLOCKS | {"fence": Code, "code_block": Code}).items()
}


class PageText(Markdown):
    """A page of the manual; `links` are the places it leads to, once it is shown."""

    COMPONENT_CLASSES: ClassVar[set[str]] = MarkdownBlock.COMPONENT_CLASSES
    """Styles within a line, kept once for the page: for each block they cost as much as it does."""

    def __init__(self, topic: str, searched: Sequence[str]) -> None:
        """`searched` are words to mark."""
        self.links: list[Place] = []
        super().__init__(
            manual.page(topic),
            parser_factory=lambda: page_parser(topic, self.links),
            open_links=False,
        )
        self._searched = re.compile("|".join(map(re.escape, searched)) or "(?!)", re.IGNORECASE)

    def get_block_class(self, block_name: str) -> type[MarkdownBlock]:
        return _BLOCKS[block_name]

    def unhandled_token(self, token: Token) -> MarkdownBlock | None:
        if token.type == LIST_LINE:
            return ListLine(self, token)
        return WholeTable(self, token, self._searched) if token.type == TABLE else None

    def mark_searched(self) -> None:
        """Mark the words that were searched for."""
        for part in self.query(Static):
            content = part.content
            if isinstance(content, Content) and (found := self._found_in(content)):
                for start, end in found:
                    content = content.stylize(FOUND, start, end)
                part.update(content)

    def row_of(self, line: int) -> int:
        """The row at which a line of the page is shown; nearly so within a long table."""
        row = 0
        for block in self.query(MarkdownBlock):
            start, end = block.source_range
            if start <= line < max(end, start + 1):
                place = block.virtual_region
                row = place.y + place.height * (line - start) // max(end - start, 1)
        return row

    def _found_in(self, content: Content) -> list[tuple[int, int]]:
        return [found.span() for found in self._searched.finditer(content.plain)]
