"""Blind pages in the book: each number leads to its ball, in joined and imported books too."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.people import Clinic
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.export import export
from courtlog.logbook.exchange.export_choice import ExportOptions
from courtlog.logbook.exchange.import_folder import import_folder
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.file import doctor
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import history_lookups, second_rating_lookups
from courtlog.logbook.reads.film.blind_lookups import (
    BlindPage,
    blind_pages,
    blind_readings,
    clips_to_rate,
    page_to_rate,
)
from courtlog.logbook.writes import second_rating_writer
from courtlog.logbook.writes.erasing import erase
from courtlog.logbook.writes.film import blind_writer
from tests.court import START, desk_in, feed, open_book, player

CUES = ("finish", "turn")
"""In another order than the round has them, and not all of them."""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """Six balls of Maren's."""
    desk = desk_in(tmp_path)
    feed(desk, "012 210 222 000 101 202")
    return desk


def balls(book: Book) -> list[int]:
    return [ball for (ball,) in book.db.execute("SELECT id FROM ball WHERE taken ORDER BY id")]


def add(desk: Desk, order: Sequence[int], code: str = "KRTW") -> BlindPage:
    clinic, who = desk.view.clinic.id, player(desk, "Maren").id
    blind_writer.add_page(desk.book, clinic, who, "forehand", CUES, code, 7, order, START)
    return blind_pages(desk.book, clinic)[-1]


def rate(desk: Desk, page: BlindPage, who: str, grades: Sequence[Sequence[int | None]]) -> int:
    """Rate the page's clips in its order, a grade for each of its cues."""
    sitting = blind_writer.blind_sitting(desk.book, page, who, START, anew=False)
    for clip, of_clip in zip(
        clips_to_rate(desk.book, desk.view.clinic, page), grades, strict=False
    ):
        given_ = dict(zip(clip.rows, of_clip, strict=True))
        second_rating_writer.rate_ball(desk.book, who, sitting, clip.ball_id, given_, START)
    return sitting


def readings(
    book: Book, clinic: Clinic
) -> list[tuple[str, bool, dict[int, dict[str, Grade | None]]]]:
    return [
        (one.rater, one.is_whole, {ball: dict(cues) for ball, cues in one.grades.items()})
        for one in blind_readings(book, clinic)
    ]


def test_every_number_leads_back_to_its_ball_and_every_cue_to_its_row(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    """Any order of the balls, and any grades: what comes back is what was rated on each ball."""
    desk = desk_in(tmp_path_factory.mktemp("any"))
    feed(desk, "012 210 222 000 101 202")
    grade = st.sampled_from([None, 0, 1, 2])
    taken = balls(desk.book)

    @given(
        st.permutations(taken),
        st.lists(st.tuples(grade, grade), min_size=len(taken), max_size=len(taken)),
    )
    def any_order(order: list[int], grades: list[tuple[int | None, int | None]]) -> None:
        page = add(desk, order)
        assert page.numbers == dict(enumerate(order, 1))
        rate(desk, page, "Omar", grades)
        (reading,) = blind_readings(desk.book, desk.view.clinic)
        wanted = {
            ball: dict(zip(CUES, (None if g is None else Grade(g) for g in of_ball), strict=True))
            for ball, of_ball in zip(order, grades, strict=True)
        }
        assert {ball: dict(cues) for ball, cues in reading.grades.items()} == wanted
        rows = desk.book.db.execute(
            "SELECT ball_id, cue, grade FROM second_rating JOIN ball ON ball.id = ball_id"
            " JOIN round_cue ON round_cue.round_id = ball.round_id"
            " AND round_cue.row = second_rating.row WHERE sitting ="
            " (SELECT max(sitting) FROM blind_sitting)"
        ).fetchall()
        assert {(ball, cue): given_ for ball, cue, given_ in rows} == {
            (ball, cue): given_ for ball, cues in wanted.items() for cue, given_ in cues.items()
        }

    any_order()


def test_what_is_rated_blind_and_what_is_not_stay_apart(desk: Desk) -> None:
    book, (first, *_) = desk.book, balls(desk.book)
    go_on = second_rating_lookups.sitting_to_go_on
    assert go_on(book, "Omar") == 1
    second_rating_writer.rate_ball(book, "Omar", 1, first, {0: 0, 1: 0, 2: 0}, START)
    page = add(desk, balls(book))
    assert rate(desk, page, "Omar", [(2, 2)] * 3) == 2
    assert go_on(book, "Omar") == 1, "rating by times goes on where it was"
    assert rate(desk, page, "Omar", [(1, 1)]) == 2, "the page goes on where it was"
    assert blind_writer.blind_sitting(book, page, "Omar", START, anew=True) == 3
    assert go_on(book, "Omar") == 1
    assert go_on(book, "Berit") == 1
    blind_writer.blind_sitting(book, page, "Berit", START, anew=False)
    assert go_on(book, "Berit") == 2, "a page that was opened has its number"


def test_a_reading_counts_when_it_is_whole_and_the_last_whole_one_stays(desk: Desk) -> None:
    page, clinic = add(desk, balls(desk.book)), desk.view.clinic
    rate(desk, page, "Omar", [(2, 2)] * 5)
    ((_, whole, grades),) = readings(desk.book, clinic)
    assert (whole, len(grades)) == (False, 5)
    rate(desk, page, "Omar", [(2, 2)] * 6)
    assert [whole for _, whole, _ in readings(desk.book, clinic)] == [True]
    blind_writer.blind_sitting(desk.book, page, "Omar", START, anew=True)
    assert [whole for _, whole, _ in readings(desk.book, clinic)] == [True]
    rate(desk, page, "Berit", [(0, 0)] * 6)
    assert [rater for rater, *_ in readings(desk.book, clinic)] == ["Berit", "Omar"]


def test_a_blind_page_raises_doubts_about_its_player_alone_once_it_is_whole(
    tmp_path: Path,
) -> None:
    """Twenty balls, rated once more the other way round."""
    desk = desk_in(tmp_path)
    feed(desk, "022 200 " * 10)
    desk.rounds.end_round()
    maren, tove = (player(desk, name).id for name in ("Maren", "Tove"))
    mine = balls(desk.book)
    clinic = desk.view.clinic.id
    page = add(desk, mine)
    away = [(0, 2), (2, 0)] * 10

    def in_doubt(who: int) -> set[str]:
        return set(history_lookups.doubts(desk.book, clinic, who, "forehand"))

    rate(desk, page, "Omar", [(0, 2), (2, 0)] * 9 + [(0, 2)])
    assert in_doubt(maren) == set(), "half a page tells nothing"
    rate(desk, page, "Omar", away)
    assert in_doubt(maren) == {"finish", "turn"}
    assert in_doubt(tove) == set()
    assert second_rating_lookups.rated_twice(desk.book, clinic) == []
    blind_writer.blind_sitting(desk.book, page, "Omar", START, anew=True)
    rate(desk, page, "Omar", [(2, 0)] * 3)
    assert in_doubt(maren) == {"finish", "turn"}, "a new go tells nothing before it is whole"
    rate(desk, page, "Omar", [(2, 0), (0, 2)] * 10)
    assert in_doubt(maren) == set(), "the last whole go counts"
    again = [(ball, {0: 2 if at % 2 == 0 else 0}) for at, ball in enumerate(mine)]
    second_rating_writer.rate_balls(desk.book, "Berit", 9, again, START)
    assert in_doubt(maren) == in_doubt(tove) == {"turn"}, "rated by times, it is the cue"


def test_the_page_that_is_meant(desk: Desk) -> None:
    book, clinic = desk.book, desk.view.clinic.id
    with pytest.raises(CourtlogError, match="no blind page yet"):
        page_to_rate(book, clinic)
    for code in ("KRTW", "BNHS"):
        add(desk, balls(book), code)
    assert page_to_rate(book, clinic).code == "BNHS"
    assert page_to_rate(book, clinic, code="krtw").code == "KRTW"
    with pytest.raises(CourtlogError, match="No blind page is called 'XXXX'"):
        page_to_rate(book, clinic, code="XXXX")
    tove = player(desk, "Tove").id
    blind_writer.add_page(book, clinic, tove, "forehand", CUES, "ZZZZ", 7, [], START)
    with pytest.raises(CourtlogError, match="several blind pages: KRTW, BNHS and ZZZZ"):
        page_to_rate(book, clinic)
    assert page_to_rate(book, clinic, tove).code == "ZZZZ"


def test_it_comes_back_from_an_export_and_joins_any_way_round(desk: Desk, tmp_path: Path) -> None:
    clinic = desk.view.clinic
    page = add(desk, balls(desk.book)[::-1])
    rate(desk, page, "Omar", [(2, 1), (0, None), (1, 1), (2, 2), (0, 0), (1, 2)])
    told = readings(desk.book, clinic)
    assert len(told[0][2]) == 6
    export(desk.book, tmp_path / "out", ExportOptions(), START)
    again = open_book(tmp_path / "again")
    import_folder(again, tmp_path / "out")
    joined = open_book(tmp_path / "joined")
    for _ in range(2):
        join_book(joined, desk.book.path, lambda question: False, START)
    for book in (again, joined):
        assert readings(book, clinic) == told
        assert [one.numbers for one in blind_pages(book, clinic.id)] == [page.numbers]
        assert doctor.findings(book) == []
    export(desk.book, tmp_path / "nameless", ExportOptions(anonymous=True), START)
    nameless = open_book(tmp_path / "nobody")
    import_folder(nameless, tmp_path / "nameless")
    ((rater, _, grades),) = readings(nameless, clinic)
    assert (rater.partition(" ")[0], grades) == ("coach", told[0][2])


def test_nothing_of_an_erased_player_stays(desk: Desk) -> None:
    page = add(desk, balls(desk.book))
    rate(desk, page, "Omar", [(2, 1)] * 6)
    erase(desk.book, player(desk, "Maren"), START, keep_counts=False, in_notes=False)
    for table in ("blind_page", "blind_ball", "blind_sitting", "second_rating"):
        assert desk.book.db.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,)
    assert doctor.findings(desk.book) == []
