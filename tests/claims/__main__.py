"""How often each claim is made where it is false, and found where it is true.

`python -m tests.claims [--clinics N] [--world NAME ...] [--long]`: 50 clinics of six players a
world, about a minute each; 300 with `--long`. Asserts nothing.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from tests.claims.aims import AIMS
from tests.claims.figures import Figure, Share, figures, judged
from tests.claims.raters import rater_lines
from tests.claims.worlds import WORLDS

CLINICS, LONG = 50, 300


def main() -> None:
    """Print a table for each world asked for, then that of two coaches who rate the same balls."""
    asked = argparse.ArgumentParser(prog="python -m tests.claims")
    asked.add_argument("--clinics", type=int, help="clinics a world")
    asked.add_argument("--world", nargs="+", choices=[*WORLDS, "raters"], help="these worlds only")
    asked.add_argument("--long", action="store_true", help=f"{LONG} clinics a world")
    given = asked.parse_args()
    clinics = given.clinics or (LONG if given.long else CLINICS)
    names = given.world or [*WORLDS, "raters"]
    for name in names:
        if name == "raters":
            print("\n".join(rater_lines(10 * clinics)))
        else:
            found = list(judged(WORLDS[name], range(clinics)))
            print("\n".join(_table(name, figures(found, clinics), clinics)), flush=True)


def _table(name: str, lines: Sequence[Figure], clinics: int) -> list[str]:
    head = f"{name}: {WORLDS[name].what} ({clinics} clinics, {6 * clinics} players)"
    table = [head, "-" * len(head)]
    table.append(f"{'':6}{'claim':38}{'a cue':>14}{'a player':>14}{'a clinic':>14}   aim")
    for line in lines:
        if line.clinics.value or not line.true:
            said = "true" if line.true else "false"
            table.append(
                f"{said:6}{line.kind.name:38}{_of(line.cues)}{_of(line.players)}{_of(line.clinics)}"
                f"   {_aims(name, line)}".rstrip()
            )
    return [*table, ""]


def _of(share: Share | None) -> str:
    return f"{'-' if share is None else str(share):>14}"


def _aims(world: str, line: Figure) -> str:
    shares = {"cue": line.cues, "player": line.players, "clinic": line.clinics}
    words = []
    for aim in AIMS:
        share = shares[aim.unit]
        if aim.kind == line.kind.name and world in aim.worlds and aim.found is line.true and share:
            met = "met" if aim.met(share.value, share.of) else "NOT met"
            least = "at least" if aim.found else "at most"
            words.append(f"{least} {aim.share:g} a {aim.unit}: {met}")
    return ", ".join(words)


if __name__ == "__main__":
    main()
