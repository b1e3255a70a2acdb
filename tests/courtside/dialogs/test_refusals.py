"""What a key cannot do is told on the screen that took the key, whichever screen that is."""

from __future__ import annotations

import asyncio
import importlib
import pkgutil
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.events import Key

from courtlog import courtside
from courtlog.coaching.care.heat_care import PROMPT
from courtlog.coaching.game.cards import Focus
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.coaching.paper.filled_sheet import SheetLines, SheetTask
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.commands.table import COMMANDS
from courtlog.courtside.desk import court_state
from courtlog.courtside.desk.clinic_desk import SetUpQuestions
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.view import ClinicNow
from courtlog.courtside.dialogs.cue_list import CueList
from courtlog.courtside.dialogs.form import Form, TextField
from courtlog.courtside.dialogs.own_screen import OwnDialog, OwnScreen
from courtlog.courtside.dialogs.paged_list import Page, PagedList
from courtlog.courtside.dialogs.questions import (
    Choice,
    PickList,
    TextQuestion,
    YesNoQuestion,
)
from courtlog.courtside.screens.amend import AmendScreen
from courtlog.courtside.screens.blank import BlankScreen
from courtlog.courtside.screens.board import BoardScreen
from courtlog.courtside.screens.care import Notice
from courtlog.courtside.screens.courts.others_screen import OthersScreen
from courtlog.courtside.screens.courts.trade_session import TradeSession
from courtlog.courtside.screens.feeds_screen import FeedsScreen
from courtlog.courtside.screens.film.slate import SlateScreen
from courtlog.courtside.screens.help_screen import HelpScreen
from courtlog.courtside.screens.manual.page_screen import ManualPage
from courtlog.courtside.screens.manual.topic_list import TopicList
from courtlog.courtside.screens.paper.form_screen import FormScreen
from courtlog.courtside.screens.paper.form_session import FormSession
from courtlog.courtside.screens.paper.paper_screen import PaperScreen
from courtlog.courtside.screens.paper.sheet_place import SheetPlace
from courtlog.courtside.screens.paper.typing_screen import TypingScreen
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.courtside.screens.paper.versions_question import VersionsQuestion
from courtlog.courtside.screens.people import CardScreen, PeopleScreen, ReasonsScreen
from courtlog.courtside.screens.plan import PlanScreen
from courtlog.courtside.screens.printed_page import PageScreen
from courtlog.courtside.screens.reps import RepsScreen
from courtlog.courtside.screens.review import ReviewScreen, page_of
from courtlog.courtside.screens.second_look import RatingSession, SecondLookScreen
from courtlog.courtside.screens.setup import SetUpScreen
from courtlog.courtside.screens.teach import NINE_KEYS, TeachScreen
from courtlog.courtside.screens.trend_player import PlayerTrendScreen
from courtlog.courtside.screens.trends import TrendsScreen
from courtlog.errors import CourtlogError
from courtlog.logbook.reads.main_cue_lookups import MainCue
from courtlog.logbook.reads.paper.sheet_owners import SheetOwner
from courtlog.logbook.reads.trend_lookups import roster_trends
from courtlog.manual.search import places
from tests.court import DAY, close_look, desk_in, feed, used
from tests.courtside.screen import shown


def _rating_screen(desk: Desk) -> SecondLookScreen:
    session = RatingSession(desk.book, desk.view.clinic, "Bo", 1, [], desk.clock)
    return SecondLookScreen(session, close_look(), lambda: False)


def _typing(desk: Desk) -> TypingScreen:
    session = TypingSession(desk.book, lambda: desk.state.library, close_look(), desk.clock)
    code = SheetCode.of(SheetKind.COURT, DAY, "Harbour Week", "Tove")
    session.open(SheetPlace(code, SheetOwner(desk.view.clinic, Player(1, "Tove"))))
    task = SheetTask(drill="forehand/racquet-feed", purpose=Purpose.PRACTICE, cues=("turn",))
    session.begin(task, SheetLines())
    return TypingScreen(session, "", lambda undo: False)


def _form(desk: Desk) -> FormScreen:
    code = SheetCode.of(SheetKind.FORM, DAY, desk.view.clinic.name, desk.view.roster[0].name)
    return FormScreen(FormSession(desk.book, desk.clock), code, lambda undo: False)


def _review(desk: Desk) -> ReviewScreen:
    live = desk.view.live
    assert live is not None
    return ReviewScreen(page_of(desk.book, desk.view, live, desk.view.speak_rule))


def _feeds(desk: Desk) -> FeedsScreen:
    return FeedsScreen(desk.feeds.live(), desk.view.speak)


def _others(desk: Desk) -> OthersScreen:
    own = [1, "1", "head", 1, str(desk.book.path.parent), 0]
    with desk.book.writing() as db:
        db.execute("INSERT INTO court_book VALUES (?, ?, ?, ?, ?, ?)", own)
    return OthersScreen(TradeSession(desk))


def _amend(desk: Desk) -> AmendScreen:
    return AmendScreen(desk.amendments(), desk.feeds.live().id)


def _set_up(desk: Desk) -> SetUpScreen:
    return SetUpScreen(SetUpQuestions(coach="", court="1", zone="UTC", pad="right"), [])


def _player_trend(desk: Desk) -> PlayerTrendScreen:
    trend = roster_trends(desk.book, desk.view.clinic.id, DAY)[0]
    return PlayerTrendScreen(trend, ClinicNow(desk.book.path, desk.view.clinic.id, DAY))


CHOICES = [Choice("a", "first"), Choice("b", "second")]
SCREENS: dict[type, Callable[[Desk], OwnScreen]] = {  # type: ignore[type-arg]
    AmendScreen: _amend,
    BlankScreen: lambda desk: BlankScreen(),
    BoardScreen: BoardScreen,
    CardScreen: lambda desk: CardScreen(desk.people, desk.people.entries()[0]),
    CourtScreen: lambda desk: CourtScreen(desk, lambda settings: None),
    CueList: lambda desk: CueList(used("forehand/hand-feed").cues, ["turn"], MainCue(), {}, 2),
    FeedsScreen: _feeds,
    Form: lambda desk: Form("Heat now", [TextField("wbgt", "WBGT")]),
    FormScreen: _form,
    ManualPage: lambda desk: ManualPage(places("words")[0], TopicList),
    TopicList: lambda desk: TopicList(),
    HelpScreen: lambda desk: HelpScreen(desk.view, [(COMMANDS[0].shown, COMMANDS[0].help())]),
    Notice: lambda desk: Notice("Heat", [PROMPT]),
    PagedList: lambda desk: PagedList("All", [Page("these", CHOICES), Page("those", CHOICES)]),
    OthersScreen: _others,
    PageScreen: lambda desk: PageScreen("A page.\n" * 100),
    PeopleScreen: lambda desk: PeopleScreen(desk, None),
    PickList: lambda desk: PickList("Which", CHOICES),
    PlanScreen: lambda desk: PlanScreen(desk.state),
    PlayerTrendScreen: _player_trend,
    ReasonsScreen: lambda desk: ReasonsScreen(Focus("forehand"), "Maren"),
    RepsScreen: lambda desk: RepsScreen(desk, desk.view.roster[0]),
    ReviewScreen: _review,
    SecondLookScreen: _rating_screen,
    SetUpScreen: _set_up,
    SlateScreen: lambda desk: SlateScreen(desk.clock, desk.view.clinic.place),
    TeachScreen: lambda desk: TeachScreen("a pad", NINE_KEYS, frozenset()),
    TextQuestion: lambda desk: TextQuestion("Note"),
    TrendsScreen: lambda desk: TrendsScreen(desk.book, desk.view),
    TypingScreen: _typing,
    VersionsQuestion: lambda desk: VersionsQuestion("Two versions.", []),
    YesNoQuestion: lambda desk: YesNoQuestion("Really?", "yes", "no"),
}


def own_screens() -> set[type]:
    """Every screen and dialog that the package defines."""
    return {
        found
        for module in pkgutil.walk_packages(courtside.__path__, "courtlog.courtside.")
        for found in vars(importlib.import_module(module.name)).values()
        if isinstance(found, type) and issubclass(found, OwnScreen)
    } - {OwnScreen, OwnDialog, PaperScreen}


def test_every_screen_is_tried_here() -> None:
    assert own_screens() == set(SCREENS)


@pytest.mark.parametrize("kind", SCREENS, ids=lambda kind: kind.__name__)
def test_what_a_key_cannot_do_is_told_on_that_screen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kind: type
) -> None:
    failures = [
        (CourtlogError("The basket is gone.", "Look behind you."), "The basket is gone. Look"),
        (OSError(5, "Input/output error"), "This could not be opened (Input/output error)"),
        (ImportError("numpy"), "a part of the program is gone"),
    ]
    left = [error for error, _ in failures]

    def fail(screen: object, event: Key) -> None:
        raise left.pop(0)

    monkeypatch.setattr(kind, "take_key", fail)
    desk = desk_in(tmp_path)
    feed(desk, "222")

    async def run() -> None:
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test() as pilot:
            if kind is not CourtScreen:
                app.push_screen(SCREENS[kind](desk))
            await pilot.pause()
            for _, words in failures:
                await pilot.press("f11")
                await pilot.pause()
                assert isinstance(app.screen, kind)
                assert words in " ".join(shown(app.screen).split())

    asyncio.run(run())


def test_a_board_that_cannot_read_the_book_says_so_and_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_in(tmp_path)
    read = court_state._rotation
    broken = False

    def rotation(*asked: object) -> object:
        if broken:
            raise sqlite3.OperationalError("disk I/O error")
        return read(*asked)  # type: ignore[arg-type]

    monkeypatch.setattr(court_state, "_rotation", rotation)

    async def run() -> None:
        nonlocal broken
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test() as pilot:
            await pilot.press("f12")
            broken = True
            await pilot.press("down")
            await pilot.pause()
            assert isinstance(app.screen, BoardScreen)
            assert "could not be" in shown(app.screen_stack[-1])
            broken = False
            await pilot.press("down", "escape")
            await pilot.pause()
            assert isinstance(app.screen, CourtScreen)

    asyncio.run(run())
