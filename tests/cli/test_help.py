"""Every help text is read whole: no line of a list is cut, no sentence is long."""

from __future__ import annotations

import re

import pytest

from tests.cli.program import Home
from tests.faults.words import commands

PATHS = [path for path, _ in commands()]


@pytest.mark.parametrize("path", PATHS, ids=" ".join)
def test_no_help_is_cut_short_or_long_winded(home: Home, path: tuple[str, ...]) -> None:
    page = "\n".join(home.run(*path, "--help", COLUMNS="80").lines)
    assert not re.search(r"^  .*[a-z,;]\.\.\.$", page, re.MULTILINE), page
    assert "list[" not in page, page
    for paragraph in re.split(r"\n\s*\n|\n {2,}(?=\S+ )|  +", page):
        for sentence in re.split(r"(?<=[.:;]) ", paragraph):
            assert len(sentence.split()) <= 25, sentence
