"""Where things lie on this machine: the book, the settings, the drills, the samples."""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs

_PACKAGE = Path(__file__).resolve().parent


def _shipped(name: str) -> Path:
    """Beside the package in a checkout, inside it when installed from the wheel."""
    inside = _PACKAGE / "shipped" / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def book() -> Path:
    """The coach's book; COURTLOG_BOOK names another file."""
    named = os.environ.get("COURTLOG_BOOK")
    return Path(named) if named else platformdirs.user_data_path("courtlog", False) / "book.db"


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


def shipped_drills() -> Path:
    """The drill files that come with courtlog."""
    return _shipped("drill_library")


def shipped_samples() -> Path:
    """The invented sample clinics that come with courtlog."""
    return _shipped("sample_sessions")
