"""One server a test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from harness.server import Bench, bench


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Bench]:
    made = bench(tmp_path / "data")
    yield made
    made.close()
