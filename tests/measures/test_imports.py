"""What a measure drags in: the court screen starts without numpy and without unused measures."""

from __future__ import annotations

import subprocess
import sys

import pytest

PLAIN = [
    "agreement",
    "arguments",
    "chances",
    "enough",
    "heat",
    "load",
    "mastery",
    "neighbours",
    "proportions",
    "retention",
    "schedule",
    "slip",
    "strata",
]


def loaded_by(code: str) -> set[str]:
    """Modules that a fresh interpreter holds after this code."""
    show = f"{code}\nimport sys; print(*sys.modules)"
    ran = subprocess.run([sys.executable, "-c", show], capture_output=True, text=True, check=True)
    return set(ran.stdout.split())


def test_plain_measures_do_without_numpy() -> None:
    loaded = loaded_by("\n".join(f"import courtlog.measures.{name}" for name in PLAIN))
    assert "courtlog.measures.strata" in loaded
    assert not loaded & {"numpy", "scipy", "statsmodels", "textual"}


@pytest.mark.parametrize("name", ["", ".schedule", ".enough", ".curve"])
def test_a_measure_loads_only_what_it_uses(name: str) -> None:
    needed = {
        "": set(),
        ".schedule": {"schedule", "arguments"},
        ".enough": {"enough", "arguments"},
        ".curve": {"curve", "grid", "arguments"},
    }[name]
    loaded = loaded_by(f"import courtlog.measures{name}")
    assert {m.split(".")[2] for m in loaded if m.startswith("courtlog.measures.")} == needed
