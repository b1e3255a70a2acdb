"""The manual over the court: topics, pages, links and a search; nothing of the court is lost."""

from __future__ import annotations

import asyncio
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from courtlog import manual
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.courtside.screens.manual.page_markup import LINK_KEYS, page_parser
from courtlog.manual import search
from tests.court import again, desk_in, feed, written
from tests.courtside.dialogs.test_refusals import own_screens
from tests.courtside.screen import flat, line_with, on_court, shown

PAGES = {
    "balls": """# Balls: how each is fed

The first ball goes [to the corner](spots.md#the-corner), and its notes lie
[at a place](https://example.org/notes) of their own.

## What is told

| sign | what it says of the ball that was hit |
|---|---|
| `!` | The ball was tough. |
| `.` | No cue of it was seen, which is never the same as missed. |
""",
    "spots": """# Spots: where a ball goes

There are two of them, as [balls](balls.md) tell.
"""
    + "\nA line between.\n" * 30
    + """
## The corner

- Deep to the backhand,
  high over the net.
- The other one.

```
# no heading
courtlog spots [corner]
```
"""
    + "\nA line below.\n" * 30,
}


@pytest.fixture
def _pages(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[None]:
    folder = tmp_path / "pages"
    folder.mkdir()
    for name, text in PAGES.items():
        (folder / f"{name}.md").write_text(text, encoding="utf-8")
    monkeypatch.setattr(manual, "_FOLDER", folder)
    for module in (manual, search):
        monkeypatch.setattr(module, "TOPICS", tuple(PAGES))
    for kept in (search.places, search._all_folded):
        kept.cache_clear()
    yield
    for kept in (search.places, search._all_folded):
        kept.cache_clear()


def round_on(desk: Desk) -> str:
    """The balls on court, from the book alone."""
    live = again(desk).view.live
    assert live is not None
    return written(live.feeding)


def seen(desk: Desk, *keys: Sequence[str], size: tuple[int, int] = (80, 24)) -> list[str]:
    """What is shown after each of these runs of keys."""

    async def run() -> list[str]:
        pictures = []
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test(size=size) as pilot:
            for some in keys:
                await pilot.press(*some)
                await pilot.pause()
                pictures.append(shown(app.screen))
        return pictures

    return asyncio.run(run())


@pytest.mark.usefixtures("_pages")
def test_topics_pages_and_links_each_one_step_and_back_to_the_open_ball(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "22")
    topics, page, linked, back, list_again, court = seen(
        desk, ["f1"], ["1"], ["1"], ["escape"], ["escape"], ["escape"]
    )
    assert "1 Balls: how each is fed" in topics
    assert "to the corner[1], and its notes lie" in page
    assert "at a place (https://example.org/notes) of their own" in flat(page)
    assert "1 link" in page.splitlines()[-1]
    assert linked.splitlines()[0] == " The corner", "the link leads to its heading"
    assert " • Deep to the backhand, high over the net." in linked
    assert "courtlog spots [corner]" in linked
    assert (back, list_again) == (page, topics)
    assert "? help" in court
    assert round_on(desk) == "|22-"


@pytest.mark.usefixtures("_pages")
def test_a_word_is_found_on_every_page_and_shown_where_it_stands(tmp_path: Path) -> None:
    found, page, none = seen(
        desk_in(tmp_path), ["f1", *"MISSED se"], ["enter"], ["escape", "[", "x"]
    )
    assert "Enter opens, all else is searched for" in found
    assert "1-9" not in found, "a digit is a part of the word there"
    line = line_with(found, "Balls, What is told")
    assert "never the same as" in line
    assert "No cue of it was seen, which is never the same as missed." in page
    assert "Missed" not in page
    assert "nothing fits" in none


@pytest.mark.usefixtures("_pages")
def test_a_title_comes_first_and_a_word_that_only_goes_on_so_last() -> None:
    found = [place.words for place in search.find_places("ball")]
    assert found[:2] == ["Balls: how each is fed", "Spots: where a ball goes"]
    assert [place.words for place in search.find_places("ther")] == [
        "There are two of them, as balls tell.",
        "The other one.",
    ]
    assert search.find_places("the other one")[0].words == "The other one."
    (code,) = search.find_places("no heading")
    assert (code.heading, code.is_heading) == ("The corner", False)


@pytest.mark.parametrize("word", ["yardstick", "hold", "choosing"])
def test_a_word_is_found_first_where_it_is_explained(word: str) -> None:
    """As the manual's own table of rounds does."""
    assert search.find_places(word)[0].topic == "rounds"


@pytest.mark.usefixtures("_pages")
def test_no_cell_of_a_table_is_cut(tmp_path: Path) -> None:
    (page,) = seen(desk_in(tmp_path), ["f1", "1"], size=(40, 24))
    words = " ".join(page.split())
    assert "The ball was tough." in words
    assert "…" not in page


def test_the_manual_is_found_without_a_function_key(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    for keys in (["question_mark", "question_mark"], ["escape", "enter", "1"], ["f1"]):
        assert "Manual: " in on_court(desk, keys), keys


def test_f1_over_another_screen_opens_its_topic_and_what_is_typed_stays(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    note, manual_over_it, again = seen(desk, ["n", *"high"], ["f1"], ["escape"])
    assert "Manual: " in manual_over_it
    assert again == note
    plan, page, left = seen(desk, ["ctrl+p"], ["f1"], ["escape"])
    assert left == plan
    assert page.splitlines()[0].startswith(" Plan: ")


def test_a_key_typed_before_a_page_is_shown_belongs_to_the_page(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "2")

    async def run() -> list[type]:
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test() as pilot:
            await pilot.press("f1", "1", "u", "escape", "f1", "1", "escape", "escape", "o")
            await pilot.pause()
            return [type(screen) for screen in app.screen_stack]

    assert asyncio.run(run())[-1] is CourtScreen
    assert round_on(desk) == "|2--"


def test_each_link_has_a_key_and_leads_to_the_heading_that_it_names() -> None:
    for topic in manual.TOPICS:
        links: list[search.Place] = []
        page_parser(topic, links).parse(manual.page(topic))
        assert len(links) <= len(LINK_KEYS), topic
        for href in re.findall(r"\]\(([^)]*)\)", manual.page(topic)):
            if not href.startswith("https://"):
                target = search.link_target(topic, href)
                assert target is not None, (topic, href)
                assert target.line or "#" not in href, (topic, href)


def test_the_topic_of_each_screen_is_one_of_the_manual() -> None:
    asked = {kind.TOPIC for kind in own_screens() if issubclass(kind, OwnScreen)}
    assert asked - {None, ""} <= set(manual.TOPICS)
