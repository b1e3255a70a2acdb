"""Both clips in a real browser, read from their decoded frames: each shows its own number.

The ball then is hit in frame 40 of 100, the ball now in frame 26 of 80; a frame is a twentieth of
a second. The third and fourth ball are in films that were not cut.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from courtlog.reports.pairs.pair_html import pair_html
from tests.film.balls import needs_ffmpeg
from tests.reports.browser import Browser, browser
from tests.reports.html_checks import needs_browser
from tests.reports.pairs.pair_films import FRAME_IN_VIDEO, bar_clip
from tests.reports.pairs.pair_pages import ball, clip, page, pair

pytestmark = [pytest.mark.browser, needs_ffmpeg, needs_browser]

HIT_THEN, HIT_NOW = 40, 26
STILL = "stages[0].clips.every(clip => !clip.isSeeking) && !stages[0].playing"
APART = "stages[0].clips[0].place - stages[0].clips[1].place"
IS_OPEN = "return document.querySelector('.hits details').open"
BOTH_PLAY = "stages[0].clips.every(clip => !clip.video.paused)"


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A page of two cut clips, of two films that were not cut, and of a film in no known format."""
    folder = tmp_path_factory.mktemp("playing")
    bar_clip(folder / "then.mp4", 5)
    bar_clip(folder / "now.mp4", 4)
    bar_clip(folder / "film one.mp4", 20)
    (folder / "phone.mov").write_bytes(b"no video at all")
    then = replace(ball(clip("then.mp4", 2000, 5000)), hit_moved_ms=300, film_moved_ms=100)
    now = ball(clip("now.mp4", 1300, 4000), film="friday.mp4")
    early = ball(clip("film one.mp4", 4000, 7000, 2000))
    late = ball(clip("film one.mp4", 12_500, 13_000, 11_000))
    strange = ball(clip("phone.mov", 4000, 7000, 2000))
    facts = page(pair(then, now), pair(early, late, "turn"), pair(strange, now, "finish"))
    (folder / "page.html").write_text(pair_html(facts), encoding="utf-8")
    return folder / "page.html"


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """One browser for all tests, in which a page may read the pictures of its own videos."""
    with browser(tmp_path_factory.mktemp("profile"), "--allow-file-access-from-files") as window:
        yield window


@pytest.fixture
def window(opened: Browser, file: Path) -> Browser:
    """The page as it opens, with every place shown that it wants to show."""
    opened.wide(1000)
    opened.open(file)
    opened.until("stages.every(stage => stage.shown.every(clip => !clip.isSeeking))")
    return opened


def frames(window: Browser, stage: int = 0) -> list[int]:
    """The frames that both videos show."""
    shown: list[int] = window.run(FRAME_IN_VIDEO, stage)
    return shown


def press(window: Browser, *keys: str) -> None:
    """Press keys, and wait until the first stage shows what they ask for."""
    window.press(*keys)
    window.until(STILL)


def go_to(window: Browser, seconds: float, stage: int = 0) -> None:
    """Drag the slider of a stage."""
    window.run(
        "const slider = stages[arguments[0]].element.querySelector('[data-act=place]');"
        "slider.value = arguments[1]; slider.dispatchEvent(new Event('input', {bubbles: true}))",
        stage,
        round(1000 * seconds),
    )
    window.until(f"stages[{stage}].shown.every(clip => !clip.isSeeking)")


def part(window: Browser, panel: int, selector: str) -> Any:
    """The text of a part of what moves a video's hit; None where it is hidden."""
    return window.run(
        "const it = document.querySelectorAll('.stage .panel.hit')[arguments[0]]"
        ".querySelector(arguments[1]); return it.closest('[hidden]') ? null : it.textContent",
        panel,
        selector,
    )


def test_both_open_at_their_hit_and_nothing_plays(window: Browser) -> None:
    assert frames(window) == [HIT_THEN, HIT_NOW]
    assert window.run(
        "return [...document.querySelectorAll('video')].every(it => it.paused && it.muted)"
    )


@pytest.mark.parametrize(("key", "speed"), [("1", 1), ("2", 0.5), ("4", 0.25)])
def test_both_play_to_the_same_moment(window: Browser, key: str, speed: float) -> None:
    go_to(window, -0.4)
    window.press(key, " ")
    window.until(f"{BOTH_PLAY} && stages[0].place > 0.2")
    rates = window.run("return stages[0].clips.map(clip => clip.video.playbackRate)")
    assert max(rates) <= speed
    assert min(rates) >= speed * 0.8
    press(window, "p")
    then, now = frames(window)
    assert then - HIT_THEN == now - HIT_NOW
    assert then > HIT_THEN + 3


def test_from_the_hit_the_whole_clip_plays_and_the_shorter_one_waits_at_its_ends(
    window: Browser,
) -> None:
    """Then lasts from 2 s before the hit to 3 s after it, now from 1.3 s to 2.7 s."""
    window.press(" ")
    window.until("stages[0].playing && stages[0].clips[0].place < -1.5")
    then, now = frames(window)
    assert then < HIT_THEN - 26
    assert now == 0
    go_to(window, 2.5)
    window.press(" ")
    window.until("stages[0].playing")
    window.until(STILL)
    assert frames(window) == [99, 79]
    assert window.run("return stages[0].element.dataset.state") == "still"


def test_an_arrow_steps_both_by_one_frame(window: Browser) -> None:
    press(window, "ArrowRight")
    assert frames(window) == [HIT_THEN + 1, HIT_NOW + 1]
    press(window, "ArrowLeft", "ArrowLeft", "ArrowLeft")
    assert frames(window) == [HIT_THEN - 2, HIT_NOW - 2]
    press(window, *["ArrowRight"] * 12)
    assert frames(window) == [HIT_THEN + 10, HIT_NOW + 10]
    press(window, "h")
    assert frames(window) == [HIT_THEN, HIT_NOW]


def test_a_loop_begins_again_by_itself(window: Browser) -> None:
    go_to(window, 2.8)
    window.press("l", " ")
    window.run("stages[0].setSpeed(4)")
    for _ in range(2):
        window.until("stages[0].playing && stages[0].place < -1")
        window.until("stages[0].playing && stages[0].place > 1")
    window.press("l", " ")
    window.until(STILL)


def test_one_that_drifts_is_brought_together_while_playing(window: Browser) -> None:
    go_to(window, -1)
    window.press("4", " ")
    window.until(BOTH_PLAY)
    for index in (0, 1):
        window.run(f"stages[0].clips[{index}].video.currentTime += 0.5")
        window.until(f"{BOTH_PLAY} && Math.abs({APART}) < 0.02")
        assert window.run("return stages[0].playing")


def test_one_without_a_picture_to_go_on_with_is_waited_for(window: Browser) -> None:
    window.press("4", " ")
    go_to(window, -1)
    window.press(" ")
    window.until(BOTH_PLAY)
    stalled = "Object.defineProperty(stages[0].clips[0].video, 'readyState'"
    window.run(f"{stalled}, {{value: 2, configurable: true}})")
    window.until("stages[0].clips[1].video.paused")
    assert window.run("return stages[0].element.dataset.state") == "waiting"
    window.run("delete stages[0].clips[0].video.readyState")
    window.until(f"{BOTH_PLAY} && stages[0].element.dataset.state === 'playing'")


def test_one_of_them_is_mirrored(window: Browser) -> None:
    turned = (
        "return [...document.querySelectorAll('.stage')[0].querySelectorAll('video')]"
        ".map(it => new DOMMatrix(getComputedStyle(it).transform).a)"
    )
    for key, expected in (("m", [-1, 1]), ("n", [-1, -1]), ("m", [1, -1]), ("n", [1, 1])):
        window.press(key)
        assert window.run(turned) == expected
    assert frames(window) == [HIT_THEN, HIT_NOW]


def test_a_hit_is_moved_by_tenths_and_the_command_is_shown(window: Browser) -> None:
    """The book has moved this ball by 0.2 s and its film by 0.1 s already."""
    assert part(window, 0, "code") is None
    assert not window.run(IS_OPEN)
    press(window, "f", "f", "f")
    assert window.run(IS_OPEN), "what was folded away is seen once it is used"
    assert frames(window) == [HIT_THEN + 6, HIT_NOW]
    assert part(window, 0, "output") == "hit 0.3 s later"
    command = "courtlog film hit 'court 2.mp4'"
    of_ball = f"{command} --player=Maren --at 09:31:07 --later 0.5"
    assert part(window, 0, "code") == of_ball
    window.press_with_shift("D")
    window.until(STILL)
    assert frames(window) == [HIT_THEN + 4, HIT_NOW]
    assert part(window, 0, "code") == f"{command} --later 0\n{of_ball}"
    press(window, "k", "j", "j")
    assert frames(window)[1] == HIT_NOW - 2
    assert part(window, 1, "code").endswith("friday.mp4 --player=Maren --at 09:31:07 --earlier 0.1")
    press(window, "d", "d", "d", "k")
    window.press_with_shift("F")
    window.until(STILL)
    assert frames(window) == [HIT_THEN, HIT_NOW]
    assert part(window, 0, "output") == "hit as in the book"
    assert part(window, 0, "code") is None
    assert part(window, 1, "code") is None


def test_a_tick_moves_the_hit_in_all_clips_of_the_film(window: Browser) -> None:
    before = frames(window, 1)
    window.run(
        "const panel = document.querySelector('.panel.hit');"
        "panel.querySelector('.whole-film').click();"
        "panel.querySelector('[data-act=later]').click()"
    )
    window.until("stages.every(stage => stage.shown.every(clip => !clip.isSeeking))")
    assert frames(window) == [HIT_THEN + 2, HIT_NOW]
    assert frames(window, 1) == [number + 2 for number in before]
    assert part(window, 0, "code") == "courtlog film hit 'court 2.mp4' --later 0.2"


def test_a_hit_cannot_leave_its_clip(window: Browser) -> None:
    press(window, *["j"] * 20)
    assert part(window, 1, "output") == "hit 1.3 s earlier"
    assert frames(window) == [HIT_THEN, 0]


def test_a_film_that_was_not_cut_stays_within_its_clip(window: Browser) -> None:
    """The second stage: a film from 2 s to 7 s beside the same one from 11 s to 13 s."""
    assert frames(window, 1) == [80, 250]
    window.run(
        "window.latest = [0, 0]; const stage = stages[1];"
        "stage.element.addEventListener('stagechange', () => { latest = latest.map("
        "(time, index) => Math.max(time, stage.clips[index].video.currentTime)); })"
    )
    go_to(window, 0.3, 1)
    window.run("stages[1].element.querySelector('[data-act=play]').click()")
    window.until("!stages[1].playing && stages[1].shown.every(clip => !clip.isSeeking)")
    assert frames(window, 1) == [139, 259]
    first, second = window.run("return latest")
    assert first == pytest.approx(7, abs=0.25)
    assert second == pytest.approx(13, abs=0.25)
    go_to(window, -2, 1)
    assert frames(window, 1) == [40, 220]


def test_a_video_that_does_not_play_is_a_sentence_and_the_other_one_plays(window: Browser) -> None:
    window.until("stages[2].shown.length === 1")
    told = window.run(
        "const it = stages[2].element.querySelector('.unplayable');"
        "return it.getBoundingClientRect().height ? it.textContent : ''"
    )
    assert told.startswith("This browser cannot play the film")
    hidden = "[clip.panel, clip.hitPanel, clip.video].every(part => part.hidden)"
    assert window.run(f"const clip = stages[2].clips[0]; return {hidden}")
    window.run("stages[2].element.querySelector('[data-act=play]').click()")
    window.until("stages[2].playing && stages[2].clips[1].place > -1")


def test_a_key_on_a_button_is_the_buttons_own(window: Browser) -> None:
    """The space bar on Loop loops, and does not play as well."""
    window.run("stages[0].element.querySelector('[data-act=loop]').focus()")
    window.press(" ")
    assert window.run("return [stages[0].loops, stages[0].playing]") == [True, False]


def test_the_keys_can_be_switched_off(window: Browser) -> None:
    """Source: W3C, WCAG 2.2, success criterion 2.1.4: single keys can be turned off."""
    window.run("document.querySelector('[data-act=keys]').click(); document.activeElement.blur()")
    press(window, "f", "ArrowRight", " ", "l")
    assert frames(window) == [HIT_THEN, HIT_NOW]
    assert not window.run("return stages[0].playing || stages[0].loops")


def test_keys_go_to_the_stage_in_use_or_in_the_middle(window: Browser) -> None:
    which = "return stages.indexOf(keyStage())"
    window.run("stages.forEach(stage => { stage.element.style.minHeight = '110vh'; })")
    for index in (2, 1, 0):
        window.run(f"stages[{index}].element.scrollIntoView({{block: 'center'}})")
        assert window.run(which) == index
    window.run("stages[1].element.querySelector('button').focus()")
    assert window.run(which) == 1
    window.run("stages[2].element.scrollIntoView({block: 'start'})")
    assert window.run(which) == 2


def test_a_page_that_is_hidden_stands_still(window: Browser) -> None:
    """Its pictures are not drawn, so that nothing could keep a film within its clip."""
    window.press("l", " ")
    window.until(BOTH_PLAY.replace("every", "some"))
    window.run(
        "Object.defineProperty(document, 'hidden', {value: true});"
        "document.dispatchEvent(new Event('visibilitychange'))"
    )
    window.until(STILL)


def test_less_motion_is_no_motion_unasked(window: Browser, file: Path) -> None:
    """No style moves anything, so `prefers-reduced-motion` has nothing left to switch off."""
    text = file.read_text(encoding="utf-8")
    assert not [word for word in ("transition", "animation", "smooth") if word in text]
