"""A page with clips in a folder: their names, and whether what is there may be written over."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from urllib.parse import quote

from courtlog import drafts, private
from courtlog.errors import CourtlogError
from courtlog.given_files import read_ordinary
from courtlog.plain_text import listed

_MOST_BYTES = 1 << 26
_MARK = re.compile(r"<!-- courtlog wrote ([0-9a-f]{64})((?: [a-z0-9._-]+)*) -->\n\Z")
"""The last line of a page: its digest, and the clips that it plays."""


@dataclass(slots=True)
class PageFiles:
    """The files of one page; several pages may share a folder."""

    folder: Path
    stem: str
    """What the names of its files begin with: letters, digits and hyphens."""
    _written: list[str] = field(default_factory=list)
    _before: set[str] = field(default_factory=set)
    _drafts: Path | None = None
    _is_done: bool = False

    @property
    def page(self) -> Path:
        """The page."""
        return self.folder / f"{self.stem}.html"

    @property
    def clips(self) -> Path:
        """The folder of its clips."""
        return self.folder / "clips"

    def clip(self, name: str) -> Path:
        """Where to write a clip or still; it gets its place when the page is written."""
        assert self._drafts is not None, "clips are made within `whole`"
        # No stem has an underscore, so that no name of one page is one of another page.
        file = f"{self.stem}_{name}"
        self._written.append(file)
        return self._drafts / file

    def url(self, clip: Path) -> str:
        """A clip's URL as the page has it."""
        return f"clips/{quote(clip.name)}"

    def check_free(self, replace: bool) -> None:
        """Refuse to write over what courtlog did not write. Raises CourtlogError."""
        if self.folder.exists() and not self.folder.is_dir():
            raise CourtlogError(f"{self.folder} is a file.", "--to names another folder.")
        is_own, self._before = self._as_written()
        if replace:
            return
        foreign = [
            path.name
            for path in (self.page, *sorted(self.clips.glob(f"{self.stem}_*")))
            if path.exists() and not (path.name in self._before or (is_own and path == self.page))
        ]
        if foreign:
            raise CourtlogError(
                f"Not as courtlog wrote it: {listed(foreign)}.",
                "Nothing was written. --replace writes over it, --to names another folder.",
            )

    @contextlib.contextmanager
    def whole(self) -> Iterator[None]:
        """Make the folder. Clips stay drafts until the page is written, or vanish without it."""
        private.make_folder(self.clips)
        try:
            with drafts.folder_in(self.clips) as self._drafts:
                yield
        finally:
            if not self._is_done:
                for name in set(self._written) - self._before:
                    (self.clips / name).unlink(missing_ok=True)

    def write(self, page: str) -> None:
        """Put the clips in place and write the page; clips that it no longer plays are deleted."""
        assert self._drafts is not None, "pages are written within `whole`"
        names = "".join(f" {name}" for name in self._written)
        for name in self._written:
            if (self._drafts / name).exists():
                drafts.put(self._drafts / name, self.clips / name)
        drafts.write(self.page, f"{page}<!-- courtlog wrote {_digest(page, names)}{names} -->\n")
        for name in self._before - set(self._written):
            (self.clips / name).unlink(missing_ok=True)
        self._is_done = True

    def _as_written(self) -> tuple[bool, set[str]]:
        """Whether the page there is as courtlog wrote it, and then the clips that it plays."""
        try:
            text = read_ordinary(self.page, "page", _MOST_BYTES).decode(errors="replace")
        except OSError:
            return False, set()
        mark = _MARK.search(text)
        if mark is None or mark[1] != _digest(text[: mark.start()], mark[2]):
            return False, set()
        return True, {name for name in mark[2].split() if name.startswith(f"{self.stem}_")}


def _digest(page: str, names: str) -> str:
    return sha256(f"{page}\n{names}".encode()).hexdigest()
