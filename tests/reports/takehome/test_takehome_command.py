"""`courtlog takehome` prints the sheet, or writes it to a new file only its owner can read."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.cli.program import WEEKEND, Home, home_with


@pytest.fixture(scope="module")
def weekend(tmp_path_factory: pytest.TempPathFactory) -> Home:
    """A home with the two-court sample."""
    return home_with(tmp_path_factory.mktemp("weekend"), WEEKEND)


def test_text_is_what_it_prints(weekend: Home) -> None:
    lines = weekend.run("takehome", "sann").lines
    assert lines[0].startswith("Sanne · Two-court Weekend")
    assert (
        weekend.run("takehome", "Sanne", "--text", "--clinic", "two-court weekend").lines == lines
    )


def test_html_goes_to_a_new_file_and_never_over_another(weekend: Home, tmp_path: Path) -> None:
    page = tmp_path / "sanne.html"
    assert weekend.run("takehome", "Sanne", "--html", page).lines == []
    text = page.read_text(encoding="utf-8")
    assert text.startswith("<!DOCTYPE html>")
    if os.name == "posix":
        assert page.stat().st_mode & 0o777 == 0o600
    again = weekend.run("takehome", "Emrik", "--html", page)
    assert (again.code, again.out) == (1, "")
    assert "cannot be written (File exists). Name another file." in again.err
    assert page.read_text(encoding="utf-8") == text


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("Nobody",), "There is no player called 'Nobody'."),
        (("Sanne", "--text", "--html", "x.html"), "The sheet is either text or HTML."),
        (("Sanne", "--html", "no/such/folder.html"), "cannot be written"),
    ],
)
def test_a_refusal_is_one_sentence(weekend: Home, arguments: tuple[str, ...], said: str) -> None:
    refused = weekend.run("takehome", *arguments)
    assert (refused.code, refused.out) == (1, "")
    assert said in refused.err
    assert refused.err.count("\n") == 1
