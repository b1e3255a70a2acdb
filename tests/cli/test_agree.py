"""`courtlog agree`: a second rating from a file, and what the page makes of it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from rich.cells import cell_len
from sklearn.metrics import cohen_kappa_score

from tests.cli.program import Home

FIRST = [(2, 1, 0), (2, 2, 2), (0, 2, 1), (1, 0, 2), (2, 2, 0)] * 5
AGAIN = [(2, 1, 0), (2, 1, 2), (0, 2, 0), (2, 0, 2), (2, 2, 1)] * 5
NAME = "Maren O'Hill"


def token(grades: tuple[int, ...]) -> str:
    return "".join(map(str, grades))


@pytest.fixture
def own(home: Home) -> Home:
    """A round of 25 balls, a clip mark on each, a minute apart."""
    balls = " ".join(f"{token(g)}@09:{at:02}:07" for at, g in enumerate(FIRST))
    (home.folder / "sheet.txt").write_text(
        f'clinic Bay  zone Europe/Lisbon\nday 2026-05-12  court 1  coach Ines\nplayer "{NAME}"'
        f"  drill forehand/live  cues turn spacing finish\n{balls}\n",
        encoding="utf-8",
    )
    assert home.run("sheet", "in", "sheet.txt").lines
    return home


def second(home: Home, lines: list[str]) -> Path:
    path = home.folder / "again.txt"
    path.write_text("\n".join(lines), encoding="utf-8")
    return path


def rated(name: str = NAME) -> list[str]:
    return [f"09:{at:02}:07 {name} {token(g)}" for at, g in enumerate(AGAIN)]


def test_a_file_comes_in_and_the_page_says_how_alike(own: Home) -> None:
    said = own.run("agree", "in", second(own, rated()), "--coach", "Bo")
    assert said.lines == ["25 balls rated once more. `courtlog agree` compares them."]
    lines = own.run("agree").lines
    text = " ".join(" ".join(lines).split())
    assert max(map(cell_len, lines)) <= 78
    assert "Forehand · Ines, and then Bo" in text
    assert "25 balls rated twice, 80% of them alike. From few balls: weighted kappa" in text
    assert "no drift seen, too few changes to tell" in text
    facts = json.loads(own.run("agree", "--json").out)
    for row, cue in enumerate(facts["cues"]):
        one, two = ([grades[row] for grades in all_] for all_ in (FIRST, AGAIN))
        wanted = cohen_kappa_score(one, two, labels=[0, 1, 2], weights="linear")
        assert cue["weighted"]["value"] == pytest.approx(wanted)
        assert (cue["first"], cue["second"], cue["balls"]) == ("Ines", "Bo", 25)


def test_nothing_rated_twice_says_how_to_begin(own: Home) -> None:
    assert "No ball was rated twice yet." in " ".join(own.run("agree").lines)


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("09:01:07 Nobody 222", "no ball of Nobody was marked or taken at 09:01:07"),
        (f"10:01:07 {NAME} 222", f"no ball of {NAME} was marked or taken at 10:01:07"),
        (f"09:01:07 {NAME} 22", "'22' has 2 grades, but the round has 3 cues"),
        (f"09:01:07 {NAME} 2x2", "'2x2' is no ball"),
        (f"half nine {NAME} 222", "'half' is no time of day"),
        ("222", "a line is a time, a player and a ball"),
        (f"09:00:07 {NAME} 222", "this ball stands in the file twice"),
    ],
)
def test_one_mistake_and_nothing_comes_in(own: Home, line: str, sentence: str) -> None:
    said = own.run("agree", "in", second(own, [*rated()[:1], line]), "--coach", "Bo")
    assert (said.code, said.out) == (1, "")
    assert f"again.txt:2: {sentence}" in said.err
    assert "No ball was rated twice yet." in " ".join(own.run("agree").lines)


def test_somebody_must_have_rated(own: Home) -> None:
    assert "Who rates?" in own.run("agree", "in", second(own, rated())).err
    assert own.run("settings", "coach", "Bo").lines
    assert own.run("agree", "in", second(own, rated())).code == 0


def test_rating_by_keys_needs_a_terminal(own: Home) -> None:
    assert "needs a terminal" in own.run("agree", "rate", "--coach", "Bo").err


def test_second_ratings_go_with_the_player(own: Home) -> None:
    assert own.run("agree", "in", second(own, rated()), "--coach", "Bo").code == 0
    assert own.run("erase", NAME, "--yes").lines
    assert "No ball was rated twice yet." in " ".join(own.run("agree").lines)
