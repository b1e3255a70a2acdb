"""`courtlog film blind`: clips that tell no day, and what comes of their ratings."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from contextlib import closing
from html import unescape
from pathlib import Path
from random import Random
from typing import Any

import pytest

from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.film.blind_lookups import BlindPage, blind_pages
from courtlog.logbook.writes.film import blind_writer
from courtlog.measures.shares.agreement import gwet_ac, kappa
from tests.cli.program import Home
from tests.court import START, player
from tests.film import bar_films
from tests.film.balls import needs_ffmpeg
from tests.film.two_yardsticks import FILMS, NOW, THEN, filmed, two_yardsticks
from tests.reports.html_checks import needs_validator, valid

BEFORE_KEY_S = 4.0
YES = ("--filming", "yes", "--filming-by", "a guardian")
PAGE = "clips to rate.html"


def page_of(home: Home) -> BlindPage:
    with closing(create_or_open(home.book, START)) as book:
        (clinic,) = lookups.clinics(book)
        return blind_pages(book, clinic.id)[-1]


@pytest.fixture(scope="module")
def cut(tmp_path_factory: pytest.TempPathFactory) -> tuple[Home, dict[int, tuple[int, float]]]:
    """Three balls of each day on two films, cut; and the day and second of each ball's key."""
    if shutil.which("ffmpeg") is None:
        pytest.skip("no ffmpeg")
    home = Home(tmp_path_factory.mktemp("cut"))
    clinic = two_yardsticks(home.folder, THEN[:3], NOW[:4])
    filmed(clinic, home.folder)
    clinic.book.close()
    assert home.run("roster", "edit", "Maren", *YES).code == 0
    said = home.run("film", "blind", "Maren", "--to", "page")
    assert "6 clips of Maren: 3 of Tue 12 May, 3 of Fri 15 May." in said.lines
    assert "1 ball left out by lot, so that both days have as many." in said.lines
    return home, clinic.moments


def first_time(clip: Path) -> float:
    """The time that the first frame of a clip shows, by the bars of its film."""
    size, row = bar_films.WIDTH * 10, 480
    raw = bar_films.ffmpeg(
        *("-i", f"file:{clip}", "-frames:v", "1", "-f", "rawvideo", "-pix_fmt", "gray", "-")
    )
    assert len(raw) == size * size
    line, bar = raw[size * row : size * (row + 1)], bar_films.BAR * 10
    return sum((line[bar * b + bar // 2] > 127) << b for b in range(bar_films.BITS)) / 20


def test_each_number_plays_its_ball(cut: tuple[Home, dict[int, tuple[int, float]]]) -> None:
    """Read from decoded frames: no two balls of the two films have one time."""
    home, moments = cut
    numbers = page_of(home).numbers
    assert len(numbers) == 6
    for number, ball in numbers.items():
        shown = first_time(home.folder / "page" / f"clip-{number:02}.mp4")
        assert shown == pytest.approx(moments[ball][1] - BEFORE_KEY_S, abs=0.11)


def test_nothing_but_the_picture_tells_a_day(
    cut: tuple[Home, dict[int, tuple[int, float]]],
) -> None:
    """Names, dates, lengths and shapes of files are alike; no file names a day or player."""
    home, _ = cut
    folder = home.folder / "page"
    files = sorted(folder.iterdir())
    clips = [file for file in files if file.suffix == ".mp4"]
    assert [file.name for file in files] == [*(f"clip-0{n}.mp4" for n in range(1, 7)), PAGE]
    assert len({file.stat().st_mtime_ns for file in files}) == 1
    described = set()
    for clip in clips:
        probe = ("ffprobe", "-v", "error", "-show_format", "-show_streams", f"file:{clip}")
        told = subprocess.run(probe, capture_output=True, check=True, text=True).stdout
        described.add(re.sub(r"(?m)^(filename|size|bit_rate|max_bit_rate)=.*\n", "", told))
    assert len(described) == 1, "one length, size, rate, codec; no date and no title"
    code = page_of(home).code
    hidden = re.compile(
        r"20\d\d-\d\d|\b1[25] May\b|\b(Mon|Tues?|Thu(rs)?|Fri)(day)?\b"
        r"|Maren|\bInes\b|Harbour|racquet.feed|Racquet feed|yardstick|\d\d:\d\d|"
        + "|".join(map(re.escape, FILMS)),
        re.IGNORECASE,
    )
    text = unescape((folder / PAGE).read_text(encoding="utf-8"))
    words = re.sub(r"(?s)<(script|style)>.*?</\1>|<meta [^>]*>", "", text)
    assert hidden.search(words) is None, hidden.search(words)
    assert re.findall(r'<video src="([^"]*)"', text) == [clip.name for clip in clips]
    assert words.count(code) >= 2
    for clip in clips:
        assert re.search(rb"Maren|Ines|monday|thursday|courtlog|2026", clip.read_bytes()) is None


@needs_validator
def test_the_page_is_valid(cut: tuple[Home, dict[int, tuple[int, float]]]) -> None:
    said = valid(cut[0].folder / "page" / PAGE)
    assert said.returncode == 0, said.stdout


@needs_ffmpeg
def test_what_stands_in_the_way_is_said_and_nothing_is_written(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    clinic = two_yardsticks(home.folder, THEN[:2], NOW[:2])
    clinic.book.close()

    def refusal(*words: str) -> str:
        said = home.run("film", "blind", *words)
        assert said.code == 1
        assert not list(home.folder.glob("blind*"))
        with closing(create_or_open(home.book, START)) as book:
            assert blind_pages(book, lookups.clinics(book)[0].id) == []
        return said.err

    assert "Maren is left out: " in refusal("Maren")
    for name in ("Maren", "Tove"):
        assert home.run("roster", "edit", name, *YES).code == 0
    assert "Tove has no two yardsticks to compare yet." in refusal("Tove")
    assert "hit no ball of a stroke called 'serve'" in refusal("Maren", "--stroke", "serve")
    assert "0 and 0 balls are on films in" in refusal("Maren")
    monkeypatch.setenv("PATH", "/nowhere")
    assert "Blind clips need ffmpeg" in refusal("Maren")


@pytest.fixture
def rated(home: Home) -> tuple[Home, BlindPage]:
    """A book of two yardsticks and a page of all balls of them, in an order of its own."""
    return paged(home, THEN, NOW)


def paged(home: Home, then: list[str], now: list[str]) -> tuple[Home, BlindPage]:
    """The same of these balls."""
    clinic = two_yardsticks(home.folder, then, now)
    order = sorted(clinic.moments, key=lambda ball: ball * 7919 % 101)
    blind_writer.add_page(
        clinic.book,
        clinic.clinic.id,
        player(clinic.desk, "Maren").id,
        "forehand",
        ("turn", "spacing", "finish"),
        "KRTW",
        7,
        order,
        START,
    )
    clinic.book.close()
    return home, page_of(home)


def on_court(page: BlindPage) -> dict[int, str]:
    """The coach's own grades by the numbers of the page."""
    return blind_by_day(page, [*THEN, *NOW])


def paper(home: Home, grades: dict[int, str]) -> Path:
    path = home.folder / "paper.txt"
    path.write_text("".join(f"{at} {token}\n" for at, token in grades.items()), encoding="utf-8")
    return path


def change(home: Home) -> dict[str, Any]:
    (stroke,) = json.loads(home.run("player", "Maren", "--json").out)["changes"]
    return dict(stroke)


def test_equal_grades_give_the_coachs_own_comparison(rated: tuple[Home, BlindPage]) -> None:
    home, page = rated
    said = home.run("agree", "in", paper(home, on_court(page)), "--blind", "--coach", "Omar")
    assert said.lines == ["36 clips of page KRTW rated. `courtlog agree` compares them."]
    stroke = change(home)
    (blind,) = stroke["blind"]
    assert (blind["rater"], blind["own"], blind["clips"], blind["rated"]) == ("Omar", False, 36, 36)
    for own, cue in zip(stroke["cues"], blind["cues"], strict=True):
        assert cue["change"] == cue["coach_change"] == own["learning"]
        assert (cue["alike"], cue["seen_by_both"]) == (36, 36)


def test_other_grades_stand_beside_the_coachs_with_how_alike_they_are(
    rated: tuple[Home, BlindPage],
) -> None:
    """Kappa and AC2 are held against scikit-learn and irrCAC in their own tests."""
    home, page = rated
    first = on_court(page)
    again = {number: token[0] + "1" + token[2] for number, token in first.items()}
    assert home.run("agree", "in", paper(home, again), "--page", "krtw", "--coach", "Omar").lines
    (blind,) = change(home)["blind"]
    spacing = blind["cues"][1]
    one, two = ([int(token[1]) for token in grades.values()] for grades in (first, again))
    for key, made in (
        ("weighted", kappa(one, two, "linear")),
        ("ac2", gwet_ac(one, two, "linear")),
    ):
        assert made is not None
        assert spacing[key]["value"] == pytest.approx(made.value)
    assert spacing["alike"] == sum(token[1] == "1" for token in first.values())
    assert (spacing["change"]["late_made"], spacing["change"]["early_made"]) == (0, 0)
    lines = " ".join(" ".join(home.run("player", "Maren").lines).split())
    assert "Omar rated 36 clips of both days without knowing the day of any." in lines
    assert f"Omar and Ines are alike on {36 * 2 + spacing['alike']} of 108 grades." in lines
    page_text = " ".join(" ".join(home.run("agree").lines).split())
    assert "Maren · Forehand · rated blind by Omar · page KRTW" in page_text
    assert "BMJ 344:e1119; figure from memory" in page_text
    assert "Room for the arm, the same clips by Ines: 3 of 18 balls on Tuesday" in page_text


def test_what_the_coach_did_not_see_is_no_miss_beside_the_blind_reading(home: Home) -> None:
    """The first ball's turn: missed by who rates blind, hidden from the coach."""
    assert THEN[0] == "012"
    home, page = paged(home, ["-12/", *THEN[1:]], NOW)
    assert home.run("agree", "in", paper(home, on_court(page)), "--blind", "--coach", "Omar").lines
    (blind,) = change(home)["blind"]
    assert [(cue["alike"], cue["seen_by_both"]) for cue in blind["cues"]] == [
        (35, 35),
        (36, 36),
        (36, 36),
    ]


def at_random(seed: int) -> list[str]:
    """The balls of both days, three grades each, by luck alone."""
    luck = Random(seed)
    return ["".join(luck.choice("012") for _ in range(3)) for _ in [*THEN, *NOW]]


def blind_by_day(page: BlindPage, balls: list[str]) -> dict[int, str]:
    """These balls of the two days, in their order, by the numbers of the page."""
    by_ball = dict(zip(sorted(page.numbers.values()), balls, strict=True))
    return {number: by_ball[ball] for number, ball in page.numbers.items()}


TWO_WAYS = "Rated twice, it came out two ways, so nothing is claimed."
COUNTS = "The blind one still counts: its rater knew no day."


def test_a_blind_reading_is_judged_by_itself_where_the_coach_went_by_luck(home: Home) -> None:
    luck = at_random(1)
    _, page = paged(home, luck[:18], luck[18:])
    good = blind_by_day(page, ["000"] * 16 + ["222"] * 2 + ["222"] * 16 + ["000"] * 2)
    assert home.run("agree", "in", paper(home, good), "--blind", "--coach", "Omar").lines
    stroke = change(home)
    (blind,) = stroke["blind"]
    for own, cue in zip(stroke["cues"], blind["cues"], strict=True):
        assert cue["in_doubt"]
        assert cue["weighted"]["value"] < 0.4
        assert cue["change"]["direction"] == 1
        assert "That is a real gain." in cue["said"]["sentence"]
        assert cue["coach_change"]["direction"] == own["learning"]["direction"] == 0
        assert TWO_WAYS in cue["coach_said"]["sentence"]
        assert TWO_WAYS in own["said"]["change"]["sentence"]
        assert cue["alike_said"]["sentence"].endswith(f" of 36 clips. {COUNTS}")
    for page_of_words in (("player", "Maren"), ("agree",)):
        lines = " ".join(" ".join(home.run(*page_of_words).lines).split())
        assert COUNTS in lines


def test_a_blind_reading_by_luck_claims_nothing_and_leaves_the_coach_in_doubt(
    rated: tuple[Home, BlindPage],
) -> None:
    home, page = rated
    before = [cue["learning"]["direction"] for cue in change(home)["cues"]]
    assert 1 in before
    luck = blind_by_day(page, at_random(2))
    assert home.run("agree", "in", paper(home, luck), "--blind", "--coach", "Omar").lines
    stroke = change(home)
    (blind,) = stroke["blind"]
    for own, cue in zip(stroke["cues"], blind["cues"], strict=True):
        assert cue["in_doubt"]
        assert cue["change"]["direction"] == own["learning"]["direction"] == 0
        assert "these balls cannot tell" in cue["said"]["sentence"]
        assert TWO_WAYS in own["said"]["change"]["sentence"]


@needs_ffmpeg
def test_a_page_of_pairs_says_below_the_verdict_what_came_out_blind(
    cut: tuple[Home, dict[int, tuple[int, float]]], tmp_path: Path
) -> None:
    shutil.copytree(cut[0].folder, tmp_path / "own")
    home = Home(tmp_path / "own")

    def said() -> list[str]:
        assert home.run("film", "pair", "Maren", "--to", "pairs").code == 0
        text = (home.folder / "pairs" / "maren.html").read_text(encoding="utf-8")
        section = text.split("<section")[1].split("</section>")[0]
        return [unescape(one) for one in re.findall(r"<p>(.*?)</p>", section.split("<figure")[0])]

    (verdict,) = said()
    page = page_of(home)
    tokens = dict.fromkeys(page.numbers, "222")
    assert home.run("agree", "in", paper(home, tokens), "--blind", "--coach", "Omar").lines
    again, blind = said()
    assert again == verdict
    assert blind.startswith("Omar rated 6 clips of both days without knowing the day of any.")
    assert ", rated blind: 3 of 3 balls on Tuesday, 3 of 3 on Friday" in blind
    assert re.search(r"Omar and Ines are alike on \d of 6 clips\.$", blind)


def test_who_rates_the_own_clips_is_told_so(rated: tuple[Home, BlindPage]) -> None:
    home, page = rated
    assert home.run("agree", "in", paper(home, on_court(page)), "--blind", "--coach", "Ines").lines
    lines = " ".join(" ".join(home.run("player", "Maren").lines).split())
    assert "The same coach rated these balls on court and may know some of them again." in lines


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("37 222", "page KRTW has clips 1 to 36"),
        ("0 222", "page KRTW has clips 1 to 36"),
        ("1 222", "clip 1 stands in the file twice"),
        ("2 22", "'22' has 2 grades, but the round has 3 cues"),
        ("2 2x2", "'2x2' is no ball"),
        ("09:31:07 Maren 222", "a line is the number of a clip and a ball, like 7 212"),
        ("\u0663 222", "a line is the number of a clip and a ball, like 7 212"),
        ("", "Not rated: clip 2, 3, 4, 5, 6, 7, 8, 9 and 27 more."),
    ],
)
def test_one_mistake_on_paper_and_nothing_comes_in(
    rated: tuple[Home, BlindPage], line: str, sentence: str
) -> None:
    home, _ = rated
    path = home.folder / "paper.txt"
    path.write_text(f"1 222\n{line}\n", encoding="utf-8")
    said = home.run("agree", "in", path, "--blind", "--coach", "Omar")
    assert said.code == 1
    assert sentence in said.err
    assert change(home)["blind"] == []
