"""One bench of doors a test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from harness.doors import DoorBench, door_bench


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[DoorBench]:
    made = door_bench(tmp_path)
    yield made
    made.engine.dispose()
