"""The manual can be read: short sentences, and links that lead somewhere."""

from __future__ import annotations

import pytest

from courtlog import manual
from tests.manual import prose

MOST_WORDS = 25


@pytest.mark.parametrize("name", manual.TOPICS)
def test_no_sentence_is_too_long(name: str) -> None:
    told = [
        f"{count}: {sentence}"
        for sentence in prose.sentences(manual.page(name))
        if (count := prose.length(sentence)) > MOST_WORDS
    ]
    assert told == []


@pytest.mark.parametrize(
    "frame", ["{}", "- {}", "- A.\n\n  {}", "1. {}", "> {}", "# {}", "|a|\n|-|\n|{}|"]
)
def test_a_long_sentence_is_seen(frame: str) -> None:
    words = [
        *["word"] * 24,
        "*two*\nwords" if "|" not in frame and "#" not in frame else "two words",
    ]
    counts = map(prose.length, prose.sentences(frame.format(" ".join(words))))
    assert max(counts) == 26


def test_sentences_end_where_a_reader_stops() -> None:
    page = "**Ask first.** Then 1.5 `a b. C` go (Mantel 1963. JASA). *Not* so? See [Data](data.md)."
    assert [*prose.sentences(page)] == ["Ask first.", "Then 1.5 X go .", "Not so?", "See Data."]


@pytest.mark.parametrize("name", manual.TOPICS)
def test_links_lead_to_pages_and_headings(name: str) -> None:
    """Each is called by the title of its page, so that the words alone say where to look."""
    titles = {topic.name: topic.title for topic in manual.topics()}
    for words, to in prose.links(manual.page(name)):
        page, _, heading = to.partition("#")
        assert words == titles[page.removesuffix(".md")], to
        assert page != f"{name}.md", to
        assert not heading or heading in prose.anchors(manual.page(page.removesuffix(".md"))), to
