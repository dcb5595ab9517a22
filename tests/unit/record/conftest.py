"""Every test of the record runs on the adapters that ship and on their in-memory twins."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.record import Record, Writer, record_in_memory, record_on_disk


@pytest.fixture(params=["disk", "memory"])
def record(request: pytest.FixtureRequest, tmp_path: Path) -> Record:
    return record_on_disk(tmp_path) if request.param == "disk" else record_in_memory()


@pytest.fixture
def mara(record: Record) -> Writer:
    return record.phone(record.person("Mara Ilves", "technician"), "technician")


@pytest.fixture
def job(record: Record, mara: Writer) -> str:
    return record.job(mara.person)
