"""The one folding of names: what a typed name is compared by, whatever its case and accents."""

from __future__ import annotations

import unicodedata


def folded_name(text: str) -> str:
    """The name without case, doubled blanks and the accents of Latin letters.

    Marks of other scripts stay, since they make another letter (kana KA and GA).
    """
    if text.isascii():
        return " ".join(text.casefold().split())
    # Folding and taking apart twice is Unicode's own rule for comparing without case (3.13, D146).
    apart = unicodedata.normalize("NFKD", unicodedata.normalize("NFD", text).casefold())
    letters: list[str] = []
    base = ""
    for character in unicodedata.normalize("NFKD", apart.casefold()):
        if not unicodedata.combining(character):
            base = character
        elif base.isascii() or base.isspace():
            continue
        letters.append(character)
    return " ".join(unicodedata.normalize("NFC", "".join(letters)).split())
