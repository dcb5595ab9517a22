"""One server a module; one of its own for a test that looks at all that a store holds."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from harness.server import Bench, bench


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    made = bench(tmp_path_factory.mktemp("http") / "data")
    yield made
    made.close()


@pytest.fixture
def new_server(tmp_path: Path) -> Iterator[Bench]:
    made = bench(tmp_path / "data")
    yield made
    made.close()
