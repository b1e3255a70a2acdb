"""The README's pictures are what the program draws, and they fetch nothing."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from tests.pictures.scenes import FOLDER, SCENES, picture

MOST_BYTES = 30_000
MOST_BYTES_TOGETHER = 200_000
NAMESPACE = "http://www.w3.org/2000/svg"
FETCHING = re.compile(r"https?:|//|url\(|href|src|@import|<script|<image|<use|data:")


@pytest.mark.parametrize("name", SCENES)
def test_the_picture_is_the_running_program(name: str) -> None:
    """`python -m tests.pictures` draws all of them again."""
    assert (FOLDER / f"{name}.svg").read_text(encoding="utf-8") == picture(name)


def test_the_folder_holds_these_pictures_alone() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {f"{name}.svg" for name in SCENES}


def test_no_picture_fetches_anything_and_all_are_small() -> None:
    """As few things draw in an SVG as are needed (SVG 2, W3C), and the only address is its name."""
    texts = [path.read_text(encoding="utf-8") for path in FOLDER.iterdir()]
    for text in texts:
        assert FETCHING.search(text.replace(NAMESPACE, "", 1)) is None
        tags = {
            part.tag.removeprefix(f"{{{NAMESPACE}}}")
            for part in ElementTree.fromstring(text).iter()
        }
        assert tags <= {"svg", "g", "rect", "path", "text", "circle"}
    sizes = [len(text.encode("utf-8")) for text in texts]
    assert max(sizes) < MOST_BYTES
    assert sum(sizes) < MOST_BYTES_TOGETHER
