"""Processor time of the commands about films: 10,000 balls fed by keys, on 40 films.

Run with `python -m tests.bench.films [PYTHON]`; book and films are made and thrown away. All balls
are of one date, which is the worst case: nothing is left out by its date.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from statistics import median

from tests.bench.machine import command_ms
from tests.court import NAMES, START, Clock, desk_in, feed, player
from tests.film.built import atom, mvhd, track, video

BALLS, FILMS, A_ROUND = 10_000, 40, 20
BETWEEN_MS = 4000
FILM_MS = BALLS // FILMS * BETWEEN_MS
REPEATS = 5

Costs = dict[str, float]
"""Milliseconds of processor time by name."""


def run(python: str = sys.executable, repeats: int = REPEATS) -> Costs:
    """The median of each, taken in turn; `start` is what a command costs that reads nothing."""
    with tempfile.TemporaryDirectory(prefix="courtlog-films-") as folder:
        home = Path(folder)
        book_of(home)
        commands = {
            "start": ["version"],
            "film, 40 films": ["film"],
            "film chapters, 1 film": ["film", "chapters", "phone/20260512_083000.mp4"],
            "film chapters, 40 films": ["film", "chapters", "phone"],
        }
        ours = [python, "-m", "courtlog", "--book", str(home / "book.db")]
        command_ms([*ours, "film", "add", "phone"], home)
        found: dict[str, list[float]] = {}
        for _ in range(repeats):
            for name, words in commands.items():
                found.setdefault(name, []).append(command_ms([*ours, *words], home))
    return {name: round(median(costs)) for name, costs in found.items()}


def book_of(home: Path) -> None:
    """A book with the balls of three players in turn, and a folder `phone` with the films."""
    desk = desk_in(home)
    desk.book.db.execute("PRAGMA synchronous = OFF")
    clock = desk.clock
    assert isinstance(clock, Clock)
    for number in range(BALLS):
        clock.at = START + number * BETWEEN_MS
        if number % A_ROUND == 0:
            desk.rounds.start(player(desk, NAMES[number // A_ROUND % len(NAMES)]))
        feed(desk, "202" if number % 3 else "_")
    desk.book.db.execute("UPDATE player SET age_group = 'adult'")
    desk.book.db.execute(
        "INSERT INTO filming_consent SELECT id, id, 'yes', '2026-05-12', '', ? FROM player", [START]
    )
    desk.book.close()
    (home / "phone").mkdir()
    for number in range(FILMS):
        seconds = number * FILM_MS // 1000
        hours, minutes = divmod(seconds // 60 + 30, 60)
        name = f"20260512_{8 + hours:02}{minutes:02}{seconds % 60:02}.mp4"
        content = video(mvhd(0, 1000, FILM_MS), track(), atom("free", bytes(number)))
        (home / "phone" / name).write_bytes(content)


if __name__ == "__main__":
    print(run(sys.argv[1] if sys.argv[1:] else sys.executable))
