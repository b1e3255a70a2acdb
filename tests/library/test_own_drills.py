"""A coach's own folder is laid over the shipped ladders: replace, add, and never hide the rest."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog import locations
from courtlog.errors import LibraryError, Problem
from courtlog.library.drill_files import Library, load, read_folders
from tests.library.shelf import CUE, DRILL, head, ladder, put, shipped

TURN = CUE.format(key="turn", part="preparation")


def over(own: Path) -> tuple[Library, list[Problem]]:
    return read_folders([locations.shipped_drills(), own])


def forehand(*cards: str) -> str:
    return head("forehand", "turn") + "".join(cards)


def test_no_own_folder_is_no_problem(tmp_path: Path) -> None:
    assert over(tmp_path / "none") == (shipped(), [])


def test_the_same_key_replaces_and_a_new_key_joins(tmp_path: Path) -> None:
    own = put(
        tmp_path / "own",
        mine=forehand(
            TURN,
            DRILL.format(key="live", rung=7, feed="live"),
            DRILL.format(key="extra", rung=4, feed="hand"),
        ),
    )
    library, problems = over(own)
    was, now = shipped().ladder("forehand"), library.ladder("forehand")
    assert problems == []
    assert now.first_cues == ("turn",)
    assert [drill.key for drill in now.drills] == [*(d.key for d in was.drills), "extra"]
    assert library.drill("forehand/live")[1].name == "A drill"
    assert library.drill("forehand/fence")[1] == shipped().drill("forehand/fence")[1]
    assert [cue.key for cue in now.cues] == [cue.key for cue in was.cues]
    assert now.cue("turn") != was.cue("turn")
    assert {s: held for s, held in library.ladders.items() if s != "forehand"} == {
        s: held for s, held in shipped().ladders.items() if s != "forehand"
    }


@pytest.mark.parametrize("part", ["preparation", "contact", "finish"])
def test_a_new_cue_stands_at_the_end_of_its_part_of_the_stroke(tmp_path: Path, part: str) -> None:
    own = put(
        tmp_path / "own",
        mine=forehand(
            TURN,
            CUE.format(key="mine", part=part),
            DRILL.format(key="live", rung=7, feed="live"),
        ),
    )
    library, problems = over(own)
    assert problems == []
    parts = [cue.part.value for cue in library.ladder("forehand").cues]
    assert parts == sorted(parts, key=["preparation", "contact", "finish"].index)
    same_part = [cue.key for cue in library.ladder("forehand").cues if cue.part.value == part]
    assert same_part[-1] == "mine"


def test_a_new_stroke_joins(tmp_path: Path) -> None:
    library, problems = over(put(tmp_path / "own", lob=ladder("lob")))
    assert problems == []
    assert library.names() == sorted([*shipped().names(), "lob/first", "lob/second"], key=stroke)


def stroke(name: str) -> str:
    return name.partition("/")[0]


def test_a_broken_own_file_hides_nothing_else(tmp_path: Path) -> None:
    own = put(tmp_path / "own", broken="stroke = ", lob=ladder("lob"), serve=head("serve", "no"))
    library, problems = over(own)
    assert [(Path(p.file).name, p.place) for p in problems] == [
        ("broken.toml", "1"),
        ("serve.toml", "cue"),
        ("serve.toml", "drill"),
    ]
    assert {*shipped().names(), "lob/first"} <= set(library.names())
    with pytest.raises(LibraryError) as refused:
        load([locations.shipped_drills(), own])
    assert list(refused.value.problems) == problems
    assert "3 mistakes" in refused.value.happened


def test_first_cues_may_name_a_shipped_cue_but_no_unknown_one(tmp_path: Path) -> None:
    live = DRILL.format(key="live", rung=7, feed="live")
    mine = forehand(CUE.format(key="mine", part="finish"), live)
    assert over(put(tmp_path / "a", mine=mine))[1] == []
    _, problems = over(put(tmp_path / "b", mine=mine.replace('["turn"]', '["turn", "toss"]')))
    assert [problem.place for problem in problems] == ["first_cues"]


def test_a_rung_above_a_gap_is_a_mistake_of_the_own_file(tmp_path: Path) -> None:
    mine = forehand(TURN, DRILL.format(key="extra", rung=9, feed="live"))
    _, problems = over(put(tmp_path / "own", mine=mine))
    assert [(Path(p.file).name, p.place) for p in problems] == [("mine.toml", "drill")]
    assert "rung 8" in problems[0].sentence


def test_a_key_used_twice_in_an_own_file_is_a_mistake(tmp_path: Path) -> None:
    extra = DRILL.format(key="extra", rung=4, feed="hand")
    _, problems = over(put(tmp_path / "own", mine=forehand(TURN, extra, extra)))
    assert [problem.place for problem in problems] == ['drill "extra"']


def test_checking_the_shipped_folder_itself_finds_no_mistake() -> None:
    assert over(locations.shipped_drills())[1] == []
