"""`courtlog manual`: the topics, one topic's page, and where a word stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches

from courtlog import manual
from courtlog.cli import output
from courtlog.cli.actions.manual import readable
from courtlog.errors import UnknownNameError
from courtlog.names import folded_name


def print_topics() -> None:
    """Print every topic with what it is about."""
    lines = [_line(topic.name, topic.about) for topic in manual.topics()]
    foot = "`courtlog manual keys` prints one; at the court ? pressed twice opens them."
    output.write_page("\n".join([*lines, "", foot, ""]))


def print_topic(typed: str) -> None:
    """Print a topic's page, or the headings under which the typed word stands.

    Raises UnknownNameError where it stands nowhere.
    """
    word = folded_name(typed)
    if word in manual.TOPICS:
        output.write_page(readable.as_lines(manual.page(word)))
        return
    found = list(_places(word)) if word else []
    if not found:
        near = get_close_matches(word, manual.TOPICS, n=3)
        raise UnknownNameError(
            f"The manual has no topic {typed!r}, and no page with that word.",
            f"Near it: {', '.join(near)}." if near else "`courtlog manual` lists the topics.",
        )
    lines = [_line(topic, heading) for topic, heading in found]
    output.write_page("\n".join([f"{typed} stands in these topics:", *lines, ""]))


def _places(word: str) -> Iterator[tuple[str, str]]:
    """Each topic in which a word begins like this, once for each heading under which it stands."""
    begins = re.compile(rf"(?<!\w){re.escape(word)}")
    for topic in manual.topics():
        for part in re.split(r"^#+ ", manual.page(topic.name), flags=re.MULTILINE)[1:]:
            heading = part.partition("\n")[0]
            if begins.search(folded_name(part)):
                yield topic.name, heading.removeprefix(f"{topic.title}: ")


def _line(topic: str, words: str) -> str:
    return f"{topic:<10}{words}"
