"""One bench of doors a test, over every kind of store: what is proven holds for each adapter of a port."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from harness.doors import BENCHES, DoorBench, sql_bench


@pytest.fixture(params=BENCHES)
def empty(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[DoorBench]:
    """With nobody."""
    made = BENCHES[request.param](tmp_path)
    yield made
    made.close()


@pytest.fixture
def bench(empty: DoorBench) -> DoorBench:
    """With a technician and an office person."""
    empty.add_two()
    return empty


@pytest.fixture(params=BENCHES)
def another(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[DoorBench]:
    """Another server, with people of its own."""
    made = BENCHES[request.param](tmp_path_factory.mktemp("another"))
    made.add_two()
    yield made
    made.close()


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[DoorBench]:
    """Over SQL, for what is said of the rows."""
    made = sql_bench(tmp_path)
    made.add_two()
    yield made
    made.close()
