"""`courtlog settings` and `courtlog version`: what is set on this laptop, and where files lie."""

from __future__ import annotations

from courtlog import __version__, finished_steps, locations
from courtlog import settings as settings_file
from courtlog.courtside import sound as sounding
from courtlog.errors import SettingsError, UnknownNameError
from courtlog.plain_text import plain
from courtlog.settings import changed

_FEED = "Tough: deep to the forehand corner"


def show_or_change(name: str | None, value: str | None) -> None:
    """Show all settings, or change one and show it."""
    path = locations.settings()
    current, said = settings_file.read(path), settings_file.descriptions()
    if name is not None:
        if name not in said:
            known = ", ".join(said)
            raise UnknownNameError(f"There is no setting called {name!r}.", f"There are {known}.")
        if value is None:
            raise SettingsError(f"Write a value after {name}.")
        is_keys = name in ("taught", "clicker")
        current = changed(current, **{name: value.split() if is_keys else value})
        settings_file.write(path, current)
        finished_steps.note(f"{name} is set")
    for field, says in said.items():
        if name in (None, field):
            shown = getattr(current, field)
            words = " ".join(shown) if isinstance(shown, tuple) else str(shown)
            print(plain(f"{field:<13} {words or '-':<12} {says}"))


def play_sounds() -> None:
    """Play every sound by turns with its meaning, and say a feed, or say what is missing."""
    unheard: list[object] = []
    speaker = sounding.loudspeaker.Loudspeaker(unheard.append)
    for sound, words in sounding.sounds.IN_WORDS.items():
        print(words, flush=True)
        speaker.ask(sounding.loudspeaker.Request(sound))
        speaker.wait_until_silent()
    if unheard:
        print("Nothing here plays sounds: the court rings the terminal's bell for each.")
        unheard.clear()
    print("said aloud: the next feed (only with `courtlog settings say_feed true`)", flush=True)
    speaker.ask(sounding.loudspeaker.Request(words=_FEED))
    speaker.wait_until_silent()
    if unheard:
        print(f"Nothing here speaks: it would be {sounding.programs.voice_wanted()}.")
    speaker.close()


def print_version() -> None:
    """Print the version, and where the coach's files lie."""
    print(f"courtlog {__version__}")
    print(plain(f"book      {locations.book()}"))
    print(plain(f"settings  {locations.settings()}"))
    print(plain(f"drills    {locations.own_drills()}"))
