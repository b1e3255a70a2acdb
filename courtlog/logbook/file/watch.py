"""Notices what other programs write in the book."""

from __future__ import annotations

import sqlite3


class Watch:
    """Looks at one connection; what that connection writes itself is never news."""

    def __init__(self, db: sqlite3.Connection) -> None:
        self._db = db
        self._seen = self._version()

    def news(self) -> bool:
        """Whether another connection has written since this was last asked."""
        before, self._seen = self._seen, self._version()
        return before != self._seen

    def _version(self) -> int:
        (version,) = self._db.execute("PRAGMA data_version").fetchone()
        return int(version)
