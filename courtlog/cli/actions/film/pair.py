"""What `courtlog film pair` does: a folder with a player's page, and the clips that it plays."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path, PurePath

from courtlog import finished_steps
from courtlog.cli.actions.film.page_files import PageFiles
from courtlog.cli.common import chosen_clinic, existing_book
from courtlog.errors import CourtlogError
from courtlog.film.clip import Clip
from courtlog.film.cutting import clip_rate, cut_clip, cut_still, find_ffmpeg
from courtlog.film.film_search import films_in
from courtlog.film.frame_times import frame_ms
from courtlog.film.page_names import safe_name
from courtlog.film.playlists import uri_of
from courtlog.logbook.file.new_folder import unwritten
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.film.filming_consent import filming_consent
from courtlog.logbook.reads.film.round_balls import FilmPlace
from courtlog.plain_text import listed, many, plain
from courtlog.reports.pages.film_text import why_left_out
from courtlog.reports.pairs.chosen_pairs import ChosenPairs, WantedClip, chosen_pairs
from courtlog.reports.pairs.pair_finder import ByHand
from courtlog.reports.pairs.pair_html import pair_html
from courtlog.reports.pairs.pair_models import PairPage

USUAL_FOLDER = Path("pairs")


def write_pairs(
    path: Path | None,
    clinic: str | None,
    player: str,
    folders: Sequence[Path],
    to: Path | None,
    by_hand: ByHand,
    replace: bool,
) -> None:
    """Write a player's page of pairs with its clips. Raises CourtlogError."""
    with existing_book(path) as book:
        here = chosen_clinic(book, clinic)
        who = lookups.player_on_roster(book, here.id, player)
        no_yes = filming_consent(book, here.id).not_agreed.get(who.id)
        if no_yes is not None:
            raise CourtlogError(
                f"No page of {who.shown_name}: {why_left_out(no_yes)}.",
                "Ask first, then `courtlog roster edit NAME --filming yes --filming-by WHO`.",
            )
        chosen = chosen_pairs(book, here, who, by_hand)
    where = folders or [Path()]
    videos: dict[str, Path] = {}
    for folder in where:
        videos = films_in(folder) | videos
    if not any(wanted.place.film.fingerprint in videos for wanted in chosen.clips):
        names = listed(list(dict.fromkeys(wanted.place.film.name for wanted in chosen.clips)))
        raise CourtlogError(
            f"None of the films is in {_folders(where)}: {names}.",
            "Nothing was written. --films names the folder that has them.",
        )
    home = USUAL_FOLDER if to is None else to
    files = PageFiles(home, safe_name(chosen.page.player))
    files.check_free(replace)
    try:
        with files.whole():
            maker = _ClipMaker(files, videos, where, find_ffmpeg())
            clips = {wanted: maker.clip(chosen, wanted) for wanted in chosen.clips}
            page = chosen.with_clips(clips, list(maker.left_out()))
            files.write(pair_html(page))
    except OSError as error:
        raise unwritten(home, error) from error
    finished_steps.note(f"{files.page} is written")
    for line in _written(page, files, clips):
        print(plain(line))


def by_hand(then: Sequence[str], now: Sequence[str]) -> ByHand:
    """The balls that were typed as `CUE=CLOCK`. Raises CourtlogError."""
    return ByHand(_typed(then, "--then"), _typed(now, "--now"))


def _typed(words: Sequence[str], option: str) -> dict[str, str]:
    chosen = {}
    for word in words:
        cue, equals, clock = word.rpartition("=")
        if not (equals and cue.strip() and clock.strip()):
            raise CourtlogError(
                f"{word!r} does not say which ball.",
                f"Write the cue and when it was rated: {option} spacing=09:31:07.",
            )
        chosen[cue.strip()] = clock.strip()
    return chosen


@dataclass(slots=True)
class _ClipMaker:
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
            file=uri_of(self._path_of(source)),
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
            yield f"Not found in {_folders(self.folders)}: {names}."
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

    def _path_of(self, source: Path) -> PurePath:
        """The film's path as it is from the page: whole only on another drive."""
        whole = Path(os.path.realpath(source.parent)) / source.name
        try:
            return PurePath(os.path.relpath(whole, os.path.realpath(self.files.folder)))
        except ValueError:
            return whole


def _written(
    page: PairPage, files: PageFiles, clips: Mapping[WantedClip, Clip | str]
) -> Iterator[str]:
    shown = [pair for pair in page.cues if pair.then is not None]
    cut = sum(isinstance(clip, Clip) and clip.is_cut for clip in clips.values())
    yield f"{many(len(shown), 'pair')} of {page.player}, {many(cut, 'clip')} cut: {files.page}"
    for pair in page.cues:
        if pair.then is not None and pair.now is not None:
            sides = [
                f"{ball.day} {ball.clock}, {ball.grade}{', by hand' * ball.chosen_by_hand}"
                for ball in (pair.then, pair.now)
            ]
            yield f"  {pair.cue}: {'; '.join(sides)}"
        else:
            yield f"  {pair.cue}: {pair.missing}"
    yield from page.left_out
    if cut:
        yield f"Copy the folder {files.folder} to a stick: the page needs no network."


def _folders(folders: Sequence[Path]) -> str:
    return listed(["this folder" if folder == Path() else str(folder) for folder in folders])


def _place(milliseconds: int) -> str:
    """`12:04.5` into a film."""
    minutes, rest = divmod(milliseconds // 100, 600)
    return f"{minutes}:{rest // 10:02}.{rest % 10}"
