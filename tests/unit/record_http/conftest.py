"""A server and a technician's phone a module, a job of theirs a test."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from harness.at_work import Shop, writer_of
from harness.server import Bench, Phone, bench


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    made = bench(tmp_path_factory.mktemp("shop") / "data")
    yield made
    made.close()


@pytest.fixture(scope="module")
def phone(server: Bench) -> Phone:
    return server.phone("technician")


@pytest.fixture
def shop(server: Bench, phone: Phone) -> Shop:
    """A job of its own for every test; server and phone are the module's."""
    job = server.job("technician", "photographer")
    return Shop(server, phone, writer_of(server, phone, "technician"), job)
