"""The tree can be walked: small folders, few imports inside functions, a guide that is true."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import courtlog

PACKAGE = Path(courtlog.__file__).parent
ROOT = PACKAGE.parent
MOST_MODULES = 16
"""Modules in a folder that one can keep in the head."""

MOST_INNER_IMPORTS = 39


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def inner_imports() -> Iterator[tuple[Path, int]]:
    """Every import inside a function, once, by file and line."""
    for path in modules():
        tree = ast.parse(path.read_text(encoding="utf-8"))
        lines = {
            node.lineno
            for function in ast.walk(tree)
            if isinstance(function, ast.FunctionDef | ast.AsyncFunctionDef)
            for node in ast.walk(function)
            if isinstance(node, ast.Import | ast.ImportFrom)
        }
        yield from ((path, line) for line in sorted(lines))


def test_no_folder_holds_more_modules_than_one_can_keep_in_the_head() -> None:
    folders = {path.parent for path in modules()}
    counts = {
        str(folder.relative_to(ROOT)): sum(
            path.name != "__init__.py" for path in folder.glob("*.py")
        )
        for folder in folders
    }
    assert {folder: count for folder, count in counts.items() if count > MOST_MODULES} == {}


def test_an_import_inside_a_function_is_rare_and_says_why() -> None:
    """The reason stands on the line or above it; one reason serves imports that stand together."""
    places = list(inner_imports())
    silent = []
    for path, line in places:
        lines = path.read_text(encoding="utf-8").splitlines()
        block = [lines[line - 1]]
        for above in reversed(lines[: line - 1]):
            if above.strip() and not re.match(r"\s*(#|import |from .* import )", above):
                break
            block.append(above)
        if not any("#" in text for text in block):
            silent.append(f"{path.relative_to(ROOT)}:{line}")
    assert silent == []
    assert len(places) <= MOST_INNER_IMPORTS


def test_a_file_that_the_guide_names_is_there() -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    named = set(re.findall(r"[\w/]+\.(?:py|c|tcss)\b", guide))
    paths = [
        str(path.relative_to(ROOT))
        for path in [*PACKAGE.rglob("*.*"), *(ROOT / "tests").rglob("*.*")]
    ]
    missing = [
        name for name in named if not any(("/" + path).endswith("/" + name) for path in paths)
    ]
    assert missing == []


def test_a_dotted_name_in_the_guide_is_there() -> None:
    """`logbook.writes.round_writer` and the like: the module, and the name in it."""
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rooms = {path.name for path in PACKAGE.iterdir() if path.is_dir()}
    missing = []
    for dotted in set(re.findall(r"`(?:courtlog\.)?([a-z_]+(?:\.\w+)+)(?:\([^`]*\))?`", guide)):
        parts = dotted.split(".")
        if parts[0] not in rooms:
            continue
        path = PACKAGE
        while parts and (path / parts[0]).is_dir():
            path /= parts.pop(0)
        if parts:
            path = path / f"{parts.pop(0)}.py"
        text = path.read_text(encoding="utf-8") if path.suffix and path.exists() else ""
        if not path.exists() or (parts and not re.search(rf"\b{parts[0]}\b", text)):
            missing.append(dotted)
    assert missing == []
