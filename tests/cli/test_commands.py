"""Every command does what its help says, on a plain page of 80 columns, wherever it is piped."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import fields
from pathlib import Path

import pytest
from rich.cells import cell_len

from courtlog import __version__
from courtlog.courtside.sound import loudspeaker
from courtlog.courtside.sound.loudspeaker import Loudspeaker
from courtlog.settings import Settings
from tests.cli.program import HARBOUR, PROGRAM, WEEKEND, Home, Said
from tests.courtside.sound.fake_programs import HEARS_ALL, WELL, FakePrograms

PLAYERS = ["Maren", "Tove", "Ruben", "Anouk", "Ilse", "Kasimir"]
DATES = [f"2026-05-{day}" for day in range(11, 16)]
COMMANDS = [
    "",
    *("demo", "day", "trend", "drills", "drills list", "drills show", "drills check"),
    *("plan", "plan keep", "plan set", "plan move", "plan drop", "plan add", "plan forget"),
    *("sheet", "sheet in", "sheet out", "settings", "version"),
]


def page(said: Said) -> list[str]:
    """The printed lines: each fits a terminal, and none holds anything a terminal would obey."""
    lines = said.lines
    assert [line for line in lines if cell_len(line) > 80] == []
    assert [line for line in lines if not line.isprintable()] == []
    return lines


def headed(lines: list[str], *names: str) -> list[str]:
    """Which of these players have a headline of their own, in the page's order."""
    return [
        name for line in lines for name in names if line.startswith((f"{name}   ", f"{name} · "))
    ]


@pytest.mark.parametrize("command", COMMANDS)
def test_help_fits_and_says_what_the_command_is_for(home: Home, command: str) -> None:
    lines = page(home.run(*command.split(), "--help"))
    assert lines[0].startswith("Usage: ")
    assert any("--help" in line for line in lines)
    assert home.files() == {}


@pytest.mark.parametrize("command", ["drills", "sheet"])
def test_a_group_alone_lists_its_commands(home: Home, command: str) -> None:
    said = home.run(command)
    assert said.code == 2
    assert "Commands:" in said.out + said.err


def test_version_says_where_everything_lies(home: Home) -> None:
    lines = home.run("version").lines
    assert lines[0].split() == ["courtlog", __version__]
    assert [line.split() for line in lines[1:]] == [
        ["book", str(home.book)],
        ["settings", str(home.settings)],
        ["drills", str(home.drills)],
    ]
    assert home.files() == {}


def test_demo_without_a_terminal_prints_the_third_day(home: Home, harbour: Home) -> None:
    lines = home.run("demo").lines
    assert lines == harbour.run("day", "--date", DATES[2]).lines
    assert lines[0].startswith("Harbour Week · day 3 of 5 · Wed 13 May 2026")
    assert headed(lines, *PLAYERS) == PLAYERS
    assert home.files() == {}


@pytest.mark.parametrize("date", DATES[::2])
def test_the_day_fits(harbour: Home, date: str) -> None:
    assert headed(page(harbour.run("day", "--date", date)), *PLAYERS) == PLAYERS


@pytest.mark.parametrize("player", PLAYERS[::3])
def test_the_trend_fits(harbour: Home, player: str) -> None:
    assert page(harbour.run("trend", player))[0].startswith(f"{player} · Harbour Week · 5 days")


def test_the_day_without_a_date_is_the_latest(harbour: Home, weekend: Home) -> None:
    assert harbour.run("day") == harbour.run("day", "--date", DATES[-1])
    assert weekend.run("day").lines[0].startswith("Two-court Weekend · day 2 of 2 · Sun 7 Jun 2026")


def test_the_day_of_one_player_by_the_beginning_of_the_name(harbour: Home) -> None:
    one = harbour.run("day", "--player", "rub").lines
    assert headed(one, *PLAYERS) == ["Ruben"]
    whole, full = (harbour.run("day", "--full", *of).lines for of in ([], ["--player", "rub"]))
    assert headed(full, *PLAYERS) == ["Ruben"]
    assert set(full) <= set(whole)


def test_a_player_who_was_not_there_has_a_page_that_says_so(weekend: Home) -> None:
    lines = weekend.run("day", "--player", "Jorun").lines
    assert headed(lines, "Jorun") == ["Jorun"]
    assert any("No balls" in line for line in lines)
    assert not any("%" in line for line in lines if "Jorun" in line)


def test_json_holds_the_same_players_days_and_no_more(harbour: Home) -> None:
    day = json.loads(harbour.run("day", "--json").out)
    assert (day["clinic"], day["date"], day["number"]) == ("Harbour Week", DATES[-1], 5)
    assert [player["player"] for player in day["players"]] == PLAYERS
    one = json.loads(harbour.run("day", "--json", "--player", "Ilse").out)
    assert one["players"] == [day["players"][4]]
    trend = json.loads(harbour.run("trend", "Ilse", "--json").out)
    assert (trend["player"], trend["dates"]) == ("Ilse", DATES)


def test_drills_list_show_and_check(home: Home) -> None:
    listed = page(home.run("drills", "list"))
    names = [line.split()[1] for line in listed if line.startswith("  ")]
    assert len(names) == len(set(names)) >= 45
    forehand = page(home.run("drills", "list", "forehand"))
    assert [line for line in listed if "forehand/" in line] == forehand[1:]
    shown = home.run("drills", "show", "forehand/hand-feed").lines
    assert shown[0] == "Forehand · Hand feed from 3 m"
    assert all(any(cue in line for line in shown) for cue in ("turn", "spacing", "finish"))
    (checked,) = page(home.run("drills", "check"))
    assert checked == f"{len(names)} drills of 8 strokes: no mistakes."


@pytest.mark.parametrize("name", ["forehand/live", "return/shadow", "serve/baseline"])
def test_a_shown_drill_fits(home: Home, name: str) -> None:
    page(home.run("drills", "show", name))


@pytest.mark.parametrize("sheet", [HARBOUR, WEEKEND], ids=lambda sheet: sheet.stem)
def test_a_sheet_comes_out_as_it_went_in(home: Home, sheet: Path) -> None:
    said = page(home.run("sheet", "in", sheet, "--book", "other.db"))
    assert len(said) == 2  # what came in, and how it is taken back
    assert home.run("sheet", "out", "--book", "other.db").out == sheet.read_text(encoding="utf-8")
    assert home.run("sheet", "out", "--book", "other.db", "--to", "out.txt").out == ""
    assert (home.folder / "out.txt").read_bytes() == sheet.read_bytes()
    assert set(home.files()) == {"other.db", "out.txt"}


def test_one_date_out_into_another_book_prints_the_same_counts(harbour: Home, home: Home) -> None:
    (home.folder / "day.txt").write_text(
        harbour.run("sheet", "out", "--date", DATES[0]).out, encoding="utf-8"
    )
    assert home.run("sheet", "in", "day.txt").lines
    first = harbour.run("day", "--date", DATES[0], "--json").out
    assert home.run("day", "--json").out == first


def test_two_clinics_in_one_book(home: Home) -> None:
    for sheet in (HARBOUR, WEEKEND):
        assert home.run("sheet", "in", sheet).lines
    assert home.run("day").lines[0].startswith("Two-court Weekend")
    assert home.run("day", "--clinic", "harbour week").lines[0].startswith("Harbour Week · day 5")
    assert home.run("trend", "Tove", "--clinic", "Harbour Week").lines[0].startswith("Tove ")


def test_settings_show_change_and_stay(home: Home) -> None:
    names = [field.name for field in fields(Settings)]
    assert [line.split()[0] for line in home.run("settings").lines] == names
    assert home.files() == {}
    (line,) = home.run("settings", "theme", "night").lines
    assert line.split()[:2] == ["theme", "night"]
    assert home.run("settings", "basket", "72").lines
    assert home.run("settings", "taught", "q a z w s x e d c").lines
    shown = {line.split()[0]: line.split()[1] for line in home.run("settings").lines}
    assert (shown["theme"], shown["basket"], shown["pad"]) == ("night", "72", "right")
    assert json.loads(home.settings.read_text())["taught"] == list("qazwsxedc")
    assert set(home.files()) == {"settings.json"}


def test_settings_fit(home: Home) -> None:
    page(home.run("settings"))


@pytest.mark.parametrize("command", ["day", "drills show serve/baseline", "settings"])
def test_an_old_locale_does_not_stop_the_page(harbour: Home, command: str) -> None:
    usual = harbour.run(*command.split())
    assert usual.lines
    plain = {"LC_ALL": "C", "LANG": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0"}
    assert harbour.run(*command.split(), **plain) == usual


@pytest.mark.parametrize("command", ["day", "sheet out", "trend Tove", "version", "settings"])
def test_a_reader_that_has_gone_is_no_accident(harbour: Home, command: str) -> None:
    """`courtlog day | head -1`, at its worst: the reader is gone before the first line."""
    reading, writing = os.pipe()
    os.close(reading)
    try:
        done = subprocess.run(
            [*PROGRAM, *command.split()],
            cwd=harbour.folder,
            env=harbour.environment(),
            stdin=subprocess.DEVNULL,
            stdout=writing,
            stderr=subprocess.PIPE,
            check=False,
            timeout=60,
        )
    finally:
        os.close(writing)
    assert done.stderr == b""


@pytest.mark.parametrize("closed", ["<&-", ">&-"])
def test_a_start_without_one_of_the_streams(home: Home, closed: str) -> None:
    shell = ["sh", "-c", f'exec "$@" {closed}', "sh"]
    assert "Traceback" not in home.run("demo", program=[*shell, *PROGRAM]).err


@pytest.mark.parametrize("command", ["day", "trend Tove", "player Tove"])
def test_a_page_in_letters_alone(harbour: Home, command: str) -> None:
    usual = page(harbour.run(*command.split()))
    plain = page(harbour.run(*command.split(), "--plain"))
    assert all(line.isascii() for line in plain)
    assert len(plain) == len(usual)


def test_every_sound_can_be_heard_or_it_is_said_what_is_missing(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(loudspeaker, "Loudspeaker", Loudspeaker)
    lines = page(home.run("settings", "--hear"))
    assert [line.split(":")[0] for line in lines] == [
        *("low, twice", "one long", "falling", "rising", "a tick"),
        "Nothing here plays sounds",
        "said aloud",
        "Nothing here speaks",
    ]


@pytest.mark.skipif(sys.platform == "win32", reason="the fake programs are shell scripts")
def test_every_sound_and_a_feed_are_heard_by_turns(
    home: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(loudspeaker, "Loudspeaker", Loudspeaker)
    fakes = FakePrograms.in_folder(tmp_path / "fakes")
    fakes.put("aplay", WELL)
    fakes.put("espeak-ng", HEARS_ALL)
    path, sounds = str(tmp_path / "fakes" / "bin"), str(tmp_path / "fakes" / "sounds")
    lines = page(home.run("settings", "--hear", PATH=path, COURTLOG_SOUNDS=sounds))
    assert not any("Nothing" in line for line in lines)
    assert len(fakes.calls) == 6
    assert "Tough: deep to the forehand corner" in fakes.heard()
    assert fakes.left == []
