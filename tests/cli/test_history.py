"""`courtlog history` and `courtlog history back` as a coach starts them."""

from __future__ import annotations

from tests.cli.program import HARBOUR, Home
from tests.court import desk_in, feed


def test_history_and_back(home: Home) -> None:
    desk = desk_in(home.folder)
    feed(desk, "222 0-1!/")
    desk.book.close()
    steps = home.run("history").lines
    assert len(steps) == 7
    assert steps[0].split()[:1] == ["1"]
    assert steps[-1].endswith("ball 2: 0-1!, was (0-1!)")
    assert home.run("history", "--player", "Tove").lines[0].startswith("No step")
    assert home.run("history", "back", "7").lines == ["Step 7 is taken back."]
    refused = home.run("history", "back", "1")
    assert (refused.code, refused.out) == (1, "")
    assert "changed again since" in refused.err
    assert home.run("history").lines[-1].endswith("took back 7: ball 2: (0-1!), was 0-1!")
    assert home.run("doctor").lines[0] == "The book is sound."


def test_a_sheet_is_one_step(home: Home) -> None:
    *_, last = home.run("sheet", "in", HARBOUR).lines
    assert last == "`courtlog history back 1` takes it back."
    (step,) = home.run("history").lines
    assert "sheet: 234 rounds, 2934 balls in" in step
    out = home.run("sheet", "out").out
    assert home.run("history", "back", "1").lines == ["Step 1 is taken back."]
    assert "no clinic yet" in home.run("sheet", "out").err
    assert "`courtlog history forward`" in home.run("history", "back", "1").err
    assert home.run("history", "forward", "1").lines == ["Step 1 is in the book again."]
    assert home.run("sheet", "out").out == out
    assert "No step took this one back" in home.run("history", "forward", "1").err
    assert home.run("history", "back", "1").code == 1  # it was, and what did so was in its turn
    assert home.run("history", "back", "3").code == 0
    assert home.run("history", "forward", "1").code == 0
    assert home.run("sheet", "out").out == out
    assert home.run("doctor").lines[0] == "The book is sound."
