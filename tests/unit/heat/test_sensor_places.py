"""Where a plan would have the sensors: at the lagging and the leading spot, as near as a hand reaches."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from bayleaf.heat.bondline import Curves, Spot
from bayleaf.heat.places import Place
from bayleaf.heat.sensor_places import Advice, is_reachable, sensor_advice
from bayleaf.heat.sensor_words import advice_json, advice_sentence
from unit.heat.zones import joint, joint_zone

PLACES = tuple(Place("bond", x, y) for x in (0.0025, 0.1, 0.2) for y in (0.0625, 0.08, 0.0975))


def advised(sensors: list[dict[str, Any]], T_C: list[float]) -> tuple[Advice, Advice]:
    """The joint's bondline reads T_C at its nine places; its edge at y = 60 mm is open, at 100 it is not."""
    zone = joint_zone(sensors=sensors)
    curves = Curves(np.array([0.0, 60.0]), PLACES, np.array([T_C, T_C]))
    cold, hot = int(np.argmin(T_C)), int(np.argmax(T_C))
    spots = (Spot(PLACES[n], T_C[n], "", 0.0, 0.0) for n in (cold, hot))
    return sensor_advice(zone, curves, 60.0, *spots)


def test_a_bondline_is_reached_at_its_open_edges_only() -> None:
    """The laminate lies over the edge at y = 100 mm, the metal goes on beneath it: no hand comes there."""
    zone = joint_zone()
    assert is_reachable(zone, Place("bond", 0.2, 0.0625))
    assert not is_reachable(zone, Place("bond", 0.2, 0.08))
    assert not is_reachable(zone, Place("bond", 0.2, 0.0975))
    assert is_reachable(zone, Place("bond", 0.0025, 0.08))


def test_an_end_where_the_metal_runs_on_is_open_to_the_inner_side() -> None:
    """Beyond the zone nothing is told of but the metal."""
    assert is_reachable(joint_zone(edges={"x_low": {"runs_on_mm": 200}}), Place("bond", 0.0025, 0.08))


LEVEL = [100.0, 100.0, 100.0, 120.0, 125.0, 122.0, 110.0, 110.0, 110.0]


def test_a_sensor_near_by_is_moved_to_the_spot() -> None:
    """Coldest in the corner x 2.5, y 62.5 mm; sensor c lies across from it and reads 4 K more."""
    T_C = [96.0, *LEVEL[1:]]
    lag, _ = advised([{"id": "c", "at_mm": [2.5, 97.5]}], T_C)
    assert (lag.advised, lag.sensor) == ("move", "c")
    assert lag.moved_m == pytest.approx(0.035)
    assert advice_sentence(lag) == "move c by 35 mm to x 2.5, y 62.5 mm: there it reads the same as the spot"


def test_a_sensor_that_reads_what_the_spot_has_is_left() -> None:
    lag, _ = advised([{"id": "c", "at_mm": [2.5, 97.5]}], [99.0, *LEVEL[1:]])
    assert advice_sentence(lag) == "leave c where it is: it reads 1 K more than the spot"


def test_a_leading_spot_under_the_pad_gets_one_more_sensor_at_the_edge_beside_it() -> None:
    """x = 100, y = 80 is inside; the open edge beside it has 120 C, 5 K less. c is too far to be moved."""
    _, lead = advised([{"id": "c", "at_mm": [250, 62.5]}], [90.0, *LEVEL[1:]])
    assert lead.advised == "put"
    assert advice_json(lead) == {
        "spot": "leading",
        "advised": "put",
        "sentence": "put one more at x 100, y 62.5 mm: there it reads 5 K less than the spot",
        "x_mm": 100.0,
        "y_mm": 62.5,
        "moved_mm": 0.0,
        "reads_more_by_K": -5.0,
    }


def test_one_sensor_stands_for_one_spot() -> None:
    lag, lead = advised([{"id": "c", "at_mm": [2.5, 62.5]}], [99.0, *LEVEL[1:]])
    assert (lag.advised, lag.sensor) == ("leave", "c")
    assert (lead.advised, lead.sensor) == ("put", "")


def test_a_bondline_without_an_open_edge_says_so() -> None:
    layers = joint()["layers"]
    for layer in layers:
        layer["covers_mm"] = [[50, 60, 350, 100]] if layer["id"] == "bond" else [[0, 0, 400, 160]]
    closed = joint_zone(layers=layers, sensors=[])
    curves = Curves(np.array([0.0, 60.0]), PLACES, np.array([LEVEL, LEVEL]))
    spot = Spot(PLACES[0], 100.0, "", 0.0, 0.0)
    told = {advice_sentence(one) for one in sensor_advice(closed, curves, 60.0, spot, spot)}
    assert told == {"no open edge of the bondline is told of, so no place for a sensor"}
