"""The manual: every page is a topic, and says what it is about in its first line."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog import manual

PAGES = Path(manual.__file__).parent


def test_every_page_is_a_topic() -> None:
    assert sorted(manual.TOPICS) == sorted(page.stem for page in PAGES.glob("*.md"))


@pytest.mark.parametrize("topic", manual.topics(), ids=lambda topic: topic.name)
def test_a_page_says_what_it_is_about(topic: manual.Topic) -> None:
    assert topic.title.casefold() == topic.name
    assert topic.about
