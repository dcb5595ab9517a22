"""The clocks of a bond as the phone reads them too: shared vectors, worked out by hand in `about`."""

import json
from pathlib import Path
from typing import Any

import pytest

from bayleaf.bonding.clocks import Window, read_clock

VECTORS = Path(__file__).parents[2] / "vectors" / "clocks" / "read_clock.json"
CASES: list[dict[str, Any]] = json.loads(VECTORS.read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CASES, ids=[one["about"] for one in CASES])
def test_the_server_reads_the_clock_as_the_vector_does(case: dict[str, Any]) -> None:
    window = Window(case["maximum_min"], case["minimum_min"])
    found = read_clock(window, case["since_min"], case["step_min"])
    assert {
        "stand": str(found.stand),
        "wait_min": found.wait_min,
        "left_min": found.minutes_left_min,
        "starts_outside": found.starts_outside,
        "ends_outside": found.ends_outside,
        "over_by_min": found.over_by_min,
    } == {name: case[name] for name in case if name in found_members()}


def found_members() -> set[str]:
    return {"stand", "wait_min", "left_min", "starts_outside", "ends_outside", "over_by_min"}
