"""Names of the files of a page with clips: made of a person's name, safe on every system."""

from __future__ import annotations

import re
from hashlib import sha256

from courtlog.names import folded_name

_LONGEST = 40
_DEVICES = re.compile(r"(con|prn|aux|nul|com\d|lpt\d|index)")
"""Names that are devices on Windows, with any ending."""


def safe_name(text: str) -> str:
    """Small letters, digits and hyphens; where signs were lost, some digits tell names apart."""
    folded = folded_name(text).replace(" ", "-")
    name = re.sub(r"[^a-z0-9]+", "-", folded).strip("-")[:_LONGEST]
    if name and name == folded and not _DEVICES.fullmatch(name):
        return name
    digest = sha256(text.encode(errors="surrogatepass")).hexdigest()[:6]
    return "-".join(part for part in (name, digest) if part)
