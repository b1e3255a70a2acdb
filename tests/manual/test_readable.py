"""A page in a terminal: no line wider than it, tables that can be read, code as it is typed."""

from __future__ import annotations

import pytest

from courtlog import manual
from courtlog.cli.actions.manual.readable import as_lines

PAGE = """# Pad: keys

<!-- keys -->

Press `Esc l 2`
for [Late](late.md#who), `t` for **tough**.

## A table

| key | what |
|---|---|
| `u` `i` | one and two and three |

    courtlog   `day`  --clinic "A very long name that is longer than the line"

- one
- two and three and four and five
"""


def test_a_page() -> None:
    assert as_lines(PAGE, 30).splitlines() == [
        "Pad: keys",
        "=========",
        "",
        "Press `Esc l 2` for Late, `t`",
        "for tough.",
        "",
        "A table",
        "-------",
        "",
        " key  what",
        " ──────────────────────────",
        " u i  one and two and three",
        "",
        '    courtlog   `day`  --clinic "A very long name that is longer than the line"',
        "",
        " • one",
        " • two and three and four and",
        "   five",
    ]


def test_code_is_not_broken() -> None:
    assert as_lines("a b c d e f g h i `j k l m n`.", 20) == "a b c d e f g h i\n`j k l m n`.\n"


@pytest.mark.parametrize("name", manual.TOPICS)
def test_a_page_fits_the_terminal(name: str) -> None:
    """No line is wider, and no word is left out."""
    lines = as_lines(manual.page(name), 200).splitlines()
    assert [line for line in lines if len(line) > 80 or "…" in line] == []
    assert "<!--" not in "".join(lines)


def test_a_narrow_terminal_has_every_word_of_a_table() -> None:
    assert "…" not in as_lines(manual.page("settings"), 40)
