"""The form before the clinic: what is known stands on it, a minor's contact never does."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from html import unescape
from itertools import product
from pathlib import Path

import pytest

from courtlog.coaching.game.cards import FIELDS, PlayerCard, card_of
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.reports.paper.form_facts import Form, forms
from courtlog.reports.paper.form_html import form_html
from courtlog.reports.paper.form_text import form_text
from tests.cli.program import Home
from tests.court import START, desk_in
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

ON = date(2026, 5, 10)
CALL = "her aunt, +00 555 12 77"
HOSTILE = "<b>Ann</b> \x1b[2J\u202e & " + "W" * 60


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    """A clinic of one player, Tove."""
    desk = desk_in(tmp_path / "book", names=("Tove",))
    yield desk.book
    desk.book.close()


def clinic(book: Book) -> Clinic:
    return lookups.clinics(book)[-1]


def form_of(book: Book, **card: str) -> Form:
    """The form of the one player with this card."""
    here = clinic(book)
    who = lookups.players(book, here.id)[0]
    PeopleWriter(book).edit_card(here.id, who.id, card_of({"name": "Tove"} | card), START)
    (form,) = forms(book, here, None, 0, 12, ON)
    return form


def both(form: Form) -> str:
    """What stands on it, as text and as HTML."""
    return form_text([form]) + unescape(form_html([form]))


def test_an_empty_card_gives_a_form_with_nothing_on_it_but_the_name(book: Book) -> None:
    form = form_of(book)
    assert [one.known for one in form.questions] == ["Tove", "", "", "", "", "", ""]
    assert [one.key for one in form.questions] == [
        "name", "age", "hand", "complaints", "contact", "filming", "goal",
    ]  # fmt: skip


def test_every_question_is_a_line_of_the_card_with_its_choices(book: Book) -> None:
    fields = {field.key: field for field in FIELDS}
    for question in form_of(book).questions:
        assert question.why.endswith(".")
        assert question.seen_by
        assert set(question.choices) <= set(fields[question.key].choices)
        assert bool(question.choices) is not bool(question.lines)


@pytest.mark.parametrize(
    ("age", "who", "answer"),
    list(product(("", "adult", "minor"), ("", "Mia"), ("", "asked", "yes", "no"))),
)
def test_a_contact_stands_on_an_adults_form_alone(
    book: Book, age: str, who: str, answer: str
) -> None:
    """Whatever the card says; and a yes that does not count is asked again."""
    said = {"filming_by": who} if answer else {}
    form = form_of(book, age=age, contact=CALL, filming=answer, **said)
    shown = both(form)
    assert (CALL in shown) is (age == "adult")
    assert ("One is kept already." in shown) is (age != "adult")
    assert not who or who not in shown
    filming = next(one for one in form.questions if one.key == "filming")
    open_again = age != "adult" and answer == "yes" and not who
    assert filming.known == ("" if open_again else answer)


def test_what_is_known_stands_there_to_be_checked(book: Book) -> None:
    form = form_of(book, hand="left", age="adult", goal="a calm serve", complaints="left knee")
    text = form_text([form])
    assert "[x] adult   [ ] minor" in text
    assert "[ ] right   [x] left" in text
    assert "> a calm serve" in text
    assert "> left knee" in text
    assert "please check it" in text
    (empty,) = forms(book, clinic(book), None, 0, 12, ON)[:1]
    assert form.code == empty.code


def test_the_code_says_whose_it_is_and_a_blank_one_is_nobodys(book: Book) -> None:
    known, blank = forms(book, clinic(book), "tove", 1, 12, ON)
    assert known.code == SheetCode.of(SheetKind.FORM, ON, clinic(book).name, "Tove")
    assert blank.code == SheetCode.of(SheetKind.FORM, ON, clinic(book).name)
    assert blank.player == ""
    assert "check it" not in form_text([blank])


@pytest.mark.parametrize(
    ("months", "said"),
    [
        (12, "kept in the coach's book for 12 months after the last day."),
        (1, "kept in the coach's book for 1 month after the last day."),
        (0, "kept in the coach's book until you ask to have them removed."),
    ],
)
def test_it_says_how_long_answers_are_kept(book: Book, months: int, said: str) -> None:
    (form,) = forms(book, clinic(book), None, 0, months, ON)
    assert said in " ".join(form_text([form]).split())
    assert said in unescape(form_html([form]))


def fullest(book: Book) -> Form:
    """As much on it as a card can hold, in hostile letters."""
    most = {field.key: field.most for field in FIELDS}
    texts = {key: HOSTILE.ljust(most[key], "W")[: most[key]] for key in ("name", "goal", "contact")}
    texts["complaints"] = ("left knee " * 60)[: most["complaints"]]
    return form_of(book, age="adult", hand="left", filming="yes", **texts)


def test_the_text_is_one_sheet_of_paper(book: Book) -> None:
    """66 lines of 80 columns, as printers of text have it."""
    blank = forms(book, clinic(book), None, 1, 12, ON)[-1]
    for form in (form_of(book), fullest(book), blank):
        lines = form_text([form]).splitlines()
        assert max(map(len, lines)) <= 78
        assert len(lines) <= 66
    assert "\x1b" not in form_text([fullest(book)])
    assert "<b>" not in form_html([fullest(book)])


def test_a_card_is_read_from_what_the_form_asks() -> None:
    """Each answer is a value that the card takes."""
    answers = {"name": "Tove", "age": "minor", "hand": "left", "filming": "no", "goal": "g"}
    assert card_of(answers) == PlayerCard(**answers)  # type: ignore[arg-type]


def titles(lines: list[str]) -> list[str]:
    """The title of each form, which has the code behind it."""
    return [line.split(" · ")[0] for line in lines if "efore Autumn · " in line]


def test_the_command_prints_one_for_everyone_and_blank_ones(home: Home) -> None:
    assert home.run("clinic", "new", "Autumn").lines
    assert titles(home.run("paper", "form").lines) == ["Before Autumn"]
    for name, age in (("Ada", "--minor"), ("Bo", "--adult")):
        assert home.run("roster", "add", name, age, "--contact", f"{name}'s aunt").lines
    every = home.run("paper", "form").lines
    assert titles(every) == ["Ada, before Autumn", "Bo, before Autumn"]
    assert [f"   > {name}'s aunt" in every for name in ("Ada", "Bo")] == [False, True]
    more = home.run("paper", "form", "--player", "bo", "--blank", "2").lines
    assert titles(more) == ["Bo, before Autumn", "Before Autumn", "Before Autumn"]
    assert home.run("paper", "form", "--html", home.folder / "f.html").code == 0
    assert home.run("paper", "form", "--html", home.folder / "f.html").code == 1, "never over it"
    assert home.run("settings", "keep_months", "3").lines
    assert "for 3 months" in home.run("paper", "form").out


@pytest.fixture
def home(tmp_path: Path) -> Home:
    """A home with nothing in it."""
    return Home(tmp_path)


@pytest.fixture
def sheets(book: Book, tmp_path: Path) -> list[Path]:
    """The forms that hold least and most, each in a file."""
    found: list[Path] = []
    for form in (form_of(book), fullest(book), forms(book, clinic(book), None, 1, 12, ON)[-1]):
        found.append(tmp_path / f"{len(found)}.html")
        found[-1].write_text(form_html([form]), encoding="utf-8")
    found.append(tmp_path / "three.html")
    found[-1].write_text(form_html(forms(book, clinic(book), None, 2, 12, ON)), encoding="utf-8")
    return found


@pytest.mark.browser
@needs_validator
def test_the_validator_finds_nothing(sheets: list[Path]) -> None:
    judged = valid(*sheets)
    assert (judged.returncode, judged.stdout) == (0, "")


@pytest.mark.browser
@needs_browser
@needs_axe
def test_axe_finds_nothing(window: Browser, sheets: list[Path]) -> None:
    for sheet in sheets:
        window.open(sheet)
        assert axe(window)["failed"] == []


@pytest.mark.browser
@needs_browser
@pytest.mark.parametrize("paper", list(PAPERS))
def test_each_form_is_one_page_with_letters_and_boxes_large_enough(
    window: Browser, sheets: list[Path], paper: str
) -> None:
    window.as_on("print")
    window.wide(round(96 * (PAPERS[paper][0] - 2 * MARGIN)))
    for sheet in sheets:
        window.open(sheet)
        assert window.printed_pages(paper) == (3 if sheet == sheets[-1] else 1)
        assert window.run(SMALLEST) * 72 / 96 >= 11
        sides = window.run(
            "return [...document.querySelectorAll('.box')].flatMap(box =>"
            " [box.getBoundingClientRect().width, box.getBoundingClientRect().height])"
        )
        assert min(sides) * 25.4 / 96 >= 7
    window.run("document.querySelector('.page').style.paddingTop = '25cm'")
    assert window.printed_pages(paper) > 3
    window.as_on("screen")


@pytest.mark.browser
@needs_browser
def test_a_phone_never_scrolls_sideways(window: Browser, sheets: list[Path]) -> None:
    window.wide(PHONE)
    for sheet in sheets:
        window.open(sheet)
        assert window.run("return document.documentElement.scrollWidth") <= PHONE
