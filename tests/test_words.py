"""One name for each thing: what a person reads has no second word for what has one already.

Read are the texts in the program, drill files, samples, the README and the manual, which holds
every help text of the command line and every command of the court.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
MANUAL = sorted((ROOT / "courtlog/manual").glob("*.md"))

NOT_USED = {
    "clinic, day": r"sessions?|camps?|workshops?|lessons?|trainings?",
    "player": r"students?|pupils?|athletes?|trainees?|participants?|learners?",
    "coach": r"trainers?|instructors?|teachers?",
    "drill": r"exercises?",
    "cue": r"aspects?|checkpoints?|skills?|techniques?|criterion",
    "round": r"sets? of (?:\d+|ten|twenty)|bouts?",
    "ball": r"shots?|attempts?|repetitions?|reps?",
    "grade": r"scores?|scored|scoring",
    "not seen": r"unseen|unsure|unknown",
    "tough": r"difficult\w*|hard(?:er)? (?:balls?|ones?)|challenging",
    "rung": r"difficulty|(?:next|drill|skill) levels?|levels? up|up a level|progressions?",
    "yardstick": r"baseline (?:rounds?|tests?|balls?|shares?)|pre-?tests?|post-?tests?|benchmarks?",
    "hold": r"retention|retained|retains?",
    "without help": r"uncoached",
    "basket": r"buckets?|hoppers?",
    "book": r"databases?|data ?files?",
    "sheet": r"worksheets?|log ?sheets?",
}
"""What a thing is called, and what it is not called."""

ALLOWED = {
    r"skill curves?|lower skill": "a curve over all drills; no cue is meant",
    r"passing shot": "the trade's name of a ball past a player at the net",
    r"(?:a|one|each) session|sessions? a week": "practice at home, which is no day of a clinic",
    r"Skill": "the beginning of skill curve, where its two words are set apart",
    r"(?:before|and not|for) the score": "the score of a tennis match",
    r"A score|seen and scores": "the number of a day in a test of trend",
    r"Points are scored in tennis": "the score of a tennis match",
    r"Sports Med Rep": "the name of a journal",
    r"stay unseen": "changes that are there and cannot be told",
}
"""Words that mean something else there, with the reason."""

_MARKUP = re.compile(r"<[^>]*>|\{[^{}]*\}|`[^`]*`|[.#]?[\w-]+ \{|SELECT .*", re.DOTALL)
"""Names in HTML, in code and in SQL are not read by a coach."""

_NOT_FOR_PEOPLE = re.compile(r"^[^ ]*$|; \}|\b(?:SELECT|INSERT|UPDATE|DELETE|CREATE|PRAGMA|FROM) ")


_ANY = re.compile("|".join(rf"\b(?:{words})\b" for words in NOT_USED.values()), re.IGNORECASE)


def broken(text: str) -> list[str]:
    """`round: bout` for each word that is not used for what has a name."""
    if not _ANY.search(text):
        return []
    for phrase in ALLOWED:
        text = re.sub(rf"\b(?:{phrase})\b", "", text)
    return [
        f"{name}: {found[0]}"
        for name, words in NOT_USED.items()
        for found in re.finditer(rf"\b(?:{words})\b", text, re.IGNORECASE)
    ]


def texts(source: str) -> Iterator[str]:
    """Every text of a module but those that stand by themselves, which explain the code."""
    tree = ast.parse(source)
    explaining = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        match node:
            case ast.Constant(value=str(text)) if id(node) not in explaining:
                yield text


@cache
def shown() -> tuple[tuple[str, str], ...]:
    """Every text that a person can read, with the file it stands in."""
    return tuple(_shown())


def _shown() -> Iterator[tuple[str, str]]:
    for file in sorted((ROOT / "courtlog").rglob("*.py")):
        source = file.read_text(encoding="utf-8")
        for text in texts(source) if _ANY.search(source) else ():
            if not _NOT_FOR_PEOPLE.search(text):
                yield str(file.relative_to(ROOT)), _MARKUP.sub(" ", text)
    plain = [
        ROOT / "README.md",
        *MANUAL,
        *sorted((ROOT / "drill_library").glob("*.toml")),
        *sorted((ROOT / "sample_sessions").glob("*.txt")),
        *sorted((ROOT / "courtlog/academy/questions").glob("*.sql")),
    ]
    for file in plain:
        for line in file.read_text(encoding="utf-8").splitlines():
            if file.suffix != ".sql" or line.startswith("--"):
                yield (
                    str(file.relative_to(ROOT)),
                    line if file.suffix == ".toml" else _CODE.sub(" ", line),
                )


_CODE = re.compile(r"`[^`]*`|\]\([^)]*\)|<[^>]*>")


def test_no_text_has_a_second_word_for_a_thing() -> None:
    found = [f"{file}: {one}: {text[:90]}" for file, text in shown() for one in broken(text)]
    assert found == [], "\n".join(found)


def test_every_exception_is_needed() -> None:
    everything = "\n".join(text for _, text in shown())
    assert [one for one in ALLOWED if not re.search(rf"\b(?:{one})\b", everything)] == []


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Three drills in this session.", ["clinic, day: session"]),
        ("A skill curve of the skill", ["cue: skill"]),
        ("Her hardest ball, a hard ball.", ["tough: hard ball"]),
        ("Ten Shots", ["ball: Shots"]),
        ("Not seen is never a miss.", []),
    ],
)
def test_a_second_word_is_seen(text: str, found: list[str]) -> None:
    assert broken(text) == found


def eight_words() -> dict[str, str]:
    """The README's words, and the first sentence of what each means."""
    part = README.partition("## Eight words")[2].partition("\n## ")[0]
    rows = re.findall(r"^\* \*\*(.+?)\*\*: (.+?)\.(?: |$)", part, re.MULTILINE)
    return dict(rows)


def test_there_are_eight_words() -> None:
    assert len(eight_words()) == 8


@pytest.mark.parametrize("word", eight_words())
def test_a_word_means_the_same_to_contributors_and_is_used_in_the_manual(word: str) -> None:
    row = re.search(rf"^\| {word} \| (.+?) \| `", GUIDE, re.MULTILINE)
    assert row is not None
    assert row[1].partition(";")[0] == eight_words()[word]
    assert any(re.search(rf"\b{word}s?\b", page.read_text(encoding="utf-8")) for page in MANUAL)
