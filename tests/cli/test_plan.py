"""`courtlog plan`: prints for every day of the samples, is kept, changed and forgotten."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, Home, home_with

LAST = ("--date", "2026-05-15")


@pytest.mark.parametrize(
    ("sample", "dates"),
    [
        ("harbour", [f"2026-05-{day}" for day in range(11, 17)]),
        ("weekend", [f"2026-06-0{day}" for day in range(6, 9)]),
    ],
)
def test_every_day_of_the_samples_has_a_plan_of_80_columns(
    request: pytest.FixtureRequest, sample: str, dates: list[str]
) -> None:
    home: Home = request.getfixturevalue(sample)
    for on in dates:
        for more in ((), ("--rounds",), ("--full",)):
            lines = home.run("plan", "--date", on, "--hours", "2", *more).lines
            assert max(map(len, lines)) <= 80
            if on == dates[-1]:
                # It comes after the sample's last planned day: nothing is proposed for it.
                assert "none is proposed" in lines[0]
                continue
            assert "a proposal" in lines[0]
            assert sum(line.startswith("Block ") for line in lines) in ((4, 5) if more else (0,))
            assert any("it fits" in line for line in lines)


def test_the_plan_is_plain_letters_or_json_when_wished(harbour: Home) -> None:
    home = harbour
    assert "·" not in "\n".join(home.run("plan", *LAST, "--plain").lines)
    facts = json.loads(home.run("plan", *LAST, "--json").out)
    assert (facts["number"], facts["planned_days"], facts["kept"]) == (5, 5, False)
    purposes = [{line["purpose"] for line in block} for block in facts["blocks"]]
    assert purposes == [{"hold"}, {"yardstick"}, {"practice"}, {"practice"}]
    first = json.loads(home.run("plan", "--date", "2026-05-12", "--json").out)
    on_day_one = json.loads(home.run("day", "--date", "2026-05-11", "--json").out)
    yardsticks = {
        played["drill"]
        for player in on_day_one["players"]
        for played in player["rounds"]
        if played["purpose"] == "yardstick"
    }
    assert {line["drill"] for line in facts["blocks"][1]} == yardsticks
    assert {line["drill"] for line in facts["blocks"][0]} == yardsticks
    assert first["effort"]["from_basket"] == 300
    evening = [(line["purpose"], line["balls"], line["reason"]) for line in first["blocks"][-1]]
    assert evening == [("hold", 10, "to compare with the next morning")] * 6


def test_a_plan_is_kept_changed_and_forgotten(tmp_path: Path) -> None:
    home = home_with(tmp_path, HARBOUR)
    kept = home.run("plan", "keep", *LAST, "--practice-rounds", "1").lines
    assert "the plan you kept" in kept[0]
    assert "Forget that one first" in home.run("plan", "keep", *LAST).err
    changed = home.run(
        "plan", *LAST, "set", "2", "--drill", "forehand/live", "--purpose", "transfer", "--balls=12"
    )
    assert "transfer, no help, 12 balls: Anouk on Live cross-court" in " ".join(changed.out.split())
    table = home.run("plan", *LAST, "--rounds").lines
    assert any("Live cross-court" in line and line.endswith("12") for line in table)
    moved = home.run("plan", "move", "2", "1", *LAST).lines
    assert moved[2].startswith("Order: Anouk, Ruben,")
    dropped = home.run("plan", "drop", "1", *LAST).lines
    assert not any("Live cross-court" in line for line in dropped[:12])
    added = home.run("plan", "add", "anouk", "--purpose", "hold", *LAST).out
    assert "hold, no help, 20 balls: Anouk on " in " ".join(added.split())
    again = home.run("plan", *LAST).out
    assert again == added
    assert "The proposal is another" in again
    assert "The proposal for" in home.run("plan", *LAST, "--why").out
    forgotten = home.run("plan", "forget", *LAST).out
    assert forgotten == home.run("plan", *LAST).out
    assert "a proposal" in forgotten


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("keep", "--date", "2026-05-13"), "is past"),
        (("set", "1", "--drill", "forehand/hand-fed", *LAST), "Near it: forehand/hand-feed"),
        (("set", "1", "--purpose", "nap", *LAST), "Write choosing, yardstick"),
        (("move", "1", "99", *LAST), "no round 99"),
        (("add", "Nobody", *LAST), "no player called"),
        (("forget", *LAST), "No plan is kept"),
        (("--stroke", "juggling"), "no stroke called"),
        (("--date", "soon"), "is no date"),
    ],
)
def test_nonsense_is_refused_and_nothing_is_kept(
    harbour: Home, words: tuple[str, ...], said: str
) -> None:
    refused = harbour.run("plan", *words)
    assert (refused.code, refused.out) == (1, "")
    assert said in refused.err


def test_a_day_that_is_too_short_is_told_so(harbour: Home) -> None:
    short = " ".join(harbour.run("plan", *LAST, "--hours", "0.2").out.split())
    assert "The day has 12 minutes: it does not fit." in short
    tight = " ".join(harbour.run("plan", *LAST, "--hours", "0.75").out.split())
    assert "it fits only at a quick pace" in tight


def test_a_clinic_of_unknown_length_has_no_last_yardstick(tmp_path: Path) -> None:
    sheet = tmp_path / "short.txt"
    sheet.write_text(
        "clinic Short  zone UTC\nday 2026-05-12  court 1  coach Ines\n"
        "player Maren   drill forehand/day-one-feed   purpose yardstick   cues turn\n2 0 1\n"
        "player Maren   drill forehand/hand-feed   purpose practice   cues turn\n2 0 1\n"
        "roster Tove\n",
        encoding="utf-8",
    )
    home = home_with(tmp_path, sheet)
    page = home.run("plan", "--date", "2026-05-20").out
    assert "no last yardstick is planned" in " ".join(page.split())
    assert "Order: Tove, Maren" in page
    new = home.run("plan", "--date", "2026-05-20", "--stroke", "serve").out
    assert "choosing" in new
    assert "hold" not in new.partition("in all")[0].partition("practice")[0]
    assert "too few balls to tell" not in page
    figures = home.run("plan", "--date", "2026-05-20", "--figures").out
    assert "too few balls to tell" in " ".join(figures.split())


def test_an_empty_roster_and_an_unknown_drill_are_said(tmp_path: Path) -> None:
    sheet = tmp_path / "empty.txt"
    sheet.write_text("clinic Empty  zone UTC\n", encoding="utf-8")
    home = home_with(tmp_path, sheet)
    page = home.run("plan", "--date", "2026-05-20").out
    assert "No round is planned." in page
    assert "Nobody is on the roster" in page
    assert home.run("plan", "keep", "--date", "2026-05-20").code == 1
    named = tmp_path / "named.txt"
    named.write_text("clinic Named  zone UTC\nroster Tove\n", encoding="utf-8")
    other = home_with(tmp_path, named)
    day = ("--date", "2026-05-20", "--clinic", "Named")
    assert "No drill is known yet for Tove" in other.run("plan", *day).out
    assert "Hand feed" in other.run("plan", *day, "--stroke", "forehand").out
