"""What a measure drags in: the court screen starts without numpy and without unused measures."""

from __future__ import annotations

import subprocess
import sys

import pytest

PLAIN = [
    "common.arguments",
    "common.chances",
    "common.enough",
    "court_day.heat_index",
    "court_day.load",
    "court_day.schedule",
    "learning.mastery",
    "learning.slip",
    "shares.agreement",
    "shares.neighbours",
    "shares.power",
    "shares.proportions",
    "shares.strata",
    "shares.strata_tests",
]


def loaded_by(code: str) -> set[str]:
    """Modules that a fresh interpreter holds after this code."""
    show = f"{code}\nimport sys; print(*sys.modules)"
    ran = subprocess.run([sys.executable, "-c", show], capture_output=True, text=True, check=True)
    return set(ran.stdout.split())


def test_plain_measures_do_without_numpy() -> None:
    loaded = loaded_by("\n".join(f"import courtlog.measures.{name}" for name in PLAIN))
    assert "courtlog.measures.shares.strata" in loaded
    assert not loaded & {"numpy", "scipy", "statsmodels", "textual"}


@pytest.mark.parametrize(
    ("name", "needed"),
    [
        ("", set()),
        (".court_day.schedule", {"court_day.schedule", "common.arguments"}),
        (".common.enough", {"common.enough", "common.arguments"}),
        (".learning.curve", {"learning.curve", "learning.grid", "common.arguments"}),
    ],
)
def test_a_measure_loads_only_what_it_uses(name: str, needed: set[str]) -> None:
    loaded = loaded_by(f"import courtlog.measures{name}")
    names = {m.removeprefix("courtlog.measures.") for m in loaded if "courtlog.measures." in m}
    assert {name for name in names if "." in name} == needed
