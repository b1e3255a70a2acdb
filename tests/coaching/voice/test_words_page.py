"""The manual's page on words: what it quotes is what is said."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import courtlog
from courtlog.coaching.voice import change_voice, highlight_voice, rung_voice
from courtlog.coaching.voice.figures import LOOK_LUCK, SLIP_BY_LUCK
from courtlog.coaching.voice.sentence_length import MOST_WORDS
from courtlog.measures.common.enough import CONFIDENCE, LOOK_CONFIDENCE, MINIMUMS, Question
from tests.pages.first_depth import MOST_GRADE, RETIRED

MANUAL = Path(courtlog.__file__).parent / "manual"
PAGE = (MANUAL / "words.md").read_text(encoding="utf-8")
PROSE = " ".join(re.sub(r"^> ", "", PAGE, flags=re.M).split())

VERDICTS = (
    change_voice.CANNOT_TELL,
    change_voice.CANNOT_TELL_TOUGH,
    *change_voice.REAL.values(),
    *change_voice.LOOK.values(),
    *change_voice.LOOK_TOUGH.values(),
    change_voice.RATED_TWO_WAYS,
    change_voice.NOT_TO_COMPARE,
    change_voice.NOTHING_ALIKE,
    change_voice.NOT_PLAYED,
    change_voice.PLAY_AGAIN,
)


def first_cells(head: str) -> list[str]:
    """The first cell of each row of the table below this heading."""
    lines = PAGE.split(f"\n## {head}\n", 1)[1].split("\n## ", 1)[0].splitlines()
    return [line.split("|")[1].strip() for line in lines if line.startswith("| ")][1:]


def test_its_table_of_a_change_has_each_verdict_and_no_other() -> None:
    assert sorted(first_cells("What is said of a change")) == sorted(VERDICTS)


def test_its_table_of_the_rung_begins_as_the_sentences_do() -> None:
    source = Path(rung_voice.__file__).read_text(encoding="utf-8")
    for words in first_cells("What is said of the next rung"):
        assert words.removesuffix(":") in source


@pytest.mark.parametrize("rule", [highlight_voice.RULE, rung_voice.RULE])
def test_it_quotes_the_rules(rule: str) -> None:
    assert rule in PROSE


def test_its_numbers_are_the_programs() -> None:
    assert f"at most {MOST_WORDS} words" in PROSE
    assert f"a reading grade of at most {MOST_GRADE}" in PROSE
    assert f"its {CONFIDENCE:.0%} interval leaves zero" in PROSE
    assert f"its {LOOK_CONFIDENCE:.0%} interval leaves zero" in PROSE
    assert f"at least {MINIMUMS[Question.YARDSTICK][0].refuse:.0f} balls seen each time" in PROSE
    assert f"Chance alone makes {LOOK_LUCK} look so" in PROSE
    assert SLIP_BY_LUCK.removeprefix("by luck alone ") in PROSE


@pytest.mark.parametrize(
    "work",
    [
        "Gigerenzer and Hoffrage 1995, Psychol Rev 102:684-704",
        "2007, Psychol Sci Public Interest 8:53-96",
        "Budescu, Por and Broomell 2012, Climatic Change 113:181-200",
        "van der Bles and others 2020, PNAS 117:7672-7683",
    ],
)
def test_it_names_the_published_work(work: str) -> None:
    assert work in PROSE


def test_its_own_words_are_plain() -> None:
    """The retired words stand in it only where they are said to be retired."""
    said = PROSE.replace('"no change"', "").replace("Points are scored", "").lower()
    assert [phrase for phrase in RETIRED if phrase in said] == []


def test_each_page_of_the_manual_links_the_other() -> None:
    assert "(numbers.md)" in PAGE
    assert "(words.md)" in (MANUAL / "numbers.md").read_text(encoding="utf-8")
