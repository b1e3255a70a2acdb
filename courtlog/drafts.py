"""The one way to write a file: a draft beside it, on disk, then under its final name.

A draft lies in a private folder of its own. The folder is removed however the writing ends, with
SQLite's side files in it; stale_drafts.py sweeps those of dead programs. Failures are OSErrors.
"""

from __future__ import annotations

import contextlib
import errno
import os
import sys
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TextIO

from courtlog import private, stale_drafts

_BLOCK = 1 << 16

if sys.platform == "darwin":
    import fcntl

    def sync(number: int) -> None:
        """Bring an open file onto the disk: fsync there leaves it in the drive's own memory.

        Raises OSError.
        """
        try:
            fcntl.fcntl(number, fcntl.F_FULLFSYNC)
        except OSError:  # a disk of the network knows no such order
            os.fsync(number)

else:

    def sync(number: int) -> None:
        """Bring an open file onto the disk. Raises OSError."""
        os.fsync(number)


@contextlib.contextmanager
def folder_in(place: Path) -> Iterator[Path]:
    """A new folder in an existing one that only its owner can read, removed afterwards.

    Sweeps what dead programs left in that place.
    """
    stale_drafts.sweep(place)
    draft = place.absolute() / stale_drafts.new_name()
    stale_drafts.being_written.add(draft)
    try:
        draft.mkdir(mode=private.FOLDER)
        yield draft
    finally:
        stale_drafts.remove(draft)
        stale_drafts.being_written.discard(draft)


@contextlib.contextmanager
def folder_noted(place: Path, home: Path) -> Iterator[Path]:
    """The same, noted in another folder, so that it is found if this program dies.

    Without the note nobody would look for it, since a draft may lie anywhere.
    """
    with folder_in(place) as draft:
        if not os.access(home, os.W_OK) or home.samefile(place):
            yield draft
            return
        with folder_in(home) as note:
            stale_drafts.note_elsewhere(note, draft)
            try:
                yield draft
            finally:
                stale_drafts.remove(draft)


@contextlib.contextmanager
def file_in(place: Path, home: Path | None = None) -> Iterator[Path]:
    """A new empty file that only its owner can read, gone afterwards unless it was put in place.

    With `home` it is noted there.
    """
    with folder_in(place) if home is None else folder_noted(place, home) as folder:
        draft = folder / "draft"
        os.close(private.make_file(draft))
        yield draft


@contextlib.contextmanager
def scratch_near(path: Path) -> Iterator[Path]:
    """A folder for working copies of a file, gone afterwards.

    It lies beside the file, or in the system's folder where nothing can be written beside it.
    """
    beside = path.absolute().parent
    with folder_in(beside if os.access(beside, os.W_OK) else scratch_place()) as folder:
        yield folder


def scratch_place() -> Path:
    """The system's folder for files that nobody will miss."""
    return Path(tempfile.gettempdir())


@contextlib.contextmanager
def on_disk(path: Path, buffering: int = -1) -> Iterator[TextIO]:
    """A new private text file to write to, line ends as given; on disk when this is over."""
    number = private.make_file(path)
    with os.fdopen(number, "w", buffering=buffering, encoding="utf-8", newline="") as file:
        yield file
        file.flush()
        sync(number)


def write(path: Path, text: str) -> None:
    """Write a text file; what had that name before stays whole until the new one is.

    A link goes on pointing where it did, at the new text.
    """
    write_each({path: text})


def write_each(texts: Mapping[Path, str]) -> None:
    """Write text files one after the other, each as `write` does."""
    finals = {Path(os.path.realpath(path)): text for path, text in texts.items()}
    for place in {final.parent: None for final in finals}:
        with folder_in(place) as folder:
            for final, text in finals.items():
                if final.parent == place:
                    with on_disk(folder / "draft") as file:
                        file.write(text)
                    put(folder / "draft", final)


def write_new(path: Path, text: str) -> None:
    """Write a text file under a name that is free. Raises FileExistsError."""
    if os.path.lexists(path):
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path))
    with folder_in(path.absolute().parent) as folder:
        with on_disk(folder / "draft") as file:
            file.write(text)
        put_new(folder / "draft", path)


def put(draft: Path, path: Path) -> None:
    """Give the draft its final name, in the place of what had it before."""
    _finish(draft)
    os.replace(draft, path)  # noqa: PTH105 - atomic on every system, unlike Path.rename
    flush_folder(path.parent)


def put_over(draft: Path, path: Path) -> None:
    """The same; overwrite the old file's bytes on the disk, as far as that can be done."""
    if sys.platform == "win32":  # an open file cannot be replaced there
        put(draft, path)
        return
    with path.open("rb+") as before:
        put(draft, path)
        with contextlib.suppress(OSError):
            state = os.fstat(before.fileno())
            if state.st_nlink:
                return  # it has another name somewhere, and is not ours to spoil
            for _ in range(0, state.st_size, _BLOCK):
                before.write(bytes(_BLOCK))
            before.flush()
            sync(before.fileno())


def put_new(draft: Path, path: Path) -> None:
    """Give the draft a final name that is free.

    Raises FileExistsError when another program was faster.
    """
    _finish(draft)
    if sys.platform == "win32":
        draft.rename(path)  # which replaces nothing there
    else:
        try:
            os.link(draft, path)  # the draft's own name goes with its folder
        except FileExistsError:
            raise
        except OSError:
            # FAT and some network file systems have no second names, and say so in many ways.
            _put_without_links(draft, path)
    flush_folder(path.parent)


def put_folder(draft: Path, folder: Path) -> None:
    """Give a folder of flushed files its final name, which is free or that of an empty folder."""
    flush_folder(draft)
    if sys.platform == "win32":
        with contextlib.suppress(FileNotFoundError):
            folder.rmdir()
    draft.rename(folder)
    flush_folder(folder.parent)


def _finish(draft: Path) -> None:
    """Make sure that a draft is whole in its own file, and on disk."""
    check_alone(draft)
    flush(draft)


def check_alone(path: Path) -> None:
    """Raise OSError while a part of a book lies in one of SQLite's files beside it.

    Closing a book says nothing when its log could not be read into it.
    """
    for ending in ("-wal", "-journal"):
        with contextlib.suppress(FileNotFoundError):
            if path.with_name(path.name + ending).stat().st_size:
                raise OSError(errno.EIO, os.strerror(errno.EIO), str(path))


def flush(path: Path) -> None:
    """Bring all that was written to a file onto the disk."""
    number = os.open(path, os.O_RDWR)
    try:
        sync(number)
    finally:
        os.close(number)


def _put_without_links(draft: Path, path: Path) -> None:
    """Reserve the name with an empty file, so that a second program finds it taken."""
    os.close(private.make_file(path))
    try:
        os.replace(draft, path)  # noqa: PTH105
    except BaseException:
        path.unlink(missing_ok=True)
        raise


def flush_folder(folder: Path) -> None:
    """Bring a folder's names onto the disk, where the system can open a folder."""
    with contextlib.suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            sync(number)
        finally:
            os.close(number)
