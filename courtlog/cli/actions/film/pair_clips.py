"""The clips of a page of pairs: cut, or parts of the films where nothing can be cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from courtlog.cli.actions.film.page_files import PageFiles
from courtlog.errors import CourtlogError
from courtlog.film.clip import Clip
from courtlog.film.cutting import clip_rate, cut_clip, cut_still
from courtlog.film.film_search import path_from
from courtlog.film.frame_times import frame_ms
from courtlog.film.page_names import safe_name
from courtlog.film.playlists import uri_of
from courtlog.logbook.reads.film.round_balls import FilmPlace
from courtlog.plain_text import listed
from courtlog.reports.pairs.chosen_pairs import ChosenPairs, WantedClip


@dataclass(slots=True)
class ClipMaker:
    """Makes the clips of a page, or points into the films where nothing can be cut."""

    files: PageFiles
    videos: Mapping[str, Path]
    folders: Sequence[Path]
    ffmpeg: Path | None
    missing: list[str] = field(default_factory=list)
    """Films that are in none of the folders."""
    uncut: list[str] = field(default_factory=list)
    """What would have been cut."""
    failed: list[str] = field(default_factory=list)
    """Why a clip was not cut."""

    def clip(self, chosen: ChosenPairs, wanted: WantedClip) -> Clip | str:
        """The clip, or the sentence why there is none."""
        place = wanted.place
        source = self.videos.get(place.film.fingerprint)
        if source is None:
            self.missing.append(place.film.name)
            return f"{place.film.name} was not found, so this ball is not shown."
        if self.ffmpeg is not None:
            cue = safe_name(chosen.page.cues[wanted.cue].cue)
            name = f"{wanted.cue + 1}-{cue}-{wanted.side}"
            try:
                return self._cut(self.ffmpeg, source, place, name)
            except CourtlogError as error:
                self.failed.append(error.happened)
        self.uncut.append(f"{source.name} {_place(place.start_ms)} to {_place(place.end_ms)}")
        return Clip(
            file=uri_of(path_from(self.files.folder, source)),
            start_ms=place.start_ms,
            hit_ms=place.hit_ms,
            end_ms=place.end_ms,
            frame_ms=frame_ms(source),
            is_cut=False,
            still=None,
        )

    def left_out(self) -> Iterator[str]:
        """What the page does not have, a sentence each."""
        if self.missing:
            names = listed(list(dict.fromkeys(self.missing)))
            yield f"Not found in {folder_words(self.folders)}: {names}."
        yield from dict.fromkeys(self.failed)
        if self.uncut:
            why = "" if self.ffmpeg else " since this computer has no ffmpeg"
            yield f"Not cut{',' * bool(why)}{why}: {'; '.join(self.uncut)}."
            yield "There the page plays a part of the whole film, so keep it where it is."

    def _cut(self, ffmpeg: Path, source: Path, place: FilmPlace, name: str) -> Clip:
        video = self.files.clip(f"{name}.mp4")
        still = self.files.clip(f"{name}.jpg")
        cut_clip(ffmpeg, source, place.start_ms, place.end_ms, video)
        cut_still(ffmpeg, source, place.hit_ms, still)
        return Clip(
            file=self.files.url(video),
            start_ms=0,
            hit_ms=place.hit_ms - place.start_ms,
            end_ms=place.end_ms - place.start_ms,
            frame_ms=1000 / clip_rate(source),
            is_cut=True,
            still=self.files.url(still),
        )


def folder_words(folders: Sequence[Path]) -> str:
    """`phone and this folder`."""
    return listed(["this folder" if folder == Path() else str(folder) for folder in folders])


def _place(milliseconds: int) -> str:
    """`12:04.5` into a film."""
    minutes, rest = divmod(milliseconds // 100, 600)
    return f"{minutes}:{rest // 10:02}.{rest % 10}"
