"""Names of the files of a page with clips: made of a person's name, safe on every system."""

from __future__ import annotations

import re
from hashlib import sha256

from courtlog.names import folded_name
from courtlog.systems.file_names import DEVICES

_LONGEST = 40
_RESERVED = DEVICES | {"index"}
"""Names that no page may have: those of devices, and of the page that leads to the others."""


def safe_name(text: str) -> str:
    """Small letters, digits and hyphens; where signs were lost, some digits tell names apart."""
    folded = folded_name(text).replace(" ", "-")
    name = re.sub(r"[^a-z0-9]+", "-", folded).strip("-")[:_LONGEST]
    if name and name == folded and name not in _RESERVED:
        return name
    digest = sha256(text.encode(errors="surrogatepass")).hexdigest()[:6]
    return "-".join(part for part in (name, digest) if part)
