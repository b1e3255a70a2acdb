"""The page of pairs as text: what it says, what it may load, and that a name is only text."""

from __future__ import annotations

import re
import shlex
from base64 import b64encode
from dataclasses import replace
from hashlib import sha256
from html import unescape
from html.parser import HTMLParser

import pytest
from hypothesis import given

from courtlog.reports.pairs.pair_html import BY_HAND, pair_html
from courtlog.reports.stage.stage_html import UNPLAYABLE_FILM
from courtlog.reports.stage.stage_keys import keys_list
from courtlog.reports.stage.stage_page import SCRIPTS, stage_script
from tests.film.balls import HOSTILE, NAMES
from tests.reports.pairs.pair_pages import FOOT, RULE, ball, clip, hostile_page, page, pair

MARKUP = ("</script><script>1</script>", '" onerror="1', "</style>", "<!--", "&lt;b&gt;")


class Elements(HTMLParser):
    """The elements and attributes of a page, and the text of its script and style."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.inside: dict[str, str] = {}
        self._now = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        self._now = tag

    def handle_data(self, data: str) -> None:
        if self._now in ("script", "style"):
            self.inside[self._now] = self.inside.get(self._now, "") + data

    def handle_endtag(self, tag: str) -> None:
        self._now = ""

    def all_of(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.elements if name == tag]

    @property
    def shape(self) -> list[tuple[str, tuple[str, ...]]]:
        """Elements and names of attributes, without any value."""
        return [(tag, tuple(attributes)) for tag, attributes in self.elements]


@pytest.fixture(scope="module")
def whole() -> str:
    """A page with a cut clip beside a film that was not cut."""
    chosen = replace(ball(clip("now.mp4", 10_000, 13_000, 8000)), chosen_by_hand=True)
    return pair_html(page(pair(ball(clip(still="then.jpg")), chosen)))


def test_the_page_says_what_the_pair_says(whole: str) -> None:
    for words in (
        "Spacing: 6 of 19 then, 16 of 19 now",
        "Then, Monday 11 May",
        "ball 7 of 20",
        "spacing: missed on this ball",
        RULE,
        *FOOT,
    ):
        assert words in unescape(whole)
    assert whole.count(BY_HAND) == 1


def test_a_film_that_was_not_cut_is_pointed_into_by_a_media_fragment(whole: str) -> None:
    """Source: W3C, Media Fragments URI 1.0, 4.2.1: `t=` with from and to in seconds."""
    cut, film = Elements(whole).all_of("video")
    assert (cut["src"], film["src"]) == ("then.mp4", "now.mp4#t=8.000,13.000")
    assert cut["poster"] == "then.jpg"
    assert UNPLAYABLE_FILM in unescape(whole)


def test_no_video_plays_by_itself_or_with_sound(whole: str) -> None:
    for video in Elements(whole).all_of("video"):
        assert "autoplay" not in video
        assert {"muted", "playsinline"} <= set(video)


def test_the_policy_allows_this_script_and_style_and_no_network(whole: str) -> None:
    """Source: W3C, Content Security Policy Level 3, 2.3.1 (hash-source) and 6.7.3.3."""
    elements = Elements(whole)
    (policy,) = [
        attributes["content"] or ""
        for attributes in elements.all_of("meta")
        if attributes.get("http-equiv") == "Content-Security-Policy"
    ]
    rules = {words[0]: words[1:] for part in policy.split(";") if (words := part.split())}
    assert rules["default-src"] == ["'none'"]
    for kind in ("script", "style"):
        digest = b64encode(sha256(elements.inside[kind].encode()).digest()).decode()
        assert rules[f"{kind}-src"] == [f"'sha256-{digest}'"]
    assert rules["media-src"] == rules["img-src"] == ["'self'", "file:"]
    assert len(elements.all_of("script")) == 1
    assert "src" not in elements.all_of("script")[0]


def test_a_cue_without_a_pair_is_one_sentence() -> None:
    text = pair_html(page(pair(ball(clip()), None)))
    assert "No ball of this cue was filmed on both days." in text
    assert not Elements(text).all_of("video")
    assert "<kbd>" not in text


def test_a_ball_without_a_clip_is_its_reason_beside_the_other_one() -> None:
    text = pair_html(page(pair(ball(None), ball(clip()))))
    assert "The film of this ball is not in the folder." in text
    assert len(Elements(text).all_of("video")) == 1


@pytest.mark.parametrize("name", [*HOSTILE, *MARKUP])
def test_a_name_changes_no_element(name: str) -> None:
    plain, hostile = (Elements(pair_html(hostile_page(text))) for text in ("Maren", name))
    kept = [part for part in plain.shape if name.strip() or part[0] != "p"]
    assert [part for part in hostile.shape if name.strip() or part[0] != "p"] == kept
    assert hostile.inside == plain.inside


@given(NAMES)
def test_no_name_at_all_changes_an_element(name: str) -> None:
    test_a_name_changes_no_element(name)


@pytest.mark.parametrize("film", ["court 2.mp4", "-x.mp4", "a'b.mp4", "$(ls);`id`", "--help"])
def test_a_command_names_film_and_player_as_one_word_each(film: str) -> None:
    """A shell reads back what it was given; a name with a dash stands behind `--`."""
    shown = replace(page(pair(ball(clip(), film=film), ball(clip()))), player="O'Neil; ls")
    (first, *_) = [
        attributes
        for attributes in Elements(pair_html(shown)).all_of("figure")
        if attributes.get("class") == "clip"
    ]
    option = " --later 0.3"
    after = first["data-after-command"] or ""
    words = shlex.split(f"{first['data-ball-command']}{option}{after}")
    assert words[:3] == ["courtlog", "film", "hit"]
    assert film in words[3:]
    assert "--player=O'Neil; ls" in words
    assert words[-1] == film if film.startswith("-") else "--" not in words
    assert ("--player" in (first["data-film-command"] or "")) is False


def test_the_script_is_plain_and_loads_nothing() -> None:
    """No modules, which no browser loads from a file, and nothing later than ES2019."""
    script = re.sub(r"/\*.*?\*/|//.*", "", stage_script(), flags=re.S)
    for later in (r"\?\.", r"\?\?", r"\bimport\b", r"\bexport\b", r"\bfetch\b", r"\bstatic\b"):
        assert not re.search(later, script), later
    assert not re.search(r"https?:|innerHTML|eval\(|setTimeout", script)


def test_every_key_of_the_script_is_listed_on_the_page() -> None:
    listed = set(re.findall(r"<kbd>(.+?)</kbd>", keys_list(("left", "right"), hits_move=True)))
    script = stage_script()
    tables = "".join(re.findall(r"const (?:STAGE|CLIP)_KEYS = \{(.*?)\};", script, flags=re.S))
    keys = set(re.findall(r'(?:^|[{,\s])"?(\w+| )"?: ["\[]', tables))
    names = {" ": "Space", "ArrowLeft": "←", "ArrowRight": "→"}
    assert {names.get(key, key.upper()) for key in keys} | {"Shift"} == listed
    assert len(SCRIPTS) == 4
