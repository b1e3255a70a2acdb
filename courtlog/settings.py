"""The settings of this laptop: one JSON file, every field explained by its description."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Annotated, Literal, get_args, get_type_hints

from courtlog import drafts, given_files, private
from courtlog.errors import NotAFileError, SettingsError
from courtlog.values import (
    NOTHING_ELSE,
    LengthRule,
    NumberRule,
    TextRule,
    WrongValueError,
    take,
    take_json,
)

Theme = Literal["sun", "shade", "night"]

_MOST_BYTES = 100_000
"""Most bytes of a settings file; a real one holds a hundredth."""

THEMES: tuple[Theme, ...] = get_args(Theme)


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a coach sets once; each field says what it does."""

    __pydantic_config__ = NOTHING_ELSE

    pad: Annotated[
        Literal["numbers", "right", "left", "right-azerty", "left-azerty", "taught"],
        "numbers, right, left, either with -azerty, or taught",
    ] = "right"
    taught: Annotated[
        tuple[str, ...], LengthRule(most=12), "the keys that were taught, row by row"
    ] = ()
    clicker: Annotated[
        tuple[str, ...], LengthRule(most=2), "two more keys: a clean ball, and one fault"
    ] = ()
    theme: Annotated[Theme, "sun is black on white, shade softer, night dark"] = "sun"
    bell: Annotated[bool, "sounds: refused, taken back, tough, round over"] = True
    taken_sound: Annotated[bool, "a sound for every ball taken too"] = False
    say_feed: Annotated[bool, "say the next feed aloud: others hear it too"] = False
    review: Annotated[bool, "show the quick review by itself at the end of a round"] = True
    speak: Annotated[
        Literal["plan", "band", "off"], "when to speak: plan (fading), band (a miss), off"
    ] = "plan"
    marks: Annotated[
        Literal["auto", "shapes", "letters"],
        "shapes ●◐○, letters #~x; auto: what the font has",
    ] = "auto"
    look: Annotated[
        Literal["close", "far"], "close, or far: large letters to read from two metres"
    ] = "far"
    basket: Annotated[int, NumberRule(1, 999, typed=True), "usable balls of a full basket"] = 60
    coach: Annotated[str, TextRule(80, empty=True), "your name, for new days"] = ""
    second_backup: Annotated[
        str, TextRule(500, empty=True), "a folder for backups too, like one on a stick"
    ] = ""
    keep_months: Annotated[
        int,
        NumberRule(0, 240, typed=True),
        "months to keep a player after the last day; 0: no end",
    ] = 12
    """A year, so that the next clinic can begin with what was seen at this one.

    That is common practice, no source; local rules may ask for less.
    """


def descriptions() -> dict[str, str]:
    """What each setting does, by name."""
    hints = get_type_hints(Settings, include_extras=True)
    return {name: hint.__metadata__[-1] for name, hint in hints.items()}


def read(path: Path) -> Settings:
    """The settings of this file; the defaults when there is none. Raises SettingsError."""
    try:
        return take_json(Settings, given_files.read_ordinary(path, "settings file", _MOST_BYTES))
    except FileNotFoundError:
        return Settings()
    except NotAFileError as error:
        raise SettingsError(
            error.happened, "Name another file in COURTLOG_SETTINGS, or delete this one."
        ) from error
    except (OSError, WrongValueError) as error:
        raise SettingsError(
            f"The settings file {path} cannot be read ({str(error).splitlines()[0]}).",
            "Mend it, or delete it to start from the defaults.",
        ) from error


def write(path: Path, settings: Settings) -> None:
    """Write the settings; the old file stays whole until the new one is. Raises SettingsError."""
    text = json.dumps(asdict(settings), ensure_ascii=False, indent=2)
    try:
        private.make_folder(path.parent)
        drafts.write(path, text + "\n")
    except OSError as error:
        raise SettingsError(
            f"The settings file {path} cannot be written ({error.strerror}).",
            "Check the folder, or name another file in COURTLOG_SETTINGS.",
        ) from error


def changed(settings: Settings, **values: object) -> Settings:
    """The settings with these values, checked. Raises SettingsError."""
    try:
        return take(Settings, asdict(settings) | values)
    except WrongValueError as error:
        raise SettingsError(f"That cannot be set: {error}.") from error
