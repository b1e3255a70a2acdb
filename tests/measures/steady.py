"""How these tests ask: a few hundred cases, the same on every run, and no time limit."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

steady = settings(
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=300,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
fewer = settings(steady, max_examples=60)

ONE_SENTENCE = r"^(?:(?!\. ).)+\.$"
"""What every ValueError of the measures must look like."""
