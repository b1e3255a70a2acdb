"""The page of a blind rating in a real browser: accessible, by keys, on a phone, on paper."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from courtlog.coaching.game.drills import Cue
from courtlog.film.clip import Clip
from courtlog.reports.blind.blind_html import BlindClips, blind_html
from tests.court import LIBRARY
from tests.film.balls import needs_ffmpeg
from tests.reports.browser import PAPERS, Browser, browser
from tests.reports.html_checks import (
    MARGIN,
    PHONE,
    SMALLEST,
    axe,
    needs_axe,
    needs_browser,
    needs_validator,
    valid,
)
from tests.reports.pairs.pair_films import FRAME_IN_VIDEO, bar_clip

pytestmark = [pytest.mark.browser, needs_ffmpeg]

CLIPS = 40
"""As of two yardsticks of twenty balls."""

MILLIMETRE = 96 / 25.4
"""In pixels of CSS."""

IN_VIEW = """
const middle = innerHeight / 2;
const stage = [...document.querySelectorAll('.stage')].find(it => {
  const box = it.getBoundingClientRect();
  return box.top <= middle && box.bottom >= middle;
});
"""


def cues() -> tuple[Cue, ...]:
    ladder, _ = LIBRARY.drill("forehand/racquet-feed")
    return tuple(ladder.cues[:3])


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A page of forty clips, of two videos in turn."""
    folder = tmp_path_factory.mktemp("blind")
    for name in ("clip-1.mp4", "clip-2.mp4"):
        bar_clip(folder / name, 5)
    clips = [
        Clip(
            file=f"clip-{1 + number % 2}.mp4",
            start_ms=0,
            hit_ms=2000,
            end_ms=5000,
            frame_ms=50,
            is_cut=True,
            still=None,
        )
        for number in range(CLIPS)
    ]
    page = BlindClips(code="KRTW", cues=cues(), clips=clips)
    (folder / "page.html").write_text(blind_html(page), encoding="utf-8")
    return folder / "page.html"


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """One browser for all tests, in which a page may read the pictures of its own videos."""
    with browser(tmp_path_factory.mktemp("profile"), "--allow-file-access-from-files") as window:
        yield window


@pytest.fixture
def window(opened: Browser, file: Path) -> Browser:
    """The page as it opens on a phone, on a screen."""
    opened.as_on("screen")
    opened.wide(PHONE)
    opened.open(file)
    return opened


@needs_validator
def test_the_validator_finds_nothing(file: Path) -> None:
    judged = valid(file)
    assert (judged.returncode, judged.stdout) == (0, "")


@needs_browser
@needs_axe
@pytest.mark.parametrize("pixels", [PHONE, 1200])
def test_axe_finds_nothing(window: Browser, pixels: int) -> None:
    window.wide(pixels)
    window.run("document.querySelectorAll('details').forEach(part => { part.open = true; })")
    found = axe(window)
    assert found["failed"] == []
    assert "color-contrast-enhanced" in found["passed"]


@needs_browser
def test_a_phone_never_scrolls_sideways_and_each_number_is_read_above_its_clip(
    window: Browser,
) -> None:
    window.run("document.querySelectorAll('details').forEach(part => { part.open = true; })")
    assert window.run("return document.documentElement.scrollWidth") <= PHONE
    numbers = window.run(
        "return [...document.querySelectorAll('.stage')].map(stage => {"
        " const video = stage.querySelector('video').getBoundingClientRect();"
        " const text = document.createTreeWalker(stage, NodeFilter.SHOW_TEXT);"
        " while (text.nextNode()) {"
        "  const of = text.currentNode.parentElement, box = of.getBoundingClientRect();"
        "  if (/^Clip \\d+$/.test(text.currentNode.data.trim()) && box.height)"
        "   return [text.currentNode.data.trim(), parseFloat(getComputedStyle(of).fontSize),"
        "           box.bottom <= video.top + 1 && video.top - box.bottom < 100];"
        " }"
        " return null; })"
    )
    assert [one[0] for one in numbers] == [f"Clip {n}" for n in range(1, CLIPS + 1)]
    assert min(one[1] for one in numbers) >= 18, "read at arm's length beside a sheet of paper"
    assert all(one[2] for one in numbers)


@needs_browser
def test_keys_alone_go_through_the_clips(window: Browser) -> None:
    """Arrows, hit and play act on the clip in view; Tab reaches the next one."""
    window.wide(1000)
    window.run("document.querySelectorAll('.stage')[6].scrollIntoView({block: 'center'})")
    window.until("stages[6].shown.every(clip => !clip.isSeeking) && stages[6].shown.length")
    (at_hit,) = window.run(FRAME_IN_VIDEO, 6)
    assert at_hit == 40
    window.press("ArrowRight", "ArrowRight")
    window.until("stages[6].shown.every(clip => !clip.isSeeking)")
    assert window.run(FRAME_IN_VIDEO, 6) == [42]
    window.press("h")
    window.until("stages[6].shown.every(clip => !clip.isSeeking)")
    assert window.run(FRAME_IN_VIDEO, 6) == [40]
    window.press(" ")
    window.until("stages[6].playing")
    assert window.run("return stages.filter(stage => stage.playing).length") == 1
    window.press("p")
    window.until("!stages[6].playing")
    window.run("document.querySelectorAll('.stage')[6].querySelector('button').focus()")
    for _ in range(30):
        window.press("Tab")
        if window.run("return document.activeElement.closest('.stage') === stages[7].element"):
            break
    assert window.run("return document.activeElement.closest('.stage') === stages[7].element")


@needs_browser
@pytest.mark.parametrize("paper", list(PAPERS))
def test_the_form_prints_a_line_a_clip_with_boxes_for_a_pen(window: Browser, paper: str) -> None:
    """A box of 7 mm takes a cross by hand; common practice, no source."""
    window.as_on("print")
    width, _ = (96 * (inches - 2 * MARGIN) for inches in PAPERS[paper])
    window.wide(round(width))
    rows = window.run(
        "return [...document.querySelectorAll('.form tbody tr')].map(row => ["
        " row.querySelector('th').textContent,"
        " row.getBoundingClientRect().height,"
        " new Set([...row.cells].map(cell => cell.getBoundingClientRect().top)).size,"
        " ...[...row.querySelectorAll('.box')].map(box => {"
        "  const sides = box.getBoundingClientRect();"
        "  return Math.min(sides.width, sides.height); })])"
    )
    assert [row[0] for row in rows] == [str(n) for n in range(1, CLIPS + 1)]
    for number, height, lines, *boxes in rows:
        assert len(boxes) == 3 * len(cues()), number
        assert min(boxes) >= 7 * MILLIMETRE
        assert lines == 1
        assert height < 2 * min(boxes), "no box falls into a second line"
    assert window.run("return document.documentElement.scrollWidth") <= width + 1
    for gone in ("video", "button", ".clip-list", "summary"):
        shown = (
            f"[...document.querySelectorAll('{gone}')].filter(it => it.checkVisibility()).length"
        )
        assert window.run(f"return {shown}") == 0, gone
    assert window.run(SMALLEST) * 72 / 96 >= 10
    window.as_on("")
    assert window.printed_pages(paper) <= 3
