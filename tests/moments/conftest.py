"""A day of its own for every moment."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from moments.day import Day, open_day


@pytest.fixture
def day(tmp_path: Path) -> Iterator[Day]:
    made = open_day(tmp_path)
    yield made
    made.server.close()
