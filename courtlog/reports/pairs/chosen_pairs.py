"""A player's page of pairs before anything is cut: which two balls of each cue, and where."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from courtlog.coaching.answers.player_answer import StrokeAnswer
from courtlog.coaching.answers.yardstick import balls_then_and_now
from courtlog.coaching.game.people import Clinic, Player
from courtlog.errors import CourtlogError, UnknownNameError
from courtlog.film.clip import Clip
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import answer_lookups, day_lookups
from courtlog.logbook.reads.answer_lookups import StrokeHistory
from courtlog.logbook.reads.film.round_balls import FilmPlace, film_places, round_balls
from courtlog.names import folded_name
from courtlog.reports.facts.answer_facts import stroke_change
from courtlog.reports.facts.blind_facts import blind_sentences
from courtlog.reports.facts.change_models import CueChange
from courtlog.reports.layout.picture_words import PICTURE_WORDS
from courtlog.reports.pairs import pair_words
from courtlog.reports.pairs.pair_finder import ByHand, CueSides, PairFinder, no_pair
from courtlog.reports.pairs.pair_models import PairPage
from courtlog.reports.pairs.pair_words import WhyNone


class WantedClip(NamedTuple):
    """A clip that the page needs: of which cue and side, and where it is."""

    cue: int
    """The cue's place on the page, from 0."""
    side: str
    """`then` or `now`."""
    place: FilmPlace


@dataclass(frozen=True, slots=True)
class ChosenPairs:
    """The page without its clips, and the clips to be made."""

    page: PairPage
    clips: tuple[WantedClip, ...]

    def with_clips(
        self, clips: Mapping[WantedClip, Clip | str], left_out: Sequence[str]
    ) -> PairPage:
        """The page with a clip, or the sentence why there is none, for each that it needs."""
        cues = list(self.page.cues)
        for wanted, clip in clips.items():
            pair = cues[wanted.cue]
            ball = pair.then if wanted.side == "then" else pair.now
            assert ball is not None
            why = clip if isinstance(clip, str) else None
            made = replace(ball, clip=None if isinstance(clip, str) else clip, why_no_clip=why)
            cues[wanted.cue] = (
                replace(pair, then=made) if wanted.side == "then" else replace(pair, now=made)
            )
        return replace(self.page, cues=tuple(cues), left_out=tuple(left_out))


def chosen_pairs(book: Book, clinic: Clinic, who: Player, by_hand: ByHand) -> ChosenPairs:
    """The pairs of a player who agreed to be filmed. Raises CourtlogError where there is none."""
    changes = list(_changes(book, clinic, who.id))
    _check_cues(by_hand, [change for change, _, _, _ in changes])
    sides = [_sides(*one) for one in changes]
    rounds = {b.round_id for s in sides if s for ball in (s.then, s.now) for b in ball}
    balls = round_balls(book, rounds)
    places = film_places(book, clinic, balls.values())
    finder = PairFinder(clinic, balls, places, by_hand, [side for side in sides if side])
    cues, clips, reasons = [], [], [pair_words.no_yardsticks(who.shown_name)]
    for index, ((change, title, past, _), side) in enumerate(zip(changes, sides, strict=True)):
        if side is None:
            cues.append(no_pair(change, title, pair_words.no_second_yardstick(title)))
            continue
        pair, choice = finder.pair(side)
        rated_blind = blind_sentences(book, clinic, who, past, change.cue)
        cues.append(replace(pair, blind=rated_blind))
        if isinstance(choice, WhyNone):
            reasons.append(choice)
        else:
            clips += [
                WantedClip(index, name, places[one.ball.ball_id])
                for name, one in (("then", choice.then), ("now", choice.now))
            ]
    if not clips:
        raise CourtlogError(*reasons[:2][-1])
    page = PairPage(
        clinic=clinic.name,
        player=who.shown_name,
        cues=tuple(cues),
        left_out=(),
        foot=PICTURE_WORDS,
    )
    return ChosenPairs(page, tuple(clips))


def _changes(
    book: Book, clinic: Clinic, player_id: int
) -> Iterator[tuple[CueChange, str, StrokeHistory, StrokeAnswer]]:
    """Each cue of each stroke: what is said of it on every page, and its title here."""
    names, words = day_lookups.cue_names(book), day_lookups.cue_words(book)
    titles = day_lookups.stroke_titles(book)
    strokes = answer_lookups.stroke_histories(book, clinic.id, player_id)
    answers = answer_lookups.answers(book, clinic.id, player_id)
    for past, answer in zip(strokes, answers, strict=True):
        stroke = stroke_change(answer, names, titles, words)
        for change in stroke.cues:
            title = change.name if len(strokes) == 1 else f"{stroke.title} · {change.name}"
            yield change, title, past, answer


def _sides(
    change: CueChange, title: str, past: StrokeHistory, answer: StrokeAnswer
) -> CueSides | None:
    """The balls behind the cue's headline; None where there are not two yardsticks alike."""
    (cue,) = (one for one in answer.cues if one.cue == change.cue)
    if cue.headline is None:
        return None
    return CueSides(change, title, *balls_then_and_now(past.history, cue.cue, cue.headline))


def _check_cues(by_hand: ByHand, changes: Sequence[CueChange]) -> None:
    """Refuse a cue that the player was not watched on."""
    known = {folded_name(name) for change in changes for name in (change.cue, change.name)}
    for cue in (*by_hand.then, *by_hand.now):
        if folded_name(cue) not in known:
            names = ", ".join(dict.fromkeys(change.cue for change in changes))
            raise UnknownNameError(f"No cue called {cue!r} was watched.", f"The cues: {names}.")
