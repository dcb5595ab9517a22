"""Every planted fault is found in fewer schedules than the suite runs: the simulation is worth its time."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from sim.faults import FAULTS
from sim.faults.planting import Fault
from sim.schedule import run
from sim.test_schedules import SCHEDULES


def found_at(fault: Fault) -> int | None:
    """How many schedules it took to find the fault; None where none of them did."""
    with fault.planted():
        return next((seed + 1 for seed in range(SCHEDULES) if run(seed) is not None), None)


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.name)
def test_a_planted_fault_is_found(fault: Fault, record_property: Callable[[str, object], None]) -> None:
    at = found_at(fault)
    record_property("found_at_schedule", at)
    print(f"{fault.name}: found at schedule {at}")
    assert at is not None, f"{fault.about}: {SCHEDULES} schedules did not find it"


def test_the_faults_are_gone_again_afterwards() -> None:
    assert [run(seed) for seed in range(10)] == [None] * 10
