"""The Markdown of a page as the court shows it: links have keys, lists and tables are whole.

Textual makes four widgets of an item of a list, and one of each cell of a table. A page of some
hundred lines would take a second to open. Here each becomes one token, for one widget.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markdown_it import MarkdownIt
from markdown_it.rules_core import StateCore
from markdown_it.token import Token

from courtlog.manual.search import Place, link_target

LINK_KEYS = "123456789acdehimnoprtuvwxyz"
"""Keys of the links of a page, in the order of the page; the others scroll, search or leave."""

LIST_LINE, TABLE = "list_line", "table_whole"
"""Types of our tokens: a line of a list, with its `sign` and `depth`; a table, with its `rows`."""

SIGN = "•"


def page_parser(topic: str, links: list[Place]) -> MarkdownIt:
    """A parser of the pages; it adds each other place that the page leads to, in order."""

    def mark_links(state: StateCore) -> None:
        for token in state.tokens:
            if token.type == "inline":
                token.children = list(_with_keys(token.children or [], topic, links))

    def fold(state: StateCore) -> None:
        state.tokens = list(_folded(state.tokens))

    parser = MarkdownIt("commonmark").enable("table")
    parser.core.ruler.push("mark_links", mark_links)
    parser.core.ruler.push("fold", fold)
    return parser


def _with_keys(tokens: Sequence[Token], topic: str, links: list[Place]) -> Iterator[Token]:
    """The tokens of a line, its key behind each link; an address is shown and leads nowhere."""
    href = shown = ""
    target: Place | None = None
    for token in tokens:
        if token.type == "link_open":
            href, shown = str(token.attrs["href"]), ""
            target = link_target(topic, href)
        elif token.type == "link_close" and target is None:
            if shown != href:
                yield _text(f" ({href})")
            continue
        shown += token.content
        if token.type != "link_open" or target is not None:
            yield token
        if token.type == "link_close" and target is not None:
            if target not in links:
                links.append(target)
            number = links.index(target)
            if number < len(LINK_KEYS):
                yield Token("strong_open", "strong", 1)
                yield _text(f"[{LINK_KEYS[number]}]")
                yield Token("strong_close", "strong", -1)


def _text(content: str) -> Token:
    return Token("text", "", 0, content=content)


def _folded(tokens: Sequence[Token]) -> Iterator[Token]:
    """Each table and each paragraph of a list as one token; everything else as it is."""
    table: Token | None = None
    line: Token | None = None
    depth, sign, in_item = 0, "", False
    for token in tokens:
        kind = token.type
        if kind == "table_open":
            table = Token(TABLE, "", 0, map=token.map, meta={"rows": []})
        elif kind == "table_close" and table is not None:
            yield table
            table = None
        elif table is not None:
            if kind == "tr_open":
                table.meta["rows"].append([])
            elif kind == "inline":
                table.meta["rows"][-1].append(token)
        elif kind in ("bullet_list_open", "ordered_list_open"):
            depth += 1
        elif kind in ("bullet_list_close", "ordered_list_close"):
            depth -= 1
            if not depth and line is not None:
                line.meta["is_last"] = True
        elif kind in ("list_item_open", "list_item_close"):
            sign = f"{token.info}." if token.info else SIGN
        elif depth and kind in ("paragraph_open", "paragraph_close"):
            in_item = kind == "paragraph_open"
        elif in_item and kind == "inline":
            line = Token(LIST_LINE, "", 0, map=token.map, children=token.children)
            line.meta = {"sign": sign, "depth": depth, "is_last": False}
            sign = ""
            yield line
        else:
            yield token
