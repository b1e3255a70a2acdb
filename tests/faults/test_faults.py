"""Every fault is survived and no rating is lost; the report is `python -m tests.faults`."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.faults.figures import Figure
from tests.faults.list import FAULTS

pytestmark = pytest.mark.terminal


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.__name__)
def test_nothing_is_lost(
    tmp_path: Path, long_run: bool, fault: Callable[[Path, bool], Figure]
) -> None:
    figure = fault(tmp_path, long_run)
    if figure.skipped:
        pytest.skip(figure.skipped)
    assert figure.tried
    assert figure.good, "\n".join([figure.line(), *figure.troubles])
