"""A player's card: what the coach wants to know of a player before and during a clinic.

FIELDS says how each value is asked for, what it may be, and who may see it. The screen, the command
line and a roster file all read their values through `card_of`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import date

from courtlog.names import folded_name
from courtlog.plain_text import is_seen
from courtlog.times import FIRST_YEAR, LAST_YEAR

MINOR, ADULT = "minor", "adult"

AFTER_NAME = {"left": "hand", "right": "hand", MINOR: "age", ADULT: "age"}
"""Words that may follow a name where players are first named, and the field that each fills."""

_MORE_THAN_NAME = re.compile(
    r"(^|\s)((left|right)(y|ie|[- ]?hand\w*)?|minor|adult|\S*[()\[\]]\S*)$|\s\S*\d\S*$",
    re.IGNORECASE,
)

MOST_BALLS = 2000
"""The highest ball limit of a day; a higher number is a slip of the keys."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayerCard:
    """One player of a clinic; a value is empty where nobody has said it. FIELDS describes each."""

    name: str
    """The full name."""
    short: str = ""
    """What the player is called."""
    hand: str = ""
    """`left` or `right`."""
    backhand: str = ""
    """One-handed or two-handed."""
    level: str = ""
    """How well the player plays, in the coach's own words."""
    goal: str = ""
    """What the player comes for."""
    usual_week: str = ""
    """Hours or balls of a week before the clinic."""
    complaints: str = ""
    """What hurts or has hurt."""
    limit: int | None = None
    """Balls a day at most, if one was agreed."""
    age: str = ""
    """Minor or adult."""
    contact: str = ""
    """The person to call, and the number."""
    filming: str = ""
    """Whether filming is agreed: `asked`, `yes` or `no`."""
    filming_on: str = ""
    """The date of that word, as 2026-05-12."""
    filming_by: str = ""
    """Who said so."""

    @property
    def minor(self) -> bool:
        """Whether the coach has said that this is a minor."""
        return self.age == MINOR

    @property
    def may_be_filmed(self) -> bool:
        """Whether there is a yes to filming, with the name of who said it but for an adult.

        Whoever is not known to be an adult may be a minor, for whom a guardian answers.
        """
        return self.filming == "yes" and (self.age == ADULT or bool(self.filming_by))

    def words(self) -> dict[str, str]:
        """Every value as it is typed, by its field's key."""
        return {key: "" if value is None else str(value) for key, value in asdict(self).items()}


@dataclass(frozen=True, slots=True)
class CardField:
    """One line of the card. `private` is shown on the card alone, never in a list."""

    key: str
    title: str
    hint: str
    choices: tuple[str, ...] = ()
    most: int = 200
    private: bool = False


FIELDS = (
    CardField("name", "name", "The name as the player writes it.", most=80),
    CardField("short", "short name", "For lists with little room; it also chooses.", most=20),
    CardField("hand", "hand", "The hand that holds the racquet.", ("", "right", "left")),
    CardField("backhand", "backhand", "One hand or two.", ("", "one-handed", "two-handed")),
    CardField("level", "level", "In your own words."),
    CardField("goal", "goal", "What the player comes for."),
    CardField("usual_week", "usual week", "Hours or balls a week before the clinic."),
    CardField(
        "complaints", "complaints", "Old ones: where, when. A record, no advice.", (), 500, True
    ),
    CardField("limit", "ball limit", "Balls a day at most, if one was agreed.", most=4),
    CardField("age", "minor/adult", "For a minor your local rules go first.", ("", ADULT, MINOR)),
    CardField("contact", "contact", "Whom to call in an emergency.", private=True),
    CardField("filming", "filming", "For a minor a guardian says so.", ("", "asked", "yes", "no")),
    CardField("filming_on", "filming on", "Date of that word, 2026-05-12; empty: today.", most=10),
    CardField("filming_by", "filming by", "Who said so; an adult needs none.", (), 80, True),
)


def card_of(values: Mapping[str, str], before: PlayerCard | None = None) -> PlayerCard:
    """The card with these typed values over the one before. Raises ValueError, a sentence each."""
    wrong = card_mistakes(values, before)
    if wrong:
        raise ValueError(*wrong.values())
    typed = _typed(values, before)
    limit = typed.pop("limit", "")
    return PlayerCard(**typed, limit=int(limit) if limit else None)


def card_mistakes(values: Mapping[str, str], before: PlayerCard | None = None) -> dict[str, str]:
    """What is wrong with the card: a sentence for each field, by its key."""
    typed = _typed(values, before)
    mistakes = {field.key: _mistake(field, typed.get(field.key, "")) for field in FIELDS}
    if not typed.get("filming") and (typed.get("filming_on") or typed.get("filming_by")):
        mistakes["filming"] = "filming is asked, yes or no where a date or a name is given"
    return {key: sentence for key, sentence in mistakes.items() if sentence}


def _typed(values: Mapping[str, str], before: PlayerCard | None) -> dict[str, str]:
    kept = before.words() if before else {}
    typed = {key: one_line(value) for key, value in values.items()}
    if typed.get("filming", kept.get("filming")) != kept.get("filming"):
        # Date and person of the former answer say nothing of this one.
        kept |= {"filming_on": "", "filming_by": ""}
    return kept | typed


def one_line(text: str) -> str:
    """The text on one line: line breaks and tabs become blanks."""
    return " ".join(text.replace("\t", " ").splitlines()).strip()


def missing(card: PlayerCard) -> tuple[str, ...]:
    """What a coach should still ask; a minor's emergency contact comes first.

    An answer of `none` is an answer: only an empty value is open.
    """
    lacks_whose_yes = card.filming == "yes" and not card.may_be_filmed
    open_if = {
        "contact of a minor": card.minor and not card.contact,
        "guardian's yes or no to filming": lacks_whose_yes and card.minor,
        "who agreed to filming": lacks_whose_yes and not card.minor,
        "minor or adult": not card.age,
        "hand": not card.hand,
        "old complaints": not card.complaints,
        "whom to call": not card.minor and not card.contact,
        "yes or no to filming": card.filming in ("", "asked"),
        "goal": not card.goal,
        "level": not card.level,
    }
    return tuple(what for what, is_open in open_if.items() if is_open)


def labels(cards: Sequence[tuple[str, str]]) -> list[str]:
    """How each (name, short name) is shown, so that two players of one name are told apart.

    `Maren (Mar)` by a short name of their own, else `Maren 2` by the order of the roster.
    """
    names = [folded_name(name) for name, _ in cards]
    taken = set(names)
    shown = []
    for index, (name, short) in enumerate(cards):
        twins = [other for other, twin in enumerate(names) if twin == names[index]]
        if len(twins) == 1:
            shown.append(name)
            continue
        others = {folded_name(cards[other][1]) for other in twins if other != index}
        if short and folded_name(short) not in others:
            shown.append(f"{name} ({short})")
            continue
        number = twins.index(index) + 1
        while folded_name(f"{name} {number}") in taken:
            number += len(twins)
        shown.append(f"{name} {number}")
    return shown


def from_first_line(text: str) -> list[PlayerCard]:
    """`Maren, Tove left, Mila minor` as cards: commas between them, AFTER_NAME after a name."""
    return [card_from_words(part) for part in filter(None, map(one_line, text.split(",")))]


def card_from_words(text: str) -> PlayerCard:
    """`Mila left minor` as a card: words of AFTER_NAME behind the name, in any order.

    Raises ValueError, a sentence each.
    """
    values: dict[str, str] = {}
    name = one_line(text)
    while True:
        before, _, last = name.rpartition(" ")
        key = AFTER_NAME.get(last, "")
        if not before or not key or key in values:
            return card_of({"name": name, **values})
        name, values[key] = before.rstrip(), last


def is_doubtful_name(name: str) -> bool:
    """Whether a name ends as if more than the name was said: `Lea lefty`, `Zoe (12)`, `left`."""
    return bool(_MORE_THAN_NAME.search(name))


def _mistake(field: CardField, value: str) -> str:
    if field.key == "name" and not any(map(is_seen, value)):
        return "a name is needed"
    if len(value) > field.most:
        return f"{field.title} has {len(value)} characters, {field.most} at most"
    if field.choices and value not in field.choices:
        return f"{field.title} is {' or '.join(filter(None, field.choices))}, not {value!r}"
    if field.key == "limit" and value and not _is_limit(value):
        return f"{field.title} is a whole number from 1 to {MOST_BALLS}, not {value!r}"
    if field.key == "filming_on" and value and not _is_date(value):
        return f"{field.title} is a date like 2026-05-12, not {value!r}"
    return ""


def _is_date(value: str) -> bool:
    try:
        day = date.fromisoformat(value)
    except ValueError:
        return False
    return day.isoformat() == value and FIRST_YEAR <= day.year <= LAST_YEAR


def _is_limit(value: str) -> bool:
    return value.isascii() and value.isdigit() and 1 <= int(value) <= MOST_BALLS


@dataclass(frozen=True, slots=True)
class Focus:
    """What the coach saw of a player on a stroke: what is good, the chosen cues, and why these.

    `at_ms` is when the strengths were written, milliseconds UTC; `main` is the cue judged first,
    empty where the coach named none.
    """

    stroke: str
    strengths: str = ""
    cues: tuple[str, ...] = ()
    why: str = ""
    at_ms: int = 0
    main: str = ""

    def saying(self, strengths: str, why: str) -> Focus:
        """The same focus with these words."""
        return replace(self, strengths=one_line(strengths), why=one_line(why))
