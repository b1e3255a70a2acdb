"""How these tests ask: a hundred cases or more, the same on every run, and no time limit."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

from tests.doses import dose

steady = settings(
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=dose(100, 300),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
fewer = settings(steady, max_examples=dose(30, 60))

ONE_SENTENCE = r"^(?:(?!\. ).)+\.$"
"""What every ValueError of the measures must look like."""
