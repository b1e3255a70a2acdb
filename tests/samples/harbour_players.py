"""The six of Harbour Week, and how differently the same five days change them."""

from __future__ import annotations

from tests.samples.players import Player, Skill

PLAYERS = (
    # Spacing is what changes, and it stays.
    Player(
        "Maren",
        "left",
        {
            "forehand": {
                "split-step": Skill(0.9),
                "turn": Skill(1.0, 0.001),
                "spacing": Skill(-1.4, 0.0105, 0.15),
                "finish": Skill(-0.1, 0.002),
            }
        },
    ),
    # The finish does not move, whatever is tried.
    Player(
        "Tove",
        "right",
        {
            "forehand": {
                "split-step": Skill(0.4),
                "turn": Skill(-0.4, 0.006, 0.2),
                "spacing": Skill(0.4, 0.001),
                "finish": Skill(-1.0, 0.0),
            }
        },
    ),
    # The elbow; steady, a little better everywhere.
    Player(
        "Ruben",
        "right",
        {
            "forehand": {
                "split-step": Skill(-0.2),
                "turn": Skill(0.5, 0.002),
                "spacing": Skill(-0.3, 0.002),
                "finish": Skill(-0.6, 0.004),
            }
        },
        tired=0.006,
    ),
    # Better on the usual ball, worse on the tough one.
    Player(
        "Anouk",
        "right",
        {
            "forehand": {
                "split-step": Skill(0.8),
                "turn": Skill(0.8, 0.002),
                "spacing": Skill(0.2, 0.003),
                "finish": Skill(-0.4, 0.006, 0.15),
            },
            "serve": {
                "toss": Skill(-0.3, 0.015),
                "trophy": Skill(0.4, 0.004),
                "reach": Skill(-0.8, 0.008),
            },
        },
        tough=0.4,
        tough_by_day=0.5,
    ),
    # Good by evening, nearly where it was in the morning.
    Player(
        "Ilse",
        "right",
        {
            "forehand": {
                "split-step": Skill(0.1),
                "turn": Skill(0.3, 0.004, 0.6),
                "spacing": Skill(-0.9, 0.021, 0.9),
                "finish": Skill(-0.5, 0.018, 0.9),
            }
        },
    ),
    # Turns late at first; room enough from the start.
    Player(
        "Kasimir",
        "right",
        {
            "forehand": {
                "split-step": Skill(-0.6),
                "turn": Skill(-0.9, 0.008, 0.2),
                "spacing": Skill(1.0, 0.001),
                "finish": Skill(0.2, 0.002),
            },
            "backhand-two": {
                "turn": Skill(-0.2, 0.01),
                "contact": Skill(-0.6, 0.012),
                "finish": Skill(0.6, 0.003),
            },
        },
    ),
)
