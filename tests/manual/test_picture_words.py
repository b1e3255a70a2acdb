"""The manual says under which words a clip is shown, as the pages themselves do."""

from __future__ import annotations

from courtlog import manual
from courtlog.reports.layout.picture_words import PICTURE_WORDS


def test_the_words_under_pictures_are_those_of_the_pages() -> None:
    told = " ".join(manual.page("film").replace("\n> ", " ").split())
    assert " ".join(PICTURE_WORDS) in told
