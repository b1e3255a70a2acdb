"""The keys with which a page is read, as in a terminal's pager."""

from __future__ import annotations

from textual.containers import VerticalScroll

FORTH, BACK = ("space", "f", "pagedown"), ("b", "pageup")
"""Keys that go a page on and a page back, as in `less` and `more`."""

DOWN, UP = ("down", "j", "enter"), ("up", "k")
LEAVE = ("q", "escape")


def scroll_by(key: str, page: VerticalScroll) -> bool:
    """Scroll the page as this key says; whether it is a key that scrolls."""
    if key in FORTH:
        page.scroll_page_down(animate=False)
    elif key in BACK:
        page.scroll_page_up(animate=False)
    elif key in DOWN:
        page.scroll_down(animate=False)
    elif key in UP:
        page.scroll_up(animate=False)
    elif key in ("home", "g"):
        page.scroll_home(animate=False)
    elif key in ("end", "G"):
        page.scroll_end(animate=False)
    else:
        return False
    return True
