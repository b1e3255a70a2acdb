"""A player's card: what may be written on it, and how two players of one name are told apart."""

from __future__ import annotations

import pytest

from courtlog.coaching.game.cards import (
    FIELDS,
    PlayerCard,
    card_of,
    from_first_line,
    is_doubtful_name,
    labels,
    missing,
)


def mistakes(values: dict[str, str]) -> tuple[str, ...]:
    """What is wrong with these values, a sentence each."""
    try:
        card_of(values)
    except ValueError as error:
        return error.args
    return ()


def test_every_field_of_the_form_is_one_of_the_card() -> None:
    assert [field.key for field in FIELDS] == list(PlayerCard(name="Maren").words())


def test_a_card_as_it_is_typed_is_the_card() -> None:
    card = PlayerCard(
        name="Maren",
        short="Mar",
        hand="left",
        backhand="two-handed",
        level="b",
        goal="serve",
        usual_week="2 h",
        complaints="elbow",
        limit=200,
        age="minor",
        contact="home",
        filming="yes",
        filming_on="2026-05-12",
        filming_by="Maren's aunt",
    )
    assert card_of(card.words()) == card
    assert card_of({"goal": "  a calm\nfinish "}, card).goal == "a calm finish"
    assert card_of({"limit": ""}, card).limit is None


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"name": " "}, "a name is needed"),
        ({"name": "\u200b\u202e"}, "a name is needed"),
        ({"name": "x" * 81}, "name has 81 characters, 80 at most"),
        ({"hand": "both"}, "hand is right or left, not 'both'"),
        ({"backhand": "2"}, "backhand is one-handed or two-handed, not '2'"),
        ({"age": "14"}, "minor/adult is adult or minor, not '14'"),
        ({"limit": "0"}, "ball limit is a whole number from 1 to 2000, not '0'"),
        ({"filming": "maybe"}, "filming is asked or yes or no, not 'maybe'"),
        (
            {"filming": "yes", "filming_on": "12 May"},
            "filming on is a date like 2026-05-12, not '12 May'",
        ),
        (
            {"filming": "no", "filming_on": "2026-02-31"},
            "filming on is a date like 2026-05-12, not '2026-02-31'",
        ),
        (
            {"filming_by": "her aunt"},
            "filming is asked, yes or no where a date or a name is given",
        ),
        ({"limit": "٣"}, "ball limit is a whole number from 1 to 2000, not '٣'"),
        ({"limit": "1e3"}, "ball limit is a whole number from 1 to 2000, not '1e3'"),
    ],
)
def test_what_may_not_be_written_is_said(values: dict[str, str], words: str) -> None:
    assert mistakes({"name": "Maren"} | values) == (words,)


def test_all_mistakes_of_a_card_come_at_once() -> None:
    assert len(mistakes({"name": "", "hand": "x", "limit": "y"})) == 3


def test_two_of_one_name_are_told_apart() -> None:
    assert labels([("Maren", ""), ("Tove", "T")]) == ["Maren", "Tove"]
    assert labels([("Maren", ""), ("maren", "")]) == ["Maren 1", "maren 2"]
    assert labels([("Maren", "Mar"), ("Maren", "")]) == ["Maren (Mar)", "Maren 2"]
    assert labels([("Maren", "Mar"), ("Maren", "mar")]) == ["Maren 1", "Maren 2"]
    found = labels([("Maren", ""), ("Maren 2", ""), ("Maren", "")])
    assert len(set(found)) == 3, found


def test_the_first_line_of_names() -> None:
    assert from_first_line(" Maren, Tove left ,, Ana Left, left, Bo right") == [
        PlayerCard(name="Maren"),
        PlayerCard(name="Tove", hand="left"),
        PlayerCard(name="Ana Left"),
        PlayerCard(name="left"),
        PlayerCard(name="Bo", hand="right"),
    ]


def test_hand_and_age_follow_a_name_in_any_order() -> None:
    mila = PlayerCard(name="Mila", hand="left", age="minor")
    assert from_first_line("Mila left minor, Mila minor left") == [mila, mila]
    assert from_first_line("Ida  adult, minor, Bo left right") == [
        PlayerCard(name="Ida", age="adult"),
        PlayerCard(name="minor"),
        PlayerCard(name="Bo left", hand="right"),
    ]


def test_a_name_that_ends_as_if_more_was_said_is_doubtful() -> None:
    doubtful = "Lea lefty/Lea left-handed/Lea left handed/Zoë (12)/Zoë 12/left/Ana Left/Bo left"
    names = "Maren/Ada Wright/Leftwich/Tove van Dam/Anouk-Minora/P1/Mila Adulta"
    assert [name for name in f"{doubtful}/{names}".split("/") if is_doubtful_name(name)] == (
        doubtful.split("/")
    )


def test_a_minor_without_a_contact_is_asked_about_first() -> None:
    assert missing(PlayerCard(name="Tove", age="minor"))[0] == "contact of a minor"
    full = PlayerCard(
        name="Tove",
        hand="left",
        level="b",
        goal="c",
        age="minor",
        contact="home",
        complaints="none",
        filming="no",
    )
    assert missing(full) == ()


def test_what_the_form_asks_is_open_until_it_is_answered() -> None:
    """An answer of none, or no, is an answer; filming that was only asked about is open."""
    assert missing(PlayerCard(name="Tove")) == (
        "minor or adult",
        "hand",
        "old complaints",
        "whom to call",
        "yes or no to filming",
        "goal",
        "level",
    )
    asked = PlayerCard(name="Tove", filming="asked", complaints="none", contact="her aunt")
    assert missing(asked) == ("minor or adult", "hand", "yes or no to filming", "goal", "level")


@pytest.mark.parametrize(
    ("age", "answer", "who", "agreed"),
    [
        ("adult", "yes", "", True),
        ("", "yes", "", False),
        ("", "yes", "herself", True),
        ("minor", "yes", "", False),
        ("minor", "yes", "her aunt", True),
        ("adult", "asked", "", False),
        ("minor", "no", "her aunt", False),
        ("adult", "", "", False),
    ],
)
def test_filming_takes_a_yes_and_for_a_minor_a_guardian(
    age: str, answer: str, who: str, agreed: bool
) -> None:
    card = PlayerCard(name="Maren", age=age, filming=answer, filming_by=who)
    assert card.may_be_filmed is agreed
    asked = "guardian's yes or no to filming" in missing(card)
    assert asked is (age == "minor" and answer == "yes" and not who)


def test_another_answer_on_filming_leaves_date_and_name_of_the_former_behind() -> None:
    said = card_of({"name": "Maren", "filming": "yes", "filming_by": "her aunt"})
    assert card_of({"goal": "serve"}, said).filming_by == "her aunt"
    assert card_of({"filming": "no"}, said).filming_by == ""
