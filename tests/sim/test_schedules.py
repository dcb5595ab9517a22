"""Whatever a schedule does, all phones of a job and the server agree in the end, and nothing is lost."""

from __future__ import annotations

import pytest

from sim.schedule import run, smallest

SCHEDULES = 300
AT_ONCE = 10


@pytest.mark.parametrize("first", range(0, SCHEDULES, AT_ONCE))
def test_phones_and_server_agree_after_any_schedule(first: int) -> None:
    for seed in range(first, first + AT_ONCE):
        failed = run(seed)
        assert failed is None, str(smallest(failed))


def test_a_seed_plays_the_same_again() -> None:
    assert run(7) == run(7)
