"""A turn is a cue; one change of who is where is a rotation, wherever somebody reads it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
AS_ROTATION = re.compile(
    r"\b(?:[Aa]|[Tt]he|this|fewer|per) turns?\b"
    r"|\bturns? (?:\d|\{court|\{turn\.number|at the feed|of \{)|--turn"
)
MEANS_THE_CUE = re.compile(r"cues of a stroke that matter: the turn, the|`turn 2 finish 0`")


def texts(file: Path) -> Iterator[str]:
    """What a module can show: its texts, those of f-strings with what stands between."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value
        elif isinstance(node, ast.JoinedStr):
            yield ast.unparse(node)


@pytest.mark.parametrize(
    "folder", ["courtside", "coaching/plans", "reports", "cli", "logbook/reads", "logbook/writes"]
)
def test_no_text_calls_a_rotation_a_turn(folder: str) -> None:
    found = [
        (file.name, text)
        for file in sorted((ROOT / "courtlog" / folder).rglob("*.py"))
        for text in texts(file)
        if AS_ROTATION.search(text) and not MEANS_THE_CUE.search(text)
    ]
    assert found == []


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md", "courtlog/manual"])
def test_no_page_calls_a_rotation_a_turn(page: str) -> None:
    files = sorted((ROOT / page).glob("*.md")) if (ROOT / page).is_dir() else [ROOT / page]
    lines = [line for file in files for line in file.read_text(encoding="utf-8").splitlines()]
    assert [
        line for line in lines if AS_ROTATION.search(line) and not MEANS_THE_CUE.search(line)
    ] == []
