"""`courtlog --install-completion` and `--show-completion`: the script by which a shell asks.

The script is a file of its own. The shell's start file, which is the user's, gets one line more
and is never written anew.
"""

from __future__ import annotations

import os
import shlex
import sys
from pathlib import Path

import platformdirs
import shellingham

from courtlog import drafts
from courtlog.errors import CourtlogError

_SCRIPTS = {
    "bash": "completion.bash",
    "zsh": "completion.zsh",
    "fish": "completion.fish",
    "powershell": "completion.ps1",
    "pwsh": "completion.ps1",
}

_FOLDER = Path(__file__).parent / "shells"


def show() -> None:
    """Print the script for the shell that courtlog was called from. Raises CourtlogError."""
    sys.stdout.write(_script(_shell()))


def install() -> None:
    """Have this shell ask courtlog when TAB is pressed, from its next start on.

    Raises CourtlogError where the shell is not known, or a file of it cannot be written.
    """
    shell = _shell()
    if (place := _place(shell)) is None:
        raise CourtlogError(
            "PowerShell alone knows where its profile lies, so that nothing was changed.",
            "Add it yourself: courtlog --show-completion >> $PROFILE",
        )
    start_file = _start_file(shell)
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        drafts.write(place, _script(shell))
        if start_file is not None:
            _add_line(start_file, f"source {shlex.quote(str(place))}")
    except (OSError, UnicodeError) as error:
        reason = getattr(error, "strerror", None) or "it is no text in UTF-8"
        raise CourtlogError(
            f"The files of {shell} cannot be written ({reason}).",
            "`courtlog --show-completion` prints the script, to put it there yourself.",
        ) from error
    print(f"The script for {shell} is {place}.")
    if start_file is not None:
        print(f"{start_file} reads it by its last line; without that line TAB is as before.")
    print(f"A new {shell} completes courtlog by TAB.")


def _script(shell: str) -> str:
    return (_FOLDER / _SCRIPTS[shell]).read_text(encoding="utf-8")


def _shell() -> str:
    """The shell that this program was started from. Raises CourtlogError."""
    try:
        name, _ = shellingham.detect_shell()
    except (shellingham.ShellDetectionFailure, OSError):
        name = ""
    if name not in _SCRIPTS:
        what = f"{name!r} is no shell that courtlog knows." if name else "No shell was found."
        raise CourtlogError(what, "Call it from bash, zsh, fish or PowerShell.")
    return str(name)


def _place(shell: str) -> Path | None:
    """Where a shell's script goes; fish looks there by itself."""
    if shell == "fish":
        given = os.environ.get("XDG_CONFIG_HOME")
        folder = Path(given) if given else Path.home() / ".config"
        return folder / "fish" / "completions" / "courtlog.fish"
    if shell in ("bash", "zsh"):
        return platformdirs.user_data_path("courtlog", False) / _SCRIPTS[shell]
    return None


def _start_file(shell: str) -> Path | None:
    """The file that the shell reads whenever it opens a window."""
    if shell == "bash":
        return Path.home() / ".bashrc"
    if shell == "zsh":
        return Path(os.environ.get("ZDOTDIR") or Path.home()) / ".zshrc"
    return None


def _add_line(file: Path, line: str) -> None:
    """Add a line at the end, unless it is there. Raises OSError, UnicodeError."""
    before = file.read_text(encoding="utf-8") if file.exists() else ""
    if line in before.splitlines():
        return
    with file.open("a", encoding="utf-8") as end:
        end.write(("" if not before or before.endswith("\n") else "\n") + line + "\n")
