"""The manual: a Markdown page a topic, for the command line and the court."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

TOPICS = (
    *("keys", "screen", "rounds", "plan", "roster", "care", "evening"),
    *("paper", "sheets", "film", "laptops", "academy", "data", "ratings"),
    *("commands", "settings", "words", "numbers"),
)
"""In the order in which they are needed. A topic is the file of its name."""

_FOLDER = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Topic:
    """A page of the manual; its first line reads `# Title: about`."""

    name: str
    title: str
    about: str


def topics() -> list[Topic]:
    """Every topic, in the manual's order."""
    return [_topic(name) for name in TOPICS]


def page(name: str) -> str:
    """A topic's page as Markdown. Raises KeyError where there is no such topic."""
    if name not in TOPICS:
        raise KeyError(name)
    return (_FOLDER / f"{name}.md").read_text(encoding="utf-8")


def _topic(name: str) -> Topic:
    title, _, about = page(name).partition("\n")[0].removeprefix("# ").partition(": ")
    return Topic(name, title, about)
