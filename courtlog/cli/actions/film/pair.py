"""What `courtlog film pair` does: a folder with pages of pairs, and the clips that they play."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from courtlog import finished_steps
from courtlog.cli.actions.film.page_files import PageFiles
from courtlog.cli.actions.film.pair_clips import ClipMaker
from courtlog.cli.actions.film.pair_players import (
    PagesToMake,
    everybodys_pages,
    one_players_page,
    why_not_at_hand,
)
from courtlog.cli.common import chosen_clinic, existing_book
from courtlog.errors import CourtlogError
from courtlog.film.clip import Clip
from courtlog.film.cutting import find_ffmpeg
from courtlog.film.film_search import films_in
from courtlog.film.page_names import safe_name
from courtlog.logbook.file.new_folder import unwritten
from courtlog.plain_text import many, plain
from courtlog.reports.pairs.chosen_pairs import ChosenPairs
from courtlog.reports.pairs.pair_finder import ByHand
from courtlog.reports.pairs.pair_html import pair_html
from courtlog.reports.pairs.pair_models import PairPage

USUAL_FOLDER = Path("pairs")


def write_pairs(
    path: Path | None,
    clinic: str | None,
    player: str | None,
    folders: Sequence[Path],
    to: Path | None,
    by_hand: ByHand,
    replace: bool,
) -> None:
    """Write a player's page of pairs, or everybody's, with its clips. Raises CourtlogError."""
    if player is None and (by_hand.then or by_hand.now):
        raise CourtlogError(
            "--then and --now choose a ball of one player.", "Write the player's name as well."
        )
    home = USUAL_FOLDER if to is None else to
    where = folders or [Path()]
    with existing_book(path) as book:
        here = chosen_clinic(book, clinic)
        if player is None:
            to_make = everybodys_pages(book, here, home)
        else:
            to_make = PagesToMake([one_players_page(book, here, player, by_hand)])
    videos: dict[str, Path] = {}
    for folder in where:
        videos = films_in(folder) | videos
    if player is None:
        to_make.keep_those_at_hand(videos, where)
    elif why := why_not_at_hand(to_make.pages[0], videos, where):
        raise CourtlogError(why, "Nothing was written. --films names the folder that has them.")
    cut = _write_all(to_make.pages, home, videos, where, replace)
    for line in to_make.left_out:
        print(plain(line))
    if not to_make.pages:
        raise CourtlogError(
            f"Nobody of {here.name} has two yardsticks on a film at hand and agreed to be filmed.",
            "Nothing was written; --films names the folder with the videos.",
        )
    if cut:
        who = "page needs" if len(to_make.pages) == 1 else "pages need"
        print(plain(f"Copy the folder {home} to a stick: the {who} no network."))


def _write_all(
    pages: Sequence[ChosenPairs],
    home: Path,
    videos: Mapping[str, Path],
    folders: Sequence[Path],
    replace: bool,
) -> int:
    """Write all pages, or none where one would write over what courtlog did not write.

    Returns the number of clips that were cut.
    """
    made = [(chosen, PageFiles(home, safe_name(chosen.page.player))) for chosen in pages]
    for _, files in made:
        files.check_free(replace)
    cut = 0
    for chosen, files in made:
        cut += _write(chosen, files, ClipMaker(files, videos, folders, find_ffmpeg()))
    return cut


def _write(chosen: ChosenPairs, files: PageFiles, maker: ClipMaker) -> int:
    """Write one page and say so; the number of clips that were cut."""
    if maker.ffmpeg is not None and sys.stderr.isatty():
        count = many(len(chosen.clips), "clip")
        print(plain(f"Cutting {count} of {chosen.page.player} ..."), file=sys.stderr, flush=True)
    try:
        with files.whole():
            clips = {wanted: maker.clip(chosen, wanted) for wanted in chosen.clips}
            page = chosen.with_clips(clips, list(maker.left_out()))
            files.write(pair_html(page))
    except OSError as error:
        raise unwritten(files.folder, error) from error
    finished_steps.note(f"{files.page} is written")
    cut = sum(isinstance(clip, Clip) and clip.is_cut for clip in clips.values())
    for line in _written(page, files, cut):
        print(plain(line))
    return cut


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


def _written(page: PairPage, files: PageFiles, cut: int) -> Iterator[str]:
    shown = [pair for pair in page.cues if pair.then is not None]
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
