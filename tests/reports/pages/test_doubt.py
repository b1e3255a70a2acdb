"""A cue that is not seen the same way twice says so after every verdict on it, and only there."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.coaching.answers.cue_curve import curve_of
from courtlog.coaching.answers.quick_review import quick_review
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.voice.answer_figures import curve_words
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import history_lookups, lookups, second_rating_lookups
from courtlog.logbook.writes import second_rating_writer
from courtlog.reports.facts.agree_facts import agree_facts
from courtlog.reports.facts.day_facts import day_facts, player_facts
from courtlog.reports.pages.agree_text import agree_text
from courtlog.reports.pages.day_text import day_text
from courtlog.reports.pages.player_text import player_text
from courtlog.reports.pages.review_text import review_lines, review_page
from courtlog.reports.takehome.takehome_facts import take_home
from courtlog.reports.takehome.takehome_text import takehome_text
from tests.court import LIBRARY
from tests.reports.pages.test_pages import HEAD, book_of, day

REMARK = "rated twice this cue was not seen alike"
SHEET = HEAD + "".join(
    day(n, f"yardstick {two}*15 {one}*15 222*10")
    for n, two, one in ((1, "022", "222"), (2, "222", "022"))
)


def pages(book: Book) -> dict[str, str]:
    """Every place that shows verdicts, in words without line breaks."""
    clinic = lookups.clinics(book)[0]
    on = lookups.dates(book, clinic.id)[-1]
    ada = lookups.player_on_roster(book, clinic.id, "Ada")
    past = history_lookups.history(book, clinic.id, ada.id, "forehand")
    (rounds,) = book.db.execute("SELECT max(id) FROM round").fetchone()
    live = lookups.live_round(book, rounds)
    dates = lookups.dates(book, clinic.id)
    review = quick_review(past, rounds, on, dates, live.cue_keys, live.cue_keys, 20)
    page = review_page(review, live, Speak.PLAN, DayNames.of(dates, on))
    found = {
        "day": day_text(day_facts(book, clinic, None, None)),
        "player": player_text(player_facts(book, clinic, "Ada")),
        "takehome": takehome_text(take_home(book, clinic, "Ada", LIBRARY), EVERYTHING),
        "review": "\n".join(text for text, _ in review_lines(page, EVERYTHING)),
        "curve": curve_words(curve_of(past, "turn")),
    }
    return {name: " ".join(text.split()) for name, text in found.items()}


def rate_again(book: Book, differently: bool, balls: int = 30) -> None:
    """The turn of the first balls rated once more, all the other way round or all the same."""
    first = [grade for _, grade in turns(book)[:balls]]
    rate_as(book, [2 - grade if differently else grade for grade in first])


def turns(book: Book) -> list[tuple[int, int]]:
    """The balls to rate again, and the first grades of their turn."""
    clinic = lookups.clinics(book)[0]
    book.db.execute("UPDATE ball SET taken_at = id / 1000")
    book.db.commit()
    first = dict(book.db.execute("SELECT ball_id, grade FROM rating WHERE row = 0"))
    looks = second_rating_lookups.balls_to_rate(book, clinic.id)
    return [(look.ball_id, first[look.ball_id]) for look in looks]


def rate_as(book: Book, grades: list[int]) -> None:
    """The turn of the first balls rated once more, with these grades."""
    again = [(ball, {0: grade}) for (ball, _), grade in zip(turns(book), grades, strict=False)]
    second_rating_writer.rate_balls(book, "Bo", 1, again, 1_778_571_000_000)


def test_every_verdict_on_the_cue_says_it(tmp_path: Path) -> None:
    book = book_of(tmp_path, SHEET)
    before = pages(book)
    assert not any(REMARK in text for text in before.values())
    rate_again(book, differently=True)
    after = pages(book)
    assert {name: REMARK in text for name, text in after.items()} == dict.fromkeys(after, True)
    assert "on 30 balls rated twice this cue was not seen alike, -1.00: no verdict" in after["day"]
    spacing = after["player"].split("spacing · made")[1].split("· made")[0]
    assert REMARK not in spacing
    book.close()


def test_a_cue_seen_alike_or_rated_too_rarely_says_nothing(tmp_path: Path) -> None:
    for differently, balls in ((False, 30), (True, 19)):
        folder = tmp_path / str(balls)
        book = book_of(folder, SHEET)
        before = pages(book)
        rate_again(book, differently, balls)
        assert pages(book) == before
        book.close()


LOW = "Kappa below 0.4 and AC2 below 0.9: not seen the same way twice"
ONE_GRADE = "Kappa below 0.4, AC2 not below 0.9: not doubted."


@pytest.mark.parametrize(
    ("first", "again", "said"),
    [
        ("222*10 022*10", [0, 2] * 10, LOW),
        ("122 222*19", [2] * 19 + [1], ONE_GRADE),
        ("222*10 022*10", [2] * 10 + [0] * 10, ""),
    ],
)
def test_the_page_of_agreement_says_which_number_doubts_a_cue(
    tmp_path: Path, first: str, again: list[int], said: str
) -> None:
    book = book_of(tmp_path, HEAD + day(1, f"yardstick {first}") + day(2, f"yardstick {first}"))
    rate_as(book, again)
    facts = agree_facts(book, lookups.clinics(book)[0])
    (turn,) = (cue for cue in facts.cues if cue.balls)
    text = " ".join(agree_text(facts).split())
    assert turn.weighted is not None
    assert turn.ac2 is not None
    assert [line for line in (LOW, ONE_GRADE) if line in text] == [line for line in (said,) if line]
    assert turn.in_doubt is (said == LOW) is any(REMARK in text for text in pages(book).values())
    assert f"kappa {turn.weighted.value:.2f} (" in text
    assert f"AC2 {turn.ac2.value:.2f} (" in text
    book.close()
