"""Pages of one screen: the day of a group, of a player, and a player's answer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from rich.cells import cell_len

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.reports.facts.plan_facts import plan_facts
from courtlog.reports.layout.page import WIDTH
from courtlog.reports.one_screen.day_page import day_page
from courtlog.reports.one_screen.player_day_page import player_day_page
from courtlog.reports.one_screen.player_page import player_page
from courtlog.reports.pages.cue_table import cue_table
from courtlog.reports.pages.plan_text import plan_text
from courtlog.reports.takehome.takehome_facts import take_home
from courtlog.reports.takehome.takehome_text import takehome_text
from tests.pages.clinic_pages import ClinicPages
from tests.pages.drawn_books import NOW, in_book
from tests.pages.drawn_clinics import drawn_clinic, numbers
from tests.pages.first_depth import word_faults
from tests.samples.generator import FOLDER, PLANS, shipped_library

SCREEN, LARGE_GROUP = 23, 40
SIX, TWELVE = 6, 12
COLUMNS = 80


@pytest.fixture(scope="module", params=[*PLANS, *numbers()])
def clinic(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[ClinicPages]:
    """Both samples and the drawn clinics, each in a book."""
    folder: Path = tmp_path_factory.mktemp("pages")
    if isinstance(request.param, int):
        book, here = in_book(folder, drawn_clinic(request.param))
    else:
        book, library = create_or_open(folder / "book.db", NOW), shipped_library()
        text = (FOLDER / request.param).read_text(encoding="utf-8")
        put_in(book, read_sheet(text, request.param, library, "UTC"), library, NOW)
        here = lookups.clinics(book)[0]
    yield ClinicPages(book, here)
    book.close()


def fits(page: str, most: int) -> None:
    lines = page.splitlines()
    assert len(lines) <= most, page
    assert max(map(cell_len, lines)) <= COLUMNS, page


def test_the_group_fits_one_screen(clinic: ClinicPages) -> None:
    for on in clinic.dates:
        facts = clinic.day(on, None)
        page = day_page(facts)
        there = len(facts.players)
        assert there <= TWELVE
        fits(page, SCREEN if there <= SIX else LARGE_GROUP)
        lines = page.splitlines()
        for player in facts.players:
            said = [line for line in lines if line.startswith(player.player[:10])]
            assert said, f"{player.player} is not on the page"


def test_a_large_group_keeps_a_line_for_each_and_says_what_is_left_out(
    clinic: ClinicPages,
) -> None:
    """Four courts' players on one page: the same players several times over."""
    facts = clinic.day(clinic.dates[-1], None)
    for many in (13, 16, 30):
        players = (facts.players * many)[:many]
        page = day_page(replace(facts, players=players))
        fits(page, LARGE_GROUP)
        lines = page.splitlines()
        for player in players:
            named = [line for line in lines if line.startswith(player.player[:10])]
            assert len(named) >= players.count(player), page
        assert "" not in lines or len(lines) <= SCREEN


def test_a_player_fits_one_screen(clinic: ClinicPages) -> None:
    for name in clinic.roster:
        for on in clinic.dates:
            fits(player_day_page(clinic.day(on, name)), SCREEN)
        fits(player_page(clinic.answer(name)), SCREEN)


def test_a_page_opens_with_the_good_thing_where_there_is_one(clinic: ClinicPages) -> None:
    on = clinic.dates[-1]
    for name in clinic.roster:
        facts = clinic.day(on, name)
        for page, changes in (
            (player_day_page(facts), facts.players[0].changes),
            (player_page(clinic.answer(name)), clinic.answer(name).changes),
        ):
            first = [line for line in page.splitlines()[2:5] if line.startswith("Good")]
            goods = [change.good.sentence for change in changes if change.good]
            if goods:
                assert any(good.startswith(line) for good in goods for line in first), page
            else:
                assert not first, page


def test_what_a_red_or_amber_said_is_never_left_out(clinic: ClinicPages) -> None:
    for on in clinic.dates:
        for player in clinic.day(on, None).players:
            if not player.arm.said:
                continue
            flat = " ".join(player_day_page(clinic.day(on, player.player)).split())
            assert " ".join(player.arm.said.sentence.split()) in flat
            short = player.arm.said.short.split(":")[0]
            assert short[:60] in day_page(clinic.day(on, None))


def test_no_page_ends_in_a_heading(clinic: ClinicPages) -> None:
    for name in clinic.roster:
        facts = clinic.answer(name)
        titles = {change.title for change in facts.changes}
        last = [line for line in player_page(facts).splitlines()[:-1] if line][-1]
        assert last not in titles


def test_reasons_and_figures_come_on_request(clinic: ClinicPages) -> None:
    for name in clinic.roster:
        facts = clinic.answer(name)
        flat = " ".join(player_page(facts, EVERYTHING).split())
        for change in facts.changes:
            for cue in change.cues:
                for said in (cue.said.change, cue.said.tough, cue.said.overnight, cue.said.trend):
                    if said and cue.seen:
                        for text in (said.sentence, said.reason, said.figures):
                            assert " ".join(text.split()) in flat


def test_a_cue_has_its_whole_name_where_the_table_has_room(clinic: ClinicPages) -> None:
    long_name = "racquet under the ball"
    for player in clinic.day(clinic.dates[-1], None).players:
        cues = [replace(cue, name=long_name) for cue in player.cues][:1]
        if cues:
            table = list(cue_table("Forehand", cues, 3))
            full = max(map(cell_len, table[1:3])) >= WIDTH - 1
            assert full or long_name in table[2], "\n".join(table)


def test_no_page_uses_a_word_that_its_reader_has_to_learn(clinic: ClinicPages) -> None:
    last = clinic.dates[-1]
    library = shipped_library()
    pages = [day_page(clinic.day(on, None)) for on in clinic.dates]
    pages.append(plan_text(plan_facts(clinic.book, clinic.here, last + timedelta(days=1), library)))
    for name in clinic.roster:
        pages.append(player_day_page(clinic.day(last, name)))
        pages.append(player_page(clinic.answer(name)))
        pages.append(takehome_text(take_home(clinic.book, clinic.here, name, library)))
    for page in pages:
        text = " ".join(" ".join(page.splitlines()[1:]).split())
        assert word_faults(text) == [], page


def test_whoever_waits_for_a_word_on_the_arm_is_told_of_it_and_of_nothing_to_hit(
    clinic: ClinicPages,
) -> None:
    on = clinic.dates[-1]
    for name in clinic.roster:
        answer, day = clinic.answer(name), clinic.day(on, name)
        (player,) = day.players
        assert answer.waits == player.arm.waits
        if not answer.waits:
            continue
        for page in (player_page(answer), player_day_page(day)):
            flat = " ".join(page.split())
            assert answer.arm_said.sentence in flat
            assert not any(words in flat for words in ("tay on", "Ready to move", "Play that"))


def test_whoever_is_not_there_still_has_what_stands_of_the_arm(clinic: ClinicPages) -> None:
    for on in clinic.dates:
        facts = clinic.day(on, None)
        for name in clinic.roster:
            (alone,) = clinic.day(on, name).players
            if alone.arm.waits and alone.player not in {p.player for p in facts.players}:
                assert any(
                    gone.words.startswith(f"{alone.player} with a standing ")
                    for gone in facts.absent
                )
