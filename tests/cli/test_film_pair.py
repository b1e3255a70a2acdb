"""`courtlog film pair`: the two balls, their clips as decoded frames, and what is refused."""

from __future__ import annotations

import html
import json
import re
import shutil
import sys
from pathlib import Path

import pytest

from courtlog.cli.actions.film import pair as pair_action
from courtlog.film.page_names import safe_name
from tests.cli.filmed_yardsticks import FIRST, NOW, SLATE_AT, THEN, Yardstick, fed, filmed
from tests.cli.program import Home, home_with
from tests.film.balls import HOSTILE, needs_ffmpeg
from tests.film.bar_films import times_shown

pytestmark = needs_ffmpeg

PAIR = ("film", "pair", "Maren", "--films", "phone")


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The filmed book, made once; each test has a copy."""
    folder = tmp_path_factory.mktemp("filmed") / "home"
    folder.mkdir()
    filmed(Home(folder))
    return folder


@pytest.fixture
def own(shared: Path, tmp_path: Path) -> Home:
    folder = tmp_path / "own"
    shutil.copytree(shared, folder)
    return Home(folder)


def refused(home: Home, *words: str) -> str:
    """What is said where nothing is written."""
    before = home.files()
    said = home.run(*words)
    assert (said.code, said.out) == (1, "")
    assert home.files() == before
    return " ".join(said.err.split()).removeprefix("courtlog: ")


def page(home: Home, folder: str = "pairs", of: str = "maren") -> str:
    return (home.folder / folder / f"{of}.html").read_text(encoding="utf-8")


def test_each_clip_shows_its_ball(own: Home) -> None:
    """Four seconds before the key to one after; the hit is two before it. Read from the frames."""
    said = own.run(*PAIR).lines
    assert said == [
        "3 pairs of Maren, 6 clips cut: pairs/maren.html",
        "  turn: Monday 11 May 08:30:16, near; Friday 15 May 08:30:16, made",
        "  spacing: Monday 11 May 08:30:24, missed; Friday 15 May 08:30:08, made",
        "  finish: Monday 11 May 08:30:24, near; Friday 15 May 08:30:24, made",
        "Copy the folder pairs to a stick: the page needs no network.",
    ]
    clips = own.folder / "pairs" / "clips"
    keys = {"1-turn": (16, 16), "2-spacing": (24, 8), "3-finish": (24, 24)}
    for cue, seconds in keys.items():
        for side, key in zip(("then", "now"), seconds, strict=True):
            shown = times_shown(clips / f"maren_{cue}-{side}.mp4")
            assert len(shown) == 150
            assert shown[0] == pytest.approx(SLATE_AT + key - 4, abs=0.1)
            assert shown[60] == pytest.approx(SLATE_AT + key - 2, abs=0.1)
            assert shown[-1] == pytest.approx(SLATE_AT + key + 1, abs=0.1)
            (still,) = times_shown(clips / f"maren_{cue}-{side}.jpg")
            assert still == pytest.approx(SLATE_AT + key - 2, abs=0.1)
    assert len(list(clips.iterdir())) == 12


def test_the_page_says_what_every_other_page_says(own: Home) -> None:
    facts = json.loads(own.run("player", "Maren", "--json").out)
    assert own.run(*PAIR).code == 0
    words = " ".join(html.unescape(re.sub(r"<[^>]*>", " ", page(own))).split())
    for cue in facts["changes"][0]["cues"]:
        assert cue["said"]["change"]["sentence"] in words
    assert "Spacing: 1 of 5 then, 3 of 5 now" in words
    assert "Shown is each day's middle ball by grade, then time: of 5 then, 5 now." in words
    assert (
        "The middle ball now was not filmed or was fed another way: the nearest of its grade"
        in words
    )
    assert "spacing: missed on this ball" in words
    assert "by hand" not in words


def test_a_moved_hit_moves_the_clips_along(own: Home) -> None:
    """Of the whole film, of one ball, and both back."""
    clip = own.folder / "pairs" / "clips" / "maren_2-spacing-now.mp4"
    one = ("--player", "Maren", "--at", "08:30:08")
    for words, later in (
        (("last.mp4", "--later", "1"), 1),
        (("last.mp4", "--earlier", "0.5", *one), 0.5),
        (("last.mp4", "--later", "0"), -0.5),
        (("last.mp4", "--later", "0", *one), 0),
    ):
        assert own.run("film", "hit", *words).code == 0
        assert own.run(*PAIR).code == 0
        assert times_shown(clip)[60] == pytest.approx(SLATE_AT + 6 + later, abs=0.1)


def test_balls_can_be_chosen_by_hand(own: Home) -> None:
    said = own.run(*PAIR, "--now", "Spacing=8:30:40", "--then", "turn=08:30:08.0").lines
    assert (
        "  spacing: Monday 11 May 08:30:24, missed; Friday 15 May 08:30:40, made, by hand" in said
    )
    assert any(line.startswith("  turn: Monday 11 May 08:30:08, missed, by hand;") for line in said)
    assert page(own).count("This ball was chosen by hand.") == 2
    assert "The ball now was chosen by hand." in page(own)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--now", "spacing"), "'spacing' does not say which ball."),
        (("--now", "=08:30:08"), "'=08:30:08' does not say which ball."),
        (("--then", "elbow=08:30:08"), "No cue called 'elbow' was watched. The cues: turn,"),
        (
            ("--then", "turn=09:30:08"),
            "No ball that counts for turn then was rated at 09:30:08. Those on film: 08:30:08,",
        ),
        (
            ("--then", "turn=08:30:08", "--now", "turn=08:30:16"),
            "No ball on film goes with the one chosen for turn. Choose both: of the same drill",
        ),
    ],
)
def test_a_choice_that_cannot_be_is_refused(own: Home, words: tuple[str, ...], told: str) -> None:
    assert told in refused(own, *PAIR, *words)


def test_without_ffmpeg_the_page_points_into_the_films(
    own: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pair_action, "find_ffmpeg", lambda: None)
    said = own.run(*PAIR, "--to", "on a stick").lines
    assert said[0] == "3 pairs of Maren, 0 clips cut: on a stick/maren.html"
    (uncut,) = (line for line in said if line.startswith("Not cut"))
    assert uncut.startswith(
        "Not cut, since this computer has no ffmpeg: first.mp4 0:14.0 to 0:19.0;"
    )
    assert list((own.folder / "on a stick" / "clips").iterdir()) == []
    assert "../phone/first.mp4#t=" in page(own, "on a stick")
    assert "Not cut, since" in page(own, "on a stick")
    assert own.run(*PAIR, "--to", "on a stick").code == 0


def test_a_film_that_is_not_there_is_said(own: Home) -> None:
    """With none of them nothing is written; under another name in a folder below it is found."""
    (own.folder / "phone" / "last.mp4").rename(own.folder / "last.mp4.away")
    said = own.run(*PAIR).lines
    assert said[0] == "3 pairs of Maren, 3 clips cut: pairs/maren.html"
    assert "Not found in phone: last.mp4." in said
    assert "last.mp4 was not found, so this ball is not shown." in page(own)
    (own.folder / "phone" / "first.mp4").rename(own.folder / "phone" / "renamed.MOV")
    assert own.run("film", "pair", "Maren").lines[0].startswith("3 pairs of Maren, 3 clips cut")
    shutil.rmtree(own.folder / "phone")
    (own.folder / "phone").mkdir()
    assert refused(own, *PAIR) == (
        "None of the films is in phone: first.mp4 and last.mp4."
        " Nothing was written. --films names the folder that has them."
    )


def test_what_courtlog_did_not_write_is_not_written_over(own: Home) -> None:
    assert own.run(*PAIR).code == 0
    once = own.files()
    assert own.run(*PAIR).code == 0
    assert own.files().keys() == once.keys()
    (own.folder / "pairs" / "maren.html").write_text(page(own).replace("Maren", "Bo"))
    told = refused(own, *PAIR)
    assert told.startswith("Not as courtlog wrote it: maren.html")
    assert "--replace writes over it" in told
    assert own.run(*PAIR, "--replace").code == 0
    clips = own.folder / "new" / "clips"
    clips.mkdir(parents=True)
    (clips / "maren_1-turn-now.mp4").write_text("mine")
    assert "maren_1-turn-now.mp4" in refused(own, *PAIR, "--to", "new")


def test_clips_that_the_page_no_longer_plays_are_deleted(own: Home) -> None:
    assert own.run(*PAIR).code == 0
    (own.folder / "phone" / "last.mp4").unlink()
    assert own.run(*PAIR).code == 0
    left = sorted(path.name for path in (own.folder / "pairs" / "clips").iterdir())
    assert all("then" in name for name in left)
    assert len(left) == 6


@pytest.mark.skipif(sys.platform == "win32", reason="a script is no program there")
def test_a_clip_that_cannot_be_cut_is_played_from_the_film(
    own: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    broken = tmp_path / "ffmpeg"
    broken.write_text("#!/bin/sh\necho 'no space for this' >&2\nexit 1\n")
    broken.chmod(0o700)
    monkeypatch.setattr(pair_action, "find_ffmpeg", lambda: broken)
    said = own.run(*PAIR).lines
    assert said[0] == "3 pairs of Maren, 0 clips cut: pairs/maren.html"
    assert "This ffmpeg cannot write a video that browsers play." in said
    assert "#t=" in page(own)


def test_who_has_not_agreed_has_no_page(own: Home) -> None:
    """The words are those of `courtlog film`."""
    for words, why in (
        (["--filming", "no"], "said no on"),
        (["--filming", "asked"], "asked on"),
        (["--filming", "yes", "--minor"], "a minor, and no guardian's name stands beside the yes."),
    ):
        assert own.run("roster", "edit", "Maren", *words).code == 0
        assert refused(own, *PAIR).startswith(f"No page of Maren: {why}")


def test_without_two_yardsticks_on_film_there_is_no_pair(home: Home) -> None:
    fed(home, [Yardstick(FIRST, THEN)])
    assert home.run("roster", "edit", "Maren", "--filming", "yes", "--adult").code == 0
    assert refused(home, "film", "pair", "Maren") == (
        "Maren has no yardstick on two days to hold side by side."
        " Rate one before the teaching, and the same drill again on the last day."
    )
    assert "Nobody" in refused(home, "film", "pair", "Nobody")


def test_two_yardsticks_without_a_film_have_no_pair(home: Home) -> None:
    fed(home)
    assert home.run("roster", "edit", "Maren", "--filming", "yes", "--adult").code == 0
    assert refused(home, "film", "pair", "Maren") == (
        "No film that the book knows shows the yardstick of"
        " Monday 11 May. `courtlog film add FILE` takes one in."
    )


def test_balls_from_a_sheet_are_said(home: Home) -> None:
    rounds = "\n".join(
        f"day 2026-05-{day}  court 2  coach Ines\n"
        "player Maren  drill forehand/racquet-feed  purpose yardstick  cues turn spacing finish\n"
        f"{' '.join(balls)}"
        for day, balls in ((11, THEN), (15, NOW))
    )
    sheet = home.folder / "sheet.txt"
    sheet.write_text(f'clinic "Harbour Week"  zone Europe/Lisbon\n{rounds}\n')
    home_with(home.folder, sheet)
    assert home.run("roster", "edit", "Maren", "--filming", "yes", "--adult").code == 0
    assert refused(home, "film", "pair", "Maren") == (
        "The balls of Monday 11 May came from a sheet, so nobody"
        " knows when they were hit. Only balls rated on court are found in a film."
    )


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Maren", "maren"),
        ("Anna Sofía", "anna-sofia"),
        ("con", "con-"),
        ("../../etc", "etc-"),
        ("<b>Bo</b>", "b-bo-b-"),
        ("נור", ""),
    ],
)
def test_a_name_gives_a_file_name_that_is_safe_everywhere(name: str, file: str) -> None:
    assert re.fullmatch(rf"{file}([0-9a-f]{{6}})?", safe_name(name))
    assert safe_name(name) == safe_name(name)


def test_hostile_names_give_safe_names_that_differ() -> None:
    names = [safe_name(name) for name in HOSTILE]
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name) for name in names)
    assert len(set(names)) == len(names)
