"""The system's own programs that play a file or speak a text, by their whole paths.

They are looked for in whole folders of the PATH alone: never in the folder somebody stands in.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from pathlib import Path

from courtlog import locations

Program = tuple[str, ...]
"""A command line. A player gets the file's path after it, a voice the words on its input,
so that no word is an option."""

_SPEAK_ON_WINDOWS = (
    "[Console]::InputEncoding = [Text.Encoding]::UTF8;"
    "Add-Type -AssemblyName System.Speech;"
    "(New-Object System.Speech.Synthesis.SpeechSynthesizer).Speak([Console]::In.ReadToEnd())"
)

_PLAYERS: dict[str, tuple[Program, ...]] = {
    "darwin": (("afplay",),),
    "win32": (),  # winsound plays there
    "": (("paplay",), ("pw-play",), ("aplay", "-q")),
}
_VOICES: dict[str, tuple[Program, ...]] = {
    "darwin": (("say", "-f", "-"),),
    "win32": (("powershell", "-NoProfile", "-NonInteractive", "-Command", _SPEAK_ON_WINDOWS),),
    "": (("espeak-ng", "--stdin"),),
}


def players() -> list[Program]:
    """The players of this system that are there, the best first."""
    return list(_there(_PLAYERS))


def voices() -> list[Program]:
    """The voices of this system that are there."""
    return list(_there(_VOICES))


def voice_wanted() -> str:
    """The name of the program that would speak on this system."""
    return _of_this_system(_VOICES)[0][0]


def folders() -> list[Path]:
    """Where programs are looked for; nowhere if no sounds are wished for."""
    if locations.sounds() is None:
        return []
    if sys.platform == "win32":
        root = Path(os.environ.get("SYSTEMROOT", "C:/Windows"))
        return [root / "System32" / "WindowsPowerShell" / "v1.0"]
    return [folder for folder in map(Path, os.get_exec_path()) if folder.is_absolute()]


def _of_this_system(kind: dict[str, tuple[Program, ...]]) -> tuple[Program, ...]:
    return kind.get(sys.platform, kind[""])


def _there(kind: dict[str, tuple[Program, ...]]) -> Iterator[Program]:
    ending = ".exe" if sys.platform == "win32" else ""
    for name, *options in _of_this_system(kind):
        paths = (folder / f"{name}{ending}" for folder in folders())
        path = next((path for path in paths if path.is_file() and os.access(path, os.X_OK)), None)
        if path is not None:
            yield (str(path), *options)
