"""The shipped ladders are whole and fit the screen; every mistake of a drill file has a place."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from courtlog import locations
from courtlog.coaching.game.drills import Cue, Drill, Feed, Ladder, Station
from courtlog.library.drill_files import read_file, read_folders
from tests.library.shelf import CUE, DRILL, ladder, put, shipped, steady

STROKES = sorted(shipped().ladders)
EACH_STROKE = pytest.mark.parametrize("stroke", STROKES)


def all_drills() -> Iterator[Drill]:
    return (drill for held in shipped().ladders.values() for drill in held.drills)


def all_cues() -> Iterator[Cue]:
    return (cue for held in shipped().ladders.values() for cue in held.cues)


def test_the_shipped_library_has_no_problem_and_covers_the_game() -> None:
    library, problems = read_folders([locations.shipped_drills()])
    assert problems == []
    assert len(library.ladders) == 8
    assert len(library.names()) == len(set(library.names())) >= 45


@EACH_STROKE
def test_a_ladder_climbs_from_no_ball_to_live_in_five_to_seven_rungs(stroke: str) -> None:
    drills = shipped().ladder(stroke).in_rung_order()
    assert 5 <= shipped().ladder(stroke).top <= 7
    assert drills[0].feed in (Feed.SHADOW, Feed.FENCE)
    assert drills[-1].feed is Feed.LIVE
    assert len({drill.rung for drill in drills if drill.station is Station.ALONE}) >= 2


def test_tough_balls_are_planned_where_the_coach_feeds_by_racquet_or_starts_a_rally() -> None:
    for drill in all_drills():
        kept = drill.key == "day-one-feed"  # the yardstick is of usual balls
        assert bool(drill.tough) is (drill.feed in (Feed.RACQUET, Feed.LIVE) and not kept)


def test_every_drill_says_in_two_to_five_sentences_how_to_run_it() -> None:
    ends = re.compile(r"[.!?][\"”’)]*(?=\s|$)")
    counts = {drill.name: len(ends.findall(drill.run)) for drill in all_drills()}
    assert {name: n for name, n in counts.items() if not 2 <= n <= 5} == {}


def test_every_text_fits_its_place_on_eighty_columns() -> None:
    def too_wide(most: int, texts: Iterator[str]) -> list[str]:
        return [text for text in texts if cell_len(text) > most]

    assert too_wide(12, (cue.name for cue in all_cues())) == []
    assert too_wide(32, (drill.name for drill in all_drills())) == []
    assert too_wide(36, (spot for drill in all_drills() for spot in drill.spots)) == []
    assert too_wide(40, (say for c in all_cues() for say in (c.say_inner, c.say_outer))) == []
    assert too_wide(78, (f"“{cue.say_inner}” · “{cue.say_outer}”" for cue in all_cues())) == []


def test_every_spot_has_a_short_word_that_no_other_spot_of_its_drill_has() -> None:
    for drill in all_drills():
        assert len(set(drill.spot_words)) == len(drill.spots), drill.name


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("deep to the forehand corner", "deep to"),
        ("short, then wide", "short"),
        ("crosscourtwards", "crosscourt"),
        ("waist high", "waist high"),
        ("low", "low"),
    ],
)
def test_a_spot_without_a_short_word_is_cut_between_words(text: str, word: str) -> None:
    drill = replace(next(all_drills()), spots=(text,), spot_words=())
    assert drill.spot_word(0) == word


WHOLE = ladder()
SECOND = DRILL.format(key="second", rung=2, feed="live")
NO_BALLS = SECOND.replace("balls = 10\n", "")
FINISH = CUE.format(key="finish", part="finish")
TURN = CUE.format(key="turn", part="preparation")

LAST = str(WHOLE.count("\n") + 1)
NEEDED = ("stroke", "title", "about", "first_cues", "cue", "drill")

BROKEN: dict[str, tuple[str, list[tuple[str, str]]]] = {
    "bad-toml": (WHOLE.replace('"Lob"', '"Lob'), [("2", "TOML")]),
    "ends-early": (WHOLE + 'note = """', [(LAST, "TOML")]),
    "empty": ("", [(key, "required") for key in NEEDED]),
    "unknown-key": (WHOLE.replace("about", "colour"), [("about", "required"), ("colour", "")]),
    "unknown-in-drill": (WHOLE + 'wind = "east"\n', [('drill "second".wind', "")]),
    "missing": (WHOLE.removesuffix(SECOND) + NO_BALLS, [('drill "second".balls', "required")]),
    "wrong-type": (WHOLE.replace("balls = 10", 'balls = "ten"', 1), [('drill "first".balls', "")]),
    "unknown-feed": (WHOLE.replace('"live"', '"cannon"'), [('drill "second".feed', "'shadow'")]),
    "zero-balls": (WHOLE.replace("balls = 10", "balls = 0", 1), [('drill "first".balls', "")]),
    "too-many-tough": (
        WHOLE.replace("balls = 10", "balls = 10\ntough = 6", 1),
        [('drill "first".tough', "at most half of the balls can be planned tough, here 5")],
    ),
    "tough-before-none": (WHOLE + "tough = -1\n", [('drill "second".tough', "")]),
    "no-spot": (WHOLE.replace('["waist high"]', "[]", 1), [('drill "first".spots', "")]),
    "spot-words-too-few": (
        WHOLE.replace('["waist high"]', '["high", "low"]\nspot_words = ["high"]', 1),
        [('drill "first".spot_words', "one word for each of the spots, here 2")],
    ),
    "spot-word-too-long": (
        WHOLE.replace('["waist high"]', '["high"]\nspot_words = ["as high as it"]', 1),
        [('drill "first".spot_words[1]', "")],
    ),
    "bad-key": (WHOLE.replace('"second"', '"Se cond"'), [('drill "Se cond".key', "")]),
    "same-drill": (WHOLE + SECOND, [('drill "second"', "2 times")]),
    "same-cue": (WHOLE.replace(FINISH, FINISH * 3), [('cue "finish"', "3 times")]),
    "rungs": (WHOLE.replace("rung = 2", "rung = 4"), [("drill", "rung 2"), ("drill", "rung 3")]),
    "first-cue": (WHOLE.replace('["turn"', '["toss"'), [("first_cues", "'toss'")]),
    "cue-order": (WHOLE.replace(TURN, "").replace(FINISH, FINISH + TURN), [("cue", "order")]),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_mistake_has_its_file_its_place_and_one_sentence(name: str, tmp_path: Path) -> None:
    text, expected = BROKEN[name]
    _, problems = read_folders([put(tmp_path / "own", **{name: text})])
    assert [problem.place for problem in problems] == [place for place, _ in expected]
    for problem, (_, words) in zip(problems, expected, strict=True):
        assert problem.file == str(tmp_path / "own" / f"{name}.toml")
        assert words.casefold() in problem.sentence.casefold()
        assert problem.sentence.endswith(".")


def test_every_mistake_of_every_file_comes_at_once(tmp_path: Path) -> None:
    texts = {
        name: text.replace('stroke = "lob"', f'stroke = "{name}"')
        for name, (text, _) in BROKEN.items()
    }
    library, problems = read_folders([put(tmp_path / "own", whole=WHOLE, **texts)])
    found = Counter(Path(problem.file).stem for problem in problems)
    assert found == {name: len(places) for name, (_, places) in BROKEN.items()}
    assert {"lob/first", "lob/second"} <= set(library.names())


def test_bytes_that_are_no_text_and_a_folder_called_toml(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_bytes(WHOLE.encode("utf-16"))
    (tmp_path / "b.toml").mkdir()
    (tmp_path / "c.toml").write_text(WHOLE, encoding="utf-8")
    library, problems = read_folders([tmp_path])
    assert [Path(problem.file).name for problem in problems] == ["a.toml", "b.toml"]
    assert "UTF-8" in problems[0].sentence
    assert "is a folder, not a drill file" in problems[1].sentence
    assert library.names() == ["lob/first", "lob/second"]


def test_two_files_for_one_stroke(tmp_path: Path) -> None:
    _, problems = read_folders([put(tmp_path / "own", a=WHOLE, b=WHOLE)])
    assert [(Path(p.file).name, p.place) for p in problems] == [("b.toml", "stroke")]
    assert "a.toml" in problems[0].sentence


def test_a_file_from_an_editor_that_writes_a_byte_order_mark(tmp_path: Path) -> None:
    (tmp_path / "lob.toml").write_bytes(b"\xef\xbb\xbf" + WHOLE.encode())
    assert read_folders([tmp_path])[1] == []


@pytest.mark.parametrize("value", ["[" * 5000, "1" * 5000], ids=["deep", "long"])
def test_a_file_past_the_limits_of_the_toml_reader_is_a_mistake(tmp_path: Path, value: str) -> None:
    ladder_, problems = read_file(put(tmp_path / "own", deep=f"about = {value}") / "deep.toml")
    assert ladder_ is None
    assert len(problems) == 1


@pytest.fixture(scope="module")
def any_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("any") / "any.toml"


PIECES = [
    *WHOLE.splitlines(keepends=True),
    *("[[drill]]\n", "[[cue]]\n", "[cue]\n", "drill = 3\n", 'cue = ["a"]\n', 'key = "x"\n'),
    *("first_cues = 3\n", "drill = [[1]]\n", "cue = [{}]\n", "rung = 1e9\n", "a.b.c = 1\n"),
]
TEXT = st.lists(st.sampled_from(PIECES) | st.text(max_size=20), max_size=30).map("".join)


@given(st.binary(max_size=200) | TEXT.map(lambda text: text.encode("utf-8", "surrogatepass")))
@steady
def test_any_bytes_give_a_ladder_or_problems(any_file: Path, data: bytes) -> None:
    any_file.write_bytes(data)
    found, problems = read_file(any_file)
    assert isinstance(found, Ladder) is not bool(problems)
    assert all(problem.file == str(any_file) for problem in problems)
