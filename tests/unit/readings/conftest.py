"""A shop of its own for every test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from harness.server import bench
from unit.readings.shop import HotShop, hot_shop


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[HotShop]:
    server = bench(tmp_path / "data")
    yield hot_shop(server)
    server.close()
