"""Who has not agreed to be filmed is in nothing that any command about films makes.

Every state of a card is drawn, and every command that makes something of films, each with a film of
one player who agreed and of one in that state.
"""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest

from tests.cli.program import Home, Said
from tests.court import START, Clock, desk_in, feed, player
from tests.film.built import mvhd, track, video

FILM = "court.mp4"
AGES = ("", "--adult", "--minor")
ANSWERS = ("", "asked", "yes", "no")
WORDS = ("", "Tove's mother")
EARLIER = ("", "yes")
"""What was said before."""

STATES = [state for state in product(AGES, EARLIER, ANSWERS, WORDS) if state[2] or not state[3]]

MAKERS = {"chapters": ("film", "chapters", FILM, "--to", "made")}
"""Commands that make something of a film, each into the folder `made`."""

OF_ONE = {
    "pair": ("film", "pair", "Tove", "--to", "made"),
    "blind": ("film", "blind", "Tove", "--to", "made"),
}
"""Commands that make something of one player's films, each into the folder `made`."""

OF_EVERYBODY = ("film", "pair", "--to", "made")


def agreed(age: str, answer: str, who: str) -> bool:
    """The rule in one line: a yes, and for everybody who may be a minor the name of who said it."""
    return answer == "yes" and (age == "--adult" or who != "")


pytestmark = pytest.mark.every_case


@pytest.fixture
def own(home: Home) -> Home:
    """Two balls of Maren, who agreed, and one of Tove, on one film."""
    desk = desk_in(home.folder)
    clock = desk.clock
    assert isinstance(clock, Clock)
    for seconds in (10, 20):
        clock.at = START + 1000 * seconds
        feed(desk, "222")
    desk.rounds.start(player(desk, "Tove"))
    clock.at = START + 40_000
    feed(desk, "012")
    desk.book.close()
    (home.folder / FILM).write_bytes(video(mvhd(0, 1000, 60_000), track()))
    for name in ("Maren", "Ruben"):
        well(home, "roster", "edit", name, "--filming", "yes", "--adult")
    well(home, "film", "add", FILM, "--at", "0:02", "--shows", "08:30:00")
    return home


def well(home: Home, *typed: str) -> Said:
    """What a command says that goes well."""
    said = home.run(*typed)
    assert said.code == 0, said.err
    return said


def put(home: Home, age: str, earlier: str, answer: str, who: str) -> None:
    """Bring Tove's card into that state."""
    words = [age] if age else []
    if earlier:
        well(home, "roster", "edit", "Tove", "--filming", earlier, "--filming-by", "Tove's aunt")
    if earlier or answer or words:
        said_by = ["--filming-by", who] if who or answer == earlier else []
        well(home, "roster", "edit", "Tove", *words, "--filming", answer, *said_by)


def made(folder: Path) -> str:
    """All that was made, as one text; the films' own bytes are no text of ours."""
    return "\n".join(
        path.name + path.read_bytes().decode("utf-8", "replace")
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    )


@pytest.mark.parametrize("maker", MAKERS)
@pytest.mark.parametrize(("age", "earlier", "answer", "who"), STATES)
def test_only_who_agreed_is_in_what_is_made(
    own: Home, maker: str, age: str, earlier: str, answer: str, who: str
) -> None:
    put(own, age, earlier, answer, who)
    said = " ".join(well(own, *MAKERS[maker]).out.split())
    listed = " ".join(well(own, "film").out.split())
    text = made(own.folder / "made")
    assert "Maren" in text
    assert ("Tove" in text) is agreed(age, answer, who)
    assert ("Left out, since filming is not agreed: 1 of Tove." in said) is ("Tove" not in text)
    assert ("No yes from Tove." in said) is ("Tove" not in text)
    assert ("no yes Tove: " in listed) is ("Tove" not in text)
    gone = earlier == "yes" and answer != "yes"
    assert ("while there was a yes is yours to delete" in listed) is gone


@pytest.mark.parametrize("maker", OF_ONE)
@pytest.mark.parametrize(("age", "earlier", "answer", "who"), STATES)
def test_of_who_has_not_agreed_nothing_is_made_by_name(
    own: Home, maker: str, age: str, earlier: str, answer: str, who: str
) -> None:
    """Who agreed has one round alone, so the next thing that is asked for is a second yardstick."""
    put(own, age, earlier, answer, who)
    said = own.run(*OF_ONE[maker])
    err = " ".join(said.err.split())
    refused = "No page of Tove: " if maker == "pair" else "Tove is left out: "
    ask = "Ask first, then `courtlog roster edit NAME --filming yes --filming-by WHO`."
    assert said.code == 1
    assert not (own.folder / "made").exists()
    assert (refused in err) is (ask in err) is not agreed(age, answer, who), err


@pytest.mark.parametrize(("age", "earlier", "answer", "who"), STATES)
def test_who_has_not_agreed_is_named_where_pages_of_everybody_are_made(
    own: Home, age: str, earlier: str, answer: str, who: str
) -> None:
    put(own, age, earlier, answer, who)
    out = " ".join(own.run(*OF_EVERYBODY).out.split())
    (why,) = (part for part in out.split("No page of ") if part.startswith("Tove: "))
    listed = " ".join(well(own, "film").out.split())
    _, _, no_yes = listed.partition("no yes Tove: ")
    reason = why.removeprefix("Tove: ").strip().rstrip(".")
    assert (no_yes.startswith(reason[:20]) and bool(no_yes)) is not agreed(age, answer, who), out


def test_a_yes_taken_back_ends_what_is_made_the_next_time(own: Home) -> None:
    well(own, "roster", "edit", "Tove", "--filming", "yes", "--filming-by", "Tove's mother")
    well(own, *MAKERS["chapters"])
    assert "Tove" in made(own.folder / "made")
    said = well(own, "roster", "edit", "Tove", "--filming", "no").out
    assert "The name Tove may stand beside them" in said
    well(own, *MAKERS["chapters"])
    assert "Tove" not in made(own.folder / "made")


def test_of_a_film_of_nobody_who_agreed_the_next_step_is_to_ask(own: Home) -> None:
    said = own.run("film", "chapters", FILM, "--player", "Tove")
    assert said.code == 1
    assert "`courtlog roster edit NAME --filming yes --filming-by WHO`" in said.err


def test_a_roster_file_brings_the_answer(own: Home) -> None:
    (own.folder / "more.csv").write_text(
        "name,age,filming,filming on,filming by\n"
        "Ada,minor,yes,2026-05-11,her father\nBo,minor,yes,2026-05-11,\nCleo,,asked,2026-05-11,\n"
    )
    well(own, "roster", "import", "more.csv")
    listed = " ".join(well(own, "roster", "list").out.split())
    assert "guardian's yes or no to filming" in listed
    said = well(own, *MAKERS["chapters"]).out
    assert "No yes from Tove, Bo and Cleo." in " ".join(said.split())
    cards = " ".join(well(own, "roster", "list", "--cards").out.split())
    assert "her father" in cards
    assert "2026-05-11" in cards
