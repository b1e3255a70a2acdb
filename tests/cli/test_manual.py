"""`courtlog manual`: its topics, a page, a word that is looked for, and none."""

from __future__ import annotations

from courtlog import manual
from courtlog.cli.actions.manual.readable import as_lines
from tests.cli.program import Home


def test_the_topics_stand_on_a_line_each(home: Home) -> None:
    lines = home.run("manual").lines
    assert [line.split()[0] for line in lines[: len(manual.TOPICS)]] == [*manual.TOPICS]
    assert all(topic.about in line for topic, line in zip(manual.topics(), lines, strict=False))
    assert max(map(len, lines)) <= 80


def test_a_topic_is_printed(home: Home) -> None:
    assert home.run("manual", "Care").out == as_lines(manual.page("care"), 80)


def test_a_word_is_looked_for(home: Home) -> None:
    assert home.run("manual", "A Clicker of").lines == [
        "A Clicker of stands in these topics:",
        "keys      A clicker of two keys",
    ]


def test_a_topic_that_is_not_there_is_refused(home: Home) -> None:
    said = home.run("manual", "kyes")
    assert said.code == 1
    assert said.err.endswith("and no page with that word. Near it: keys.\n")
    assert "`courtlog manual` lists the topics." in home.run("manual", "").err
