"""Every mistake of a sheet comes at once, with its line and one sentence; good lines stay quiet."""

from __future__ import annotations

import pytest

from courtlog.errors import LibraryError
from courtlog.library.sheet_in import read_sheet
from tests.library.shelf import mistakes, shipped

DAY = "day 2026-05-12  court 2  coach Ines"
PLAYER = "player Maren  drill forehand/racquet-feed  cues turn spacing finish"
GOOD = ["clinic Harbour Week  zone Europe/Lisbon", DAY, PLAYER, "222 212", "pain elbow 2  effort 6"]

AFTER_A_ROUND = {
    "22": "has 2 grades, but the round has 3 cues",
    "2222!": "has 4 grades, but the round has 3 cues",
    "222 3-1 222": "'3-1' is no ball",
    "22!2": "'22!2' is no ball",
    "222!!": "'222!!' is no ball",
    "..": "'..' is no ball",
    "maren": "'maren' is no ball",
    "２２２": "is no ball",
    "222@25:00": "'25:00' is no time of day",
    "222@": "is no ball",
    "222@09:00@10:00": "'09:00@10:00' is no time of day",
    '"said first"': "a note on a ball stands after the ball",
    'note "left open': "is a quote left open?",
    r'note "a \d"': "write \\\\ for a backslash",
    "note": "'note' needs a value",
    "pain 11": "pain is a whole number from 0 to 10, not '11'",
    "pain -1": "pain is a whole number from 0 to 10",
    "pain 2.5": "pain is a whole number from 0 to 10",
    "pain elbow": "pain is a whole number from 0 to 10, not 'elbow'",
    "pain": "pain is a whole number from 0 to 10",
    "signs numb": "signs are sudden-onset, numbness, tingling, swelling, weakness, night-pain",
    "pain 2  effort 99": "effort is a whole number from 0 to 10, not '99'",
    "minutes many": "minutes is a whole number from 0 to 1440, not 'many'",
    "effort 3  effort 4": "'effort' stands twice",
    "effort 3  when lunch": "when is one of arrival, break, end, morning, not 'lunch'",
    "effort 3  time noon": "'noon' is no time of day",
    "player Maren": "'drill' needs a value",
    "player drill forehand/live": "'player' needs a value",
    "player Bo  drill forehand/moon": "There is no drill called 'forehand/moon'",
    "player Bo  drill backhand/live": "There is no stroke called 'backhand'",
    "player Bo  drill forehand": "There is no drill called 'forehand'",
    "player Bo  drill forehand/live  cues turn toss": "forehand has no cue 'toss'",
    "player Bo  drill forehand/live  cues turn turn": "a cue stands twice",
    "player Bo  drill forehand/live  cues split-step turn low-to-high contact finish": "at most 4",
    "player Bo  drill forehand/live  purpose fun": "purpose is one of choosing, yardstick",
    "player Bo  drill forehand/live  time 9.30": "'9.30' is no time of day",
    "player Bo  drill forehand/live  time 09:30-24:10": "'24:10' is no time of day",
    "player Bo  drill forehand/live  time 2026-02-30T09:30": "'2026-02-30' is no date",
    "player Bo  drill forehand/live  time 09:30-2026-05-13T9": "'9' is no time of day",
    "player Bo  drill forehand/live  paused -3": "paused is a whole number",
    "player Bo  drill forehand/live  order 2": "order is written in spot numbers 1 to 1",
    "player Bo  drill forehand/live  player Cas": "'player' stands twice",
    "checkin": "'checkin' needs a value",
    "checkin Bo  pain elbow": "pain is a whole number",
    "day": "'day' needs a value",
    "day tomorrow": "'tomorrow' is no date: write it like 2026-05-12",
    "day 2026-02-29": "'2026-02-29' is no date",
    "day 12.05.2026": "'12.05.2026' is no date",
    DAY: "2026-05-12 on this court is on the sheet twice",
    "clinic Other": "a second `clinic` line",
    "roster": "'roster' needs a value",
    "roster Bo  hand up": "hand is left or right, not 'up'",
}


def told(*lines: str) -> dict[int, str]:
    """The mistakes of a sheet of these lines, by line number."""
    with pytest.raises(LibraryError) as refused:
        read_sheet("\n".join(lines), "sheet.txt", shipped(), "UTC")
    assert {problem.file for problem in refused.value.problems} == {"sheet.txt"}
    count = len(refused.value.problems)
    assert refused.value.happened.startswith(f"The sheet has {count} mistake")
    assert "nothing was written" in refused.value.happened
    return mistakes(refused.value)


@pytest.mark.parametrize("line", AFTER_A_ROUND)
def test_one_mistake_is_one_problem_on_its_line(line: str) -> None:
    found = told(*GOOD, line)
    assert list(found) == [len(GOOD) + 1]
    sentence = found[len(GOOD) + 1]
    assert AFTER_A_ROUND[line] in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence


def test_all_mistakes_of_a_sheet_come_at_once_each_on_its_line() -> None:
    lines = [line for line in AFTER_A_ROUND if not line.startswith(("day", "clinic", '"'))]
    mixed = [part for line in lines for part in (PLAYER, "222", line, "# fine", "")]
    found = told(*GOOD, *mixed)
    wrong = {len(GOOD) + 3 + 5 * number: line for number, line in enumerate(lines)}
    assert list(found) == list(wrong)
    assert [line for at, line in wrong.items() if AFTER_A_ROUND[line] not in found[at]] == []


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        ([], {1: "no `clinic` line"}),
        (["# nothing", "", "   "], {1: "no `clinic` line"}),
        (GOOD[1:], {1: "no `clinic` line"}),
        (["clinic X", PLAYER, "222", "pain 3"], {2: "a `day` line must come first"}),
        (["clinic X", "checkin Maren  pain 3", DAY], {2: "a `day` line must come first"}),
        (["clinic X", DAY, "222"], {3: "no player's round is open here"}),
        (["clinic X", DAY, "pain 3"], {3: "follows a player's round"}),
        (["clinic X", DAY, 'note "3"'], {3: "follows a player's round"}),
        (["clinic X", "222"], {2: "no player's round is open here"}),
        (["clinic X  zone Mars/Base"], {1: "'Mars/Base' is no time zone"}),
        (["clinic X  zone ../UTC"], {1: "is no time zone"}),
        (["clinic X  zone"], {1: "is no time zone"}),
        (["clinic X  days 0"], {1: "days is a whole number from 1 to 366, not '0'"}),
        (["clinic X  days many"], {1: "days is a whole number"}),
        (["hello clinic X", *GOOD], {1: "'hello' is no keyword"}),
        (['"clinic" X', *GOOD], {1: "'clinic' is no keyword"}),
    ],
)
def test_lines_out_of_their_place(lines: list[str], expected: dict[int, str]) -> None:
    found = told(*lines)
    assert list(found) == list(expected)
    assert all(words in found[line] for line, words in expected.items())


def test_the_balls_of_a_wrong_player_line_are_not_judged() -> None:
    found = told(*GOOD, "player Bo  drill forehand/moon  cues a b", "22 12", "pain 3", PLAYER, "22")
    assert list(found) == [6, 10]


def test_the_rounds_of_a_wrong_day_line_are_not_judged() -> None:
    assert list(told("clinic X", "day 2026-13-12", PLAYER, "222", PLAYER, "222")) == [2]


def test_a_name_that_is_on_the_roster_twice() -> None:
    assert list(told(GOOD[0], "roster Bo  hand left", "roster Bo  hand right", *GOOD[1:])) == [3]


def test_a_mistake_shows_what_hides_in_it() -> None:
    found = told(*GOOD, "22\u202e2", "2\x1b[31m")
    assert "\\u202e" in found[6]
    assert "\\x1b" in found[7]
