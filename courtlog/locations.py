"""Where things lie on this machine: the book, the settings, the drills, the samples."""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs

from courtlog import given_files

_PACKAGE = Path(__file__).resolve().parent


def _shipped(name: str) -> Path:
    """Beside the package in a checkout, inside it when installed from the wheel."""
    inside = _PACKAGE / "shipped" / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def book(named: Path | None = None) -> Path:
    """The named book, else the coach's own; COURTLOG_BOOK names another file.

    A link stands for the file that it leads to. So a book has one lock, one folder of backups and
    one file to replace, by whatever name it is opened. Raises NotAFileError where it can be no
    file.
    """
    called = named or os.environ.get("COURTLOG_BOOK")
    path = Path(called) if called else platformdirs.user_data_path("courtlog", False) / "book.db"
    given_files.check_ordinary(path, "book")
    return Path(os.path.realpath(path)) if path.is_symlink() else path


def settings() -> Path:
    """The settings file of this laptop; COURTLOG_SETTINGS names another file."""
    named = os.environ.get("COURTLOG_SETTINGS")
    if named:
        return Path(named)
    return platformdirs.user_config_path("courtlog", False) / "settings.json"


def own_drills() -> Path:
    """The coach's own drill files; COURTLOG_DRILLS names another folder."""
    named = os.environ.get("COURTLOG_DRILLS")
    return Path(named) if named else platformdirs.user_data_path("courtlog", False) / "drills"


def error_file() -> Path:
    """What is kept of errors of the program; COURTLOG_ERRORS names another file."""
    named = os.environ.get("COURTLOG_ERRORS")
    return Path(named) if named else platformdirs.user_log_path("courtlog", False) / "errors.txt"


def sounds() -> Path | None:
    """Where the sounds are kept once they were heard; None: there are none, but for the bell.

    COURTLOG_SOUNDS names another folder, or nothing for none.
    """
    named = os.environ.get("COURTLOG_SOUNDS")
    if named is None:
        return platformdirs.user_cache_path("courtlog", False) / "sounds"
    return Path(named) if named else None


def shipped_drills() -> Path:
    """The drill files that come with courtlog."""
    return _shipped("drill_library")


def shipped_samples() -> Path:
    """The invented sample clinics that come with courtlog."""
    return _shipped("sample_sessions")
