"""The instrument itself: its clinics are what their worlds say, its claims are what was said."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.voice import answer_figures
from tests.claims import raters
from tests.claims.aims import AIMS, Aim
from tests.claims.claims import Claim, Direction, claims
from tests.claims.clinics import CUES, DAYS, DrawnPlayer, clinic
from tests.claims.figures import KINDS, Judged, figures
from tests.claims.sentences import CUE_NAMES, DAY_PAGE, PLAYER_PAGE, REVIEW, Said, sentences
from tests.claims.truth import holds
from tests.claims.worlds import WORLDS
from tests.coaching.voice.test_answer_figures import TOGETHER


def test_the_same_seed_makes_the_same_claims_and_another_one_others() -> None:
    def made(seed: int) -> list[Claim]:
        return list(claims(sentences(clinic(WORLDS["samples"], 0, seed)[0])))

    assert made(1) == made(1) != made(2)


def unseen(player: DrawnPlayer) -> DrawnPlayer:
    """The player with nothing seen of any ball."""
    rounds = (
        replace(played, balls=(Ball.unseen(len(played.cues)),) * len(played.balls))
        for played in player.rounds
    )
    return replace(player, rounds=tuple(rounds))


def test_nothing_is_claimed_of_no_balls_nor_of_balls_nobody_saw() -> None:
    player = clinic(WORLDS["change-40"], 0)[0]
    assert list(claims(sentences(replace(player, rounds=())))) == []
    assert list(claims(sentences(unseen(player), curves=(1, len(DAYS))))) == []


AT_ONCE = "All three at once: 2 of 18 balls on Monday, 9 of 19 on Friday, same feed, no help."


@pytest.mark.parametrize(
    ("place", "cue", "text", "found"),
    [
        (
            PLAYER_PAGE,
            "turn",
            "learning (yardstick): 9 of 20: a real gain, +30 points",
            [1],
        ),
        (
            PLAYER_PAGE,
            "turn",
            "learning (morning round): 9 of 20: may be a drop, -3",
            [-1],
        ),
        (PLAYER_PAGE, "turn", "learning (yardstick): 9 of 20: cannot tell, +5", []),
        (PLAYER_PAGE, "turn", "overnight: 3 of 20: too few balls to tell", []),
        (PLAYER_PAGE, "turn", "tough balls: 3 of 20: may be lower, -9 points", [-1]),
        (PLAYER_PAGE, "", f"{AT_ONCE} That may be a gain: keep watching.", [1]),
        (PLAYER_PAGE, "", f"{AT_ONCE} Like for like: that may be a drop: keep watching.", [-1]),
        (PLAYER_PAGE, "", f"{AT_ONCE} Up, down or the same: these balls cannot tell.", []),
        (REVIEW, "turn", "yardstick, turn: 9 of 20 today: may be a gain, +9 points", [1]),
        (REVIEW, "", "Rung: ready to move up (turn 5 of the 5 balls that decided it).", [1]),
        (DAY_PAGE, "", "ready to move up (turn 5 of the 5 balls that decided it).", [1]),
        (REVIEW, "", "Rung: not yet (turn 0 of the 3 balls that decided it).", []),
        (
            REVIEW,
            "",
            "Rung: look again before moving up: turn, finish was ready, and is missed more now"
            " (by luck alone 1 cue in 10 a week).",
            [-1, -1],
        ),
        (PLAYER_PAGE, "turn", "skill curve over all drills: at ball 60 about 52% (31 to 68).", []),
        (PLAYER_PAGE, "turn", "skill curve: above 35% since ball 9", [1]),
        (PLAYER_PAGE, "", answer_figures.keystone_words(TOGETHER, CUE_NAMES), [1]),
    ],
)
def test_a_claim_is_read_from_the_words(place: str, cue: str, text: str, found: list[int]) -> None:
    assert [claim.direction for claim in claims([Said(place, 1, 1, cue, text)])] == found


def test_the_cue_that_others_go_with_is_the_one_the_claim_is_of() -> None:
    words = answer_figures.keystone_words(TOGETHER, CUE_NAMES)
    (claim,) = claims([Said(PLAYER_PAGE, 5, 39, "", words)])
    assert (claim.kind, claim.said.cue) == ("together", TOGETHER.cue)


@pytest.mark.parametrize(
    ("world", "kind", "direction", "true"),
    [
        ("samples", "yardstick", 1, False),
        ("samples", "overnight", -1, False),
        ("loose-eye", "trend", 1, False),
        ("change-20", "yardstick", 1, True),
        ("change-20", "hold", -1, False),
        ("half", "slip", -1, False),
        ("samples", "all cues", 1, False),
        ("change-20", "all cues", 1, True),
        ("samples", "tough", -1, True),
        ("samples", "tough", 1, False),
        ("excused", "tough", -1, False),
        ("easy-ball", "together", 1, False),
        ("leads", "together", 1, True),
        ("half", "since a ball", 1, False),
        ("half", "ready", 1, False),
    ],
)
def test_the_world_knows_whether_a_claim_holds(
    world: str, kind: str, direction: Direction, true: bool
) -> None:
    player = clinic(WORLDS[world], 0)[0]
    last = player.rounds[-1]
    claim = Claim(kind, "plain", direction, Said(PLAYER_PAGE, last.day, last.id, CUES[0], ""))
    assert holds(claim, player, WORLDS[world]) is true


def test_a_rung_is_ready_when_the_weakest_cue_is_made_more_than_half() -> None:
    player = clinic(WORLDS["half"], 0)[0]
    last = player.rounds[-1]
    sure = replace(player, rounds=(replace(last, chances=np.full_like(last.chances, 0.6)),))
    claim = Claim("ready", "plain", 1, Said(PLAYER_PAGE, last.day, last.id, "", ""))
    assert holds(claim, sure, WORLDS["half"])


def balls_of(world: str, clinics: int, purpose: Purpose, day: int) -> list[list[Ball]]:
    """The balls of all rounds of a purpose on a day."""
    return [
        list(played.balls)
        for number in range(clinics)
        for player in clinic(WORLDS[world], number)
        for played in player.rounds
        if (played.purpose, played.day) == (purpose, day)
    ]


@pytest.mark.parametrize(("day", "share"), [(1, 0.35), (5, 0.70)])
def test_a_true_change_is_in_the_balls(day: int, share: float) -> None:
    """The share made on usual balls, within three standard errors."""
    grades = [
        grade
        for balls in balls_of("change-40", 8, Purpose.YARDSTICK, day)
        for ball in balls
        if not ball.tough
        for grade in ball.grades
        if grade is not None
    ]
    made = sum(grade is Grade.MADE for grade in grades) / len(grades)
    assert abs(made - share) < 3 * (share * (1 - share) / len(grades)) ** 0.5


def test_a_cue_carries_the_others_along_where_it_leads_only() -> None:
    """How much more often finish was made when turn was, in points."""

    def tied(world: str) -> float:
        balls = balls_of(world, 20, Purpose.YARDSTICK, 1)
        pairs = [(ball.grades[0], ball.grades[2]) for round_ in balls for ball in round_]
        shares = [
            np.mean(
                [finish is Grade.MADE for turn, finish in pairs if (turn is Grade.MADE) is made]
            )
            for made in (True, False)
        ]
        return float(shares[0] - shares[1])

    assert tied("leads") > tied("samples") + 0.1


def test_neighbours_are_tied_in_streaks_only() -> None:
    def alike(world: str) -> float:
        pairs = [
            (one.grades[row], two.grades[row])
            for balls in balls_of(world, 8, Purpose.YARDSTICK, 1)
            for one, two in pairwise(balls)
            for row in range(len(CUES))
        ]
        return sum(one == two for one, two in pairs) / len(pairs)

    assert alike("streaks") > alike("samples") + 0.1


def test_a_share_counts_each_cue_player_and_clinic_once() -> None:
    said = Said(PLAYER_PAGE, 5, 39, "turn", "")
    up = next(claims([replace(said, text="learning (yardstick): 1: a real gain,")]))
    found = [
        Judged(number, player, replace(up, said=replace(said, cue=cue)), False)
        for number, player, cue in [
            (0, 0, "turn"),
            (0, 0, "turn"),
            (0, 0, "finish"),
            (1, 3, "turn"),
        ]
    ]
    line = next(one for one in figures(found, 4) if one.kind.name == "yardstick a real gain")
    assert line.cues is not None
    shares = line.cues, line.players, line.clinics
    assert [share.of for share in shares] == [72, 24, 4]
    assert [share.value for share in shares] == pytest.approx([3 / 72, 2 / 24, 2 / 4])
    assert line.clinics.error == pytest.approx((1 / 3) ** 0.5 / 2)


def test_an_aim_allows_for_luck_and_no_more() -> None:
    most, least = Aim("x", (), "cue", 0.05), Aim("x", (), "cue", 0.60, found=True)
    assert (most.met(0.08, 400), most.met(0.09, 400)) == (True, False)
    assert (least.met(0.53, 400), least.met(0.52, 400)) == (True, False)


def test_every_aim_is_of_a_kind_and_a_world_that_there_are() -> None:
    assert {aim.kind for aim in AIMS} <= {kind.name for kind in KINDS}
    assert {world for aim in AIMS for world in aim.worlds} <= set(WORLDS)


def test_a_pair_that_guesses_is_doubted_and_one_that_sees_is_not() -> None:
    lines = [line.split() for line in raters.rater_lines(20)]
    good, guessing = (
        [float(line[5]) for line in lines if line[:1] == [who]] for who in ("good", "guessing")
    )
    assert good == [0, 0, 0]
    assert min(guessing) >= 0.85
    assert not any("NOT" in line for line in lines)
