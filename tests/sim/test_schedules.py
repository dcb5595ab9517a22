"""Whatever a schedule does, all phones of a job and the server agree in the end, and nothing is lost."""

from __future__ import annotations

from pathlib import Path
from unittest.mock import patch

import pytest

from sim import world
from sim.on_sqlite import SqliteDisk
from sim.schedule import run, smallest

SCHEDULES = 300
AT_ONCE = 10


@pytest.mark.parametrize("first", range(0, SCHEDULES, AT_ONCE))
def test_phones_and_server_agree_after_any_schedule(first: int) -> None:
    for seed in range(first, first + AT_ONCE):
        failed = run(seed)
        assert failed is None, str(smallest(failed))


@pytest.mark.parametrize("seed", range(SCHEDULES, SCHEDULES + 6))
def test_they_agree_too_where_the_server_keeps_files_that_are_copied_and_put_back(
    seed: int, tmp_path: Path
) -> None:
    with patch.object(world, "Disk", lambda: SqliteDisk(tmp_path / "shop")):
        failed = run(seed)
    assert failed is None, str(failed)


def test_a_seed_plays_the_same_again() -> None:
    assert run(7) == run(7)
