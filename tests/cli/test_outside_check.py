"""Counts and shares, to the digit, as pandas counts them from the sheets with another parser.

pandas (groupby, crosstab) is the outside library; the parser here knows only the words of a sheet
and shares no line with the program.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pandas as pd
import pytest

from tests.cli.program import HARBOUR, WEEKEND, Home

PLAYER = re.compile(
    r"player (?P<player>.+?)\s+drill (?P<stroke>[^/]+)/\S+.*?\bcues (?P<cues>[^#]+)"
)
CUES = re.compile(r"^(?P<cues>(?:[a-z-]+ ?)+?)(?=\s{2,}|$)")
BALL = re.compile(r"(?<!\S)(?P<grades>[012-]{2,}|\.)(?P<tough>!?)(?:@\S+)?(?!\S)")
ORDER = ["missed", "near", "made", "unseen"]
NAMES = {"0": "missed", "1": "near", "2": "made", "-": "unseen"}

WHO = [
    *((HARBOUR, name) for name in ("Maren", "Tove", "Ruben", "Anouk", "Ilse", "Kasimir")),
    *((WEEKEND, name) for name in ("Sanne", "Emrik", "Jorun", "Pilou")),
]
WHEN = [
    *((HARBOUR, f"2026-05-{day}") for day in range(11, 16)),
    *((WEEKEND, f"2026-06-{day:02}") for day in (6, 7)),
]


@cache
def ratings(sheet: Path) -> pd.DataFrame:
    """One row for each cue of each ball of a sheet."""
    rows: list[tuple[object, ...]] = []
    date, player, stroke = "", "", ""
    cues: list[str] = []
    round_ = ball = 0
    for line in sheet.read_text(encoding="utf-8").splitlines():
        if line.startswith("day "):
            date = line.split()[1]
        elif line.startswith("player "):
            found = PLAYER.match(line)
            assert found, line
            player, stroke, round_ = found["player"], found["stroke"], round_ + 1
            named = CUES.match(found["cues"])
            assert named, line
            cues = named["cues"].split()
        elif re.match(r"[012.-]", line):
            for taken in BALL.finditer(re.sub(r'"[^"]*"', "", line)):
                ball += 1
                digits = "-" * len(cues) if taken["grades"] == "." else taken["grades"]
                assert len(digits) == len(cues), line
                rows += [
                    (date, player, round_, ball, bool(taken["tough"]), stroke, cue, NAMES[digit])
                    for cue, digit in zip(cues, digits, strict=True)
                ]
    columns = ["date", "player", "round", "ball", "tough", "stroke", "cue", "grade"]
    return pd.DataFrame(rows, columns=columns)


def counts(frame: pd.DataFrame) -> dict[str, dict[str, object]]:
    """Counts and share by `date stroke cue` (pandas.crosstab); the share of none is None."""
    if frame.empty:
        return {}
    key = frame["date"] + " " + frame["stroke"] + " " + frame["cue"]
    table = pd.crosstab(key, frame["grade"]).reindex(columns=ORDER, fill_value=0)
    table["share"] = table["made"] / table[["missed", "near", "made"]].sum(axis="columns")
    found: dict[str, dict[str, object]] = {}
    for name, row in table.to_dict("index").items():
        share = None if pd.isna(row["share"]) else row["share"]
        found[str(name)] = {grade: int(row[grade]) for grade in ORDER} | {"share": share}
    return found


def claimed(cues: list[dict[str, Any]], dates: set[str]) -> dict[str, dict[str, object]]:
    """The same from the program's JSON; a cue without a ball on a date is left out."""
    found: dict[str, dict[str, object]] = {}
    for cue in cues:
        for day in cue["days"]:
            told = {name: day[name] for name in (*ORDER, "share")}
            if day["date"] in dates and any(told[grade] for grade in ORDER):
                found[f"{day['date']} {cue['stroke']} {cue['cue']}"] = told
            elif day["date"] in dates:
                assert told == dict.fromkeys(ORDER, 0) | {"share": None}
    return found


def home_of(sheet: Path, harbour: Home, weekend: Home) -> Home:
    return harbour if sheet is HARBOUR else weekend


def test_the_parser_finds_balls_of_all_kinds() -> None:
    for sheet, balls in ((HARBOUR, 2400), (WEEKEND, 300)):
        frame = ratings(sheet)
        assert frame["ball"].nunique() > balls
        assert set(frame["grade"]) == set(ORDER)
        assert set(frame["tough"]) == {True, False}


@pytest.mark.parametrize(("sheet", "date"), WHEN, ids=[date for _, date in WHEN])
def test_the_day(harbour: Home, weekend: Home, sheet: Path, date: str) -> None:
    home = home_of(sheet, harbour, weekend)
    day = json.loads(home.run("day", "--date", date, "--json").out)
    of_date = ratings(sheet)[ratings(sheet)["date"] == date]
    until = ratings(sheet)[ratings(sheet)["date"] <= date]
    assert {player["player"] for player in day["players"]} == set(of_date["player"])
    for player in day["players"]:
        mine = of_date[of_date["player"] == player["player"]]
        assert claimed(player["cues"], {date}) == counts(mine)
        keys = {(cue["stroke"], cue["cue"]) for cue in player["cues"]}
        before = until[until["player"] == player["player"]]
        before = before[
            [pair in keys for pair in zip(before["stroke"], before["cue"], strict=True)]
        ]
        assert claimed(player["cues"], set(until["date"])) == counts(before)
        balls = mine.drop_duplicates("ball")
        assert player["balls"] == len(balls)
        assert player["tough"] == int(balls["tough"].sum())
        by_round = balls.groupby("round")["tough"].agg(["size", "sum"]).to_numpy().tolist()
        assert [[told["balls"], told["tough"]] for told in player["rounds"]] == by_round


@pytest.mark.parametrize(("sheet", "name"), WHO, ids=[name for _, name in WHO])
def test_the_trend(harbour: Home, weekend: Home, sheet: Path, name: str) -> None:
    home = home_of(sheet, harbour, weekend)
    trend = json.loads(home.run("trend", name, "--json").out)
    dates = sorted(set(ratings(sheet)["date"]))
    assert (trend["player"], trend["dates"]) == (name, dates)
    mine = ratings(sheet)[ratings(sheet)["player"] == name]
    assert claimed(trend["cues"], set(dates)) == counts(mine)
