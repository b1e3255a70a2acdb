"""The page of pairs in a real browser: valid, accessible, on a phone, on paper, without network."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from courtlog.reports.pairs.pair_html import pair_html
from courtlog.reports.stage.stage_html import HIT_IS_OFF
from tests.film.balls import needs_ffmpeg
from tests.film.bar_films import ffmpeg
from tests.reports.browser import PAPERS, Browser
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
from tests.reports.pairs.pair_films import bar_clip
from tests.reports.pairs.pair_pages import ball, clip, hostile_page, page, pair

pytestmark = [pytest.mark.browser, needs_ffmpeg]

LONG = "Marie-Antoinette-" * 6 + "Lund"


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Three cues with stills, a missing clip, no pair at all, hostile names, a long name."""
    folder = tmp_path_factory.mktemp("pairs")
    shown = ball(clip(still="then.png"))
    whole = page(*(pair(shown, shown, cue) for cue in ("turn", "spacing", "finish")))
    pages = (
        whole,
        page(pair(ball(None), shown), pair(None, shown, "turn")),
        replace(page(), left_out=("IMG_4.MOV is not in this folder.",)),
        hostile_page("</script><b>-->"),
        hostile_page(LONG),
    )
    bar_clip(folder / "then.mp4", 5)
    ffmpeg("-i", folder / "then.mp4", "-frames:v", "1", folder / "then.png")
    for number, facts in enumerate(pages):
        (folder / f"{number}.html").write_text(pair_html(facts), encoding="utf-8")
    return sorted(folder.glob("*.html"))


@needs_validator
def test_the_validator_finds_nothing(files: list[Path]) -> None:
    judged = valid(*files)
    assert (judged.returncode, judged.stdout) == (0, "")


@needs_browser
@needs_axe
@pytest.mark.parametrize("pixels", [PHONE, 1200])
def test_axe_finds_nothing(window: Browser, files: list[Path], pixels: int) -> None:
    window.wide(pixels)
    for file in files:
        window.open(file)
        window.run("document.querySelectorAll('details').forEach(part => { part.open = true; })")
        found = axe(window)
        assert found["failed"] == [], file
        assert "color-contrast-enhanced" in found["passed"]


@needs_browser
@needs_axe
def test_a_pressed_button_and_a_shown_command_are_accessible_too(
    window: Browser, files: list[Path]
) -> None:
    window.open(files[0])
    window.run("document.querySelectorAll('button').forEach(button => button.click())")
    assert axe(window)["failed"] == []


@needs_browser
def test_a_phone_never_scrolls_sideways(window: Browser, files: list[Path]) -> None:
    window.wide(PHONE)
    for file in files:
        window.open(file)
        window.run("document.querySelectorAll('details').forEach(part => { part.open = true; })")
        window.run("document.querySelectorAll('[data-act=later]').forEach(it => it.click())")
        assert window.run("return document.documentElement.scrollWidth") <= PHONE, file
    tops = "[...document.querySelectorAll('figure')].map(it => it.getBoundingClientRect().top)"
    window.open(files[0])
    below = window.run(f"return {tops}")
    assert below[0] < below[1]
    window.wide(1200)
    assert window.run(f"const [one, other] = {tops}; return one === other")


@needs_browser
def test_what_a_finger_presses_is_large_enough(window: Browser, files: list[Path]) -> None:
    """Source: W3C, WCAG 2.2, success criterion 2.5.5: 44 pixels of CSS each way."""
    window.wide(PHONE)
    window.open(files[0])
    window.run("document.querySelectorAll('details').forEach(part => { part.open = true; })")
    sizes = window.run(
        "return [...document.querySelectorAll('button, label, summary, [type=range]')]"
        ".map(part => part.getBoundingClientRect()).filter(box => box.width)"
        ".map(box => Math.min(box.width, box.height))"
    )
    assert len(sizes) > 45
    assert min(sizes) >= 44


@needs_browser
def test_what_only_a_coach_needs_is_folded_away(window: Browser, files: list[Path]) -> None:
    """A parent sees how to play, step, slow down, loop and mirror; a native part opens the rest."""
    window.wide(PHONE)
    window.open(files[0])
    seen = (
        "const stage = document.querySelector('.stage');"
        "return [...stage.querySelectorAll('button, input, summary, code, output')]"
        ".filter(it => it.checkVisibility()).map(it => it.textContent || it.dataset.act)"
    )
    plain = ["Play", "Frame back", "Frame on", "To the hit", "1", "1/2", "1/4", "Loop", "place"]
    assert window.run(seen) == [*plain, "Mirror", "Mirror", HIT_IS_OFF]
    window.run("document.querySelector('.hits summary').click()")
    hit = ["Hit earlier", "Hit later", "hit as in the book", None]
    assert window.run(seen) == [*plain, "Mirror", "Mirror", HIT_IS_OFF, *hit, *hit]


@needs_browser
@pytest.mark.parametrize("paper", list(PAPERS))
def test_on_paper_a_cue_is_two_stills_and_a_third_of_a_page(
    window: Browser, files: list[Path], paper: str
) -> None:
    window.as_on("print")
    width, height = (96 * (inches - 2 * MARGIN) for inches in PAPERS[paper])
    window.wide(round(width))
    window.open(files[0])
    is_shown = "part => part.getBoundingClientRect().width > 0"
    for what, count in (
        ("img", 6),
        ("video", 0),
        ("button", 0),
        ("input", 0),
        ("summary", 0),
        ("figcaption", 6),
    ):
        shown = f"[...document.querySelectorAll('{what}')].filter({is_shown}).length"
        assert window.run(f"return {shown}") == count, what
    cues = "[...document.querySelectorAll('section')].map(it => it.getBoundingClientRect().height)"
    assert max(window.run(f"return {cues}")) < height * 0.4
    assert window.run(SMALLEST) * 72 / 96 >= 11
    window.as_on("screen")
    assert window.printed_pages(paper) <= 2


@needs_browser
@pytest.mark.parametrize(
    ("script", "rule"),
    [
        ("fetch('http://127.0.0.1:9/x').catch(() => 0)", "connect-src"),
        ("new Image().src = 'http://127.0.0.1:9/x.png'", "img-src"),
        ("const it = document.createElement('video'); it.src = 'http://127.0.0.1:9/x.mp4';"
         "document.body.append(it)", "media-src"),
        ("const it = document.createElement('script'); it.text = 'window.ran = 1';"
         "document.body.append(it)", "script-src-elem"),
        ("document.body.setAttribute('onclick', 'window.ran = 1')", "script-src-attr"),
    ],
)  # fmt: skip
def test_the_page_can_ask_no_network_and_run_no_other_script(
    window: Browser, files: list[Path], script: str, rule: str
) -> None:
    """The browser itself tells what its policy refused."""
    window.open(files[0])
    refused = window.wait_for(
        "const done = arguments[0];"
        "document.addEventListener('securitypolicyviolation',"
        " event => done(event.effectiveDirective), {once: true});" + script
    )
    assert refused == rule
    assert not window.run("return window.ran")


@needs_browser
def test_nothing_of_the_page_itself_is_refused(window: Browser, files: list[Path]) -> None:
    """Style and script have run, so their digests are right, and the picture is there."""
    window.open(files[0])
    assert window.run("return stages.length") == 3
    assert window.run("return getComputedStyle(document.querySelector('.still')).display") == "none"
    window.until("[...document.images].every(image => image.naturalWidth > 0)")


@needs_browser
def test_every_button_is_reached_by_tab_and_seen(window: Browser, files: list[Path]) -> None:
    window.wide(1200)
    window.open(files[0])
    window.run("document.querySelectorAll('.stage details').forEach(it => { it.open = true; })")
    wanted = window.run(
        "return document.querySelectorAll('.stage button, .stage input, summary').length"
    )
    reached: set[str] = set()
    for number in range(wanted):
        window.press("Tab")
        reached.add(
            window.run(
                "const it = document.activeElement; it.dataset.n = it.dataset.n || arguments[0];"
                "return it.dataset.n + getComputedStyle(it).outlineStyle",
                str(number),
            )
        )
    assert len(reached) == wanted
    assert all(name.endswith("solid") for name in reached)
