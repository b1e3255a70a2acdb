"""The settings of this laptop: one JSON file, every field explained by its description."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from courtlog import private
from courtlog.errors import SettingsError

PADS = ("numbers", "right", "left", "taught")
THEMES = ("sun", "shade", "night")


class Settings(BaseModel):
    """What a coach sets once; each field says what it does."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    pad: Annotated[
        Literal["numbers", "right", "left", "taught"],
        Field(description="keys that rate: numbers, right, left, or taught"),
    ] = "right"
    taught: Annotated[
        tuple[str, ...],
        Field(description="the keys that were taught, row by row", max_length=12),
    ] = ()
    theme: Annotated[
        Literal["sun", "shade", "night"],
        Field(description="sun is black on white, shade softer, night dark"),
    ] = "sun"
    bell: Annotated[bool, Field(description="ring the bell when a round or the basket ends")] = True
    review: Annotated[
        bool, Field(description="show the quick review by itself at the end of a round")
    ] = True
    speak: Annotated[
        Literal["plan", "band", "off"],
        Field(description="when to speak: plan (fading), band (a miss), off"),
    ] = "plan"
    marks: Annotated[
        Literal["shapes", "letters"],
        Field(description="shapes ●◐○, or letters #~x where a font lacks them"),
    ] = "shapes"
    basket: Annotated[int, Field(description="usable balls of a full basket", ge=1, le=999)] = 60
    coach: Annotated[str, Field(description="your name, for new days", max_length=80)] = ""
    second_backup: Annotated[
        str, Field(description="a folder for backups too, like one on a stick", max_length=500)
    ] = ""


def read(path: Path) -> Settings:
    """The settings of this file; the defaults when there is none. Raises SettingsError."""
    try:
        return Settings.model_validate_json(path.read_bytes())
    except FileNotFoundError:
        return Settings()
    except (OSError, ValidationError) as error:
        raise SettingsError(
            f"The settings file {path} cannot be read ({_first_line(error)}).",
            "Mend it, or delete it to start from the defaults.",
        ) from error


def write(path: Path, settings: Settings) -> None:
    """Write the settings; the old file stays whole until the new one is. Raises SettingsError."""
    draft = path.with_suffix(".new")
    try:
        private.make_folder(path.parent)
        draft.unlink(missing_ok=True)
        private.write_new(draft, settings.model_dump_json(indent=2) + "\n")
        os.replace(draft, path)  # noqa: PTH105 - atomic on every system, unlike Path.rename
    except OSError as error:
        raise SettingsError(
            f"The settings file {path} cannot be written ({error.strerror}).",
            "Check the folder, or name another file in COURTLOG_SETTINGS.",
        ) from error


def changed(settings: Settings, **values: object) -> Settings:
    """The settings with these values, checked. Raises SettingsError."""
    try:
        return Settings.model_validate(settings.model_dump() | values)
    except ValidationError as error:
        raise SettingsError(f"That cannot be set: {_first_line(error)}.") from error


def _first_line(error: Exception) -> str:
    if isinstance(error, ValidationError):
        first = error.errors(include_url=False)[0]
        return f"{'.'.join(map(str, first['loc']))}: {first['msg']}"
    return str(error).splitlines()[0]
