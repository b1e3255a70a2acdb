"""A file's path as the address that SQLite takes, with its options."""

from __future__ import annotations

import os
from pathlib import PurePath
from urllib.parse import quote


def sqlite_uri(path: PurePath, options: str = "") -> str:
    """The address of an absolute path (sqlite.org/uri.html).

    Its place for a computer's name stays empty: SQLite refuses any but `localhost` there. So a
    share of the network, `\\\\club\\books\\book.db`, is a path of two slashes behind it.
    """
    written = path.as_posix()
    lead = "" if written.startswith("/") else "/"  # a drive's letter
    ending = f"?{options}" if options else ""
    return f"file://{lead}{quote(os.fsencode(written), safe='/:')}{ending}"
