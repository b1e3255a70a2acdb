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

OTHERS = {"None", "Screen._callbacks", "loop._ready", "drill_used.card", "tests.samples"}
"""Names in the guide that are Python's, Textual's, or of the book's tables."""


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


def guide() -> str:
    return (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def files() -> dict[str, Path]:
    """Every file of package and tests, by its path from the top."""
    every = [*PACKAGE.rglob("*.*"), *(ROOT / "tests").rglob("*.*")]
    return {f"/{path.relative_to(ROOT).as_posix()}": path for path in every}


def names_in(path: Path) -> set[str]:
    """Every class, function, method (`Class.method`), constant and field that a module defines."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        match node:
            case ast.ClassDef(name=name, body=body):
                methods = {part.name for part in body if isinstance(part, ast.FunctionDef)}
                names |= {name, *(f"{name}.{method}" for method in methods)}
            case ast.FunctionDef(name=name) | ast.AsyncFunctionDef(name=name):
                names.add(name)
            case ast.Name(id=name, ctx=ast.Store()):
                names.add(name)
    return names


def test_a_file_that_the_guide_names_is_there() -> None:
    named = set(re.findall(r"[\w/]+\.(?:py|c|tcss|md|js)\b", guide()))
    missing = [name for name in named if not any(path.endswith(f"/{name}") for path in files())]
    assert set(missing) <= {"README.md"}


def test_a_name_beside_a_file_in_the_guide_is_defined_there() -> None:
    """`file.py` (`name`, `other`) and `file.py`: `name`."""
    beside = re.compile(r"`([\w/]+\.py)`(?: \(|: )(`[\w.]+`(?:, `[\w.]+`)*)")
    missing = []
    for file, names in beside.findall(guide()):
        known = set().union(
            *(names_in(path) for name, path in files().items() if name.endswith(f"/{file}"))
        )
        missing += [f"{file}: {name}" for name in re.findall(r"[\w.]+", names) if name not in known]
    assert missing == []


def test_a_class_or_dotted_name_in_the_guide_is_defined() -> None:
    """`Class`, `Class.method`, `module.name` and `room.module.name`."""
    by_module = {path: names_in(path) for path in modules()}
    everywhere = set().union(*by_module.values())
    missing = []
    for name in set(
        re.findall(r"`(?:courtlog\.)?([A-Za-z_]\w*(?:\.\w+)*)(?:\([^`]*\))?`", guide())
    ):
        *place, last = name.split(".")
        if last in ("py", "md", "toml", "js", "db"):
            continue  # a file; the test above looks for it, or an example
        if not place:
            wrong = re.match(r"[A-Z][a-z]", last) and last not in everywhere | OTHERS
        elif place[-1][0].isupper():
            wrong = f"{place[-1]}.{last}" not in everywhere | OTHERS
        else:
            ending = "/".join(place)
            known = [
                names
                for path, names in by_module.items()
                if path.with_suffix("").as_posix().endswith(f"/{ending}")
            ]
            folder = any(path.parent.as_posix().endswith(f"/{ending}") for path in by_module)
            wrong = (
                name not in OTHERS
                and not any(last in names for names in known)
                and not (folder and any(path.stem == last for path in by_module))
            )
        if wrong:
            missing.append(name)
    assert sorted(missing) == []
