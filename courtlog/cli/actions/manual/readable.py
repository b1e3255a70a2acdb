"""A page of the manual as lines for a terminal: wrapped, with tables, code as it stands."""

from __future__ import annotations

import re
import shutil
from io import StringIO

from rich.console import Console, ConsoleOptions, JustifyMethod, RenderResult
from rich.markdown import CodeBlock, Heading, Markdown, TableDataElement
from rich.text import Text

WIDEST = 80
"""Longer lines are hard to read, however wide the terminal is."""

_LINK = re.compile(r"\[([^\]]+)\]\([^)\s]+\.md(?:#[^)\s]*)?\)")
_CODE = re.compile(r"^(?:\||    ).*$|`([^`]+)`", re.MULTILINE)
"""A row of a table or a line of code, which stay as they are, or a piece of code in a sentence."""

_NO_BREAK = "\ue000"
"""Stands for a blank at which no line is broken; a character of nobody's."""

_GAP = re.compile(r"\n{3,}")
_UNDERLINES = {"h1": "=", "h2": "-", "h3": "."}
_INDENT = "    "


class _Heading(Heading):
    """A heading at the left, underlined by its rank."""

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        yield self.text
        if self.tag in _UNDERLINES:
            yield Text(_UNDERLINES[self.tag] * min(self.text.cell_len, options.max_width))


class _CodeBlock(CodeBlock):
    """Lines to be typed: indented, and never wrapped."""

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        for line in str(self.text).rstrip().splitlines():
            yield Text(_INDENT + line, no_wrap=True, overflow="ignore")


class _Cell(TableDataElement):
    """A cell whose long words go on in the next line, so that nothing of them is left out."""

    def __init__(self, justify: JustifyMethod) -> None:
        super().__init__(justify)
        self.content.overflow = "fold"


class _Page(Markdown):
    """Markdown with our headings, code and cells."""

    elements = Markdown.elements | {
        "heading_open": _Heading,
        "code_block": _CodeBlock,
        "fence": _CodeBlock,
        "td_open": _Cell,
        "th_open": _Cell,
    }


def as_lines(page: str, width: int | None = None) -> str:
    """The page for a terminal of that width, else of this terminal's; at most WIDEST.

    A link to another page is told as that page's title. Code in a sentence keeps its marks.
    """
    wide = min(width or shutil.get_terminal_size((WIDEST, 24)).columns, WIDEST)
    told = _CODE.sub(_marked, _LINK.sub(r"\1", page))
    drawn = StringIO()
    console = Console(file=drawn, width=max(wide, 20), color_system=None, force_terminal=False)
    console.print(_Page(told, hyperlinks=False), crop=False)
    lines = [line.rstrip() for line in drawn.getvalue().replace(_NO_BREAK, " ").splitlines()]
    return _GAP.sub("\n\n", "\n".join(lines).strip("\n")) + "\n"


def _marked(found: re.Match[str]) -> str:
    code = found[1]
    return found[0] if code is None else f"`` `{_NO_BREAK.join(code.split())}` ``"
