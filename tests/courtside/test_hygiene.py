"""The court screen starts light: it loads no measure it does not use, no numpy and no plotting."""

from __future__ import annotations

import json
import subprocess
import sys

USED = {
    "common",
    "common.arguments",
    "common.enough",
    "common.hundredths",
    "shares",
    "shares.neighbours",
    "court_day",
}
USED |= {"court_day.heat_index", "court_day.load", "court_day.schedule"}

START = """
import json, sys
from courtlog.cli import opening
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
print(json.dumps(sorted(sys.modules)))
"""


def test_the_court_screen_loads_only_what_it_uses() -> None:
    done = subprocess.run([sys.executable, "-c", START], capture_output=True, text=True, check=True)
    loaded = set(json.loads(done.stdout))
    assert "textual.app" in loaded
    assert not loaded & {"numpy", "plotext", "scipy", "markdown_it"}
    room = "courtlog.measures."
    measures = {name.removeprefix(room) for name in loaded if name.startswith(room)}
    assert measures <= USED
