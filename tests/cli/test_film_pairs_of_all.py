"""`courtlog film pair` without a name: everybody's page, and who has none."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from courtlog.cli.actions.film import pair as pair_action
from tests.cli.filmed_yardsticks import BOTH, FIRST, LAST, Yardstick, fed, filmed
from tests.cli.program import Home
from tests.film.balls import needs_ffmpeg

pytestmark = needs_ffmpeg

ALL = ("film", "pair", "--films", "phone")
ROUNDS = [
    BOTH[0],
    Yardstick(FIRST, ["000", "111", "222"], "Ruben", (42, 44, 46)),
    BOTH[1],
    Yardstick(LAST, ["111", "111", "111"], "Ruben", (42, 44, 46)),
]
NO_PAGE_OF_TOVE = "No page of Tove: not yet asked about filming."


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Maren and Ruben on both films, made once; each test has a copy. Maren agreed."""
    folder = tmp_path_factory.mktemp("filmed") / "home"
    folder.mkdir()
    filmed(Home(folder), rounds=ROUNDS)
    return folder


@pytest.fixture
def own(shared: Path, tmp_path: Path) -> Home:
    folder = tmp_path / "own"
    shutil.copytree(shared, folder)
    return Home(folder)


def agrees(home: Home, name: str) -> None:
    assert home.run("roster", "edit", name, "--filming", "yes", "--adult").code == 0


def made(home: Home) -> list[str]:
    """The files of the folder, each of a player once."""
    names = {path.name for path in (home.folder / "pairs").rglob("*") if path.is_file()}
    return sorted({name.partition("_")[0] for name in names})


def test_everybody_who_can_has_a_page_in_one_folder(own: Home) -> None:
    agrees(own, "Ruben")
    said = own.run(*ALL).lines
    assert [line for line in said if not line.startswith("  ")] == [
        "3 pairs of Maren, 6 clips cut: pairs/maren.html",
        "3 pairs of Ruben, 6 clips cut: pairs/ruben.html",
        NO_PAGE_OF_TOVE,
        "Copy the folder pairs to a stick: the pages need no network.",
    ]
    assert made(own) == ["maren", "maren.html", "ruben", "ruben.html"]
    once = own.files()
    assert own.run(*ALL).lines == said
    assert own.run("film", "pair", "Ruben", "--films", "phone").code == 0
    assert own.files().keys() == once.keys(), "written again in place"


def test_who_has_none_is_named_with_the_reason(own: Home) -> None:
    agrees(own, "Tove")
    agrees(own, "Ruben")
    assert own.run(*ALL).code == 0
    assert own.run("roster", "edit", "Ruben", "--filming", "no").code == 0
    left_out = [line for line in own.run(*ALL).lines if line.startswith("No page")]
    assert left_out == [
        "No page of Tove: Tove has no yardstick on two days to hold side by side.",
        left_out[1],
    ]
    assert left_out[1].startswith("No page of Ruben: said no on ")
    assert left_out[1].endswith(
        ". pairs/ruben.html was made before; deleting it with its clips is up to you."
    )
    assert "ruben.html" in made(own)


def test_with_nobody_the_command_says_why_of_each(own: Home) -> None:
    (own.folder / "empty").mkdir()
    said = own.run("film", "pair", "--films", "empty")
    assert said.code == 1
    assert said.out.splitlines() == [
        NO_PAGE_OF_TOVE,
        "No page of Ruben: not yet asked about filming.",
        "No page of Maren: None of the films is in empty: first.mp4 and last.mp4.",
    ]
    assert " ".join(said.err.split()).startswith(
        "courtlog: Nobody of Harbour Week has two yardsticks on a film at hand and agreed"
    )
    assert not (own.folder / "pairs").exists()


def test_one_page_that_is_not_courtlogs_stops_all(own: Home) -> None:
    agrees(own, "Ruben")
    (own.folder / "pairs").mkdir()
    (own.folder / "pairs" / "ruben.html").write_text("mine")
    said = own.run(*ALL)
    assert (said.code, said.out) == (1, "")
    assert "Not as courtlog wrote it: ruben.html." in said.err
    assert made(own) == ["ruben.html"]
    assert own.run(*ALL, "--replace").code == 0


def test_a_ball_by_hand_needs_a_name(own: Home) -> None:
    said = own.run(*ALL, "--now", "turn=08:30:08")
    assert (said.code, said.out) == (1, "")
    assert "--then and --now choose a ball of one player." in said.err


def test_names_that_begin_alike_do_not_meet(own: Home) -> None:
    """`maren` and `maren-2` share the beginning of their clips' names."""
    agrees(own, "Ruben")
    assert own.run("roster", "edit", "Ruben", "--name", "Maren 2").code == 0
    assert own.run(*ALL).code == 0
    assert made(own) == ["maren", "maren-2", "maren-2.html", "maren.html"]
    for _ in range(2):
        assert own.run("film", "pair", "Maren", "--films", "phone").code == 0
    assert len(list((own.folder / "pairs" / "clips").glob("maren-2_*"))) == 12


def test_a_terminal_sees_whose_clips_are_being_cut(
    own: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only a terminal: a file or another program gets the result alone."""
    agrees(own, "Ruben")
    assert own.run(*ALL, terminal="utf-8").err.splitlines() == [
        "Cutting 6 clips of Maren ...",
        "Cutting 6 clips of Ruben ...",
    ]
    assert own.run(*ALL).err == ""
    monkeypatch.setattr(pair_action, "find_ffmpeg", lambda: None)
    assert own.run(*ALL, terminal="utf-8").err == ""


def test_without_a_film_everybody_is_left_out(home: Home) -> None:
    fed(home)
    agrees(home, "Maren")
    said = home.run("film", "pair")
    assert said.code == 1
    assert "No page of Maren: No film that the book knows shows the yardstick" in said.out
