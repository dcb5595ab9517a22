"""The planner against FiPy on one mesh (Guyer, Wheeler, Warren, Comput. Sci. Eng. 11 (2009) 6)."""

from __future__ import annotations

import numpy as np

from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import Grading, mesh_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.run import simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import PadAct
from bayleaf.heat.zone_document import zone_of
from unit.heat.asked_of_fipy import cells_of, told_by_fipy
from unit.heat.zones import joint

OFF_S = 480.0
TIMES_S = [60.0, 240.0, 480.0, 600.0, 720.0]
EVEN = Grading(0.010, 0.6, 0.016, 0.8, 0.030)


def test_a_three_layer_plate_under_a_pad_is_as_fipy_has_it_on_the_same_mesh() -> None:
    pad = {**joint()["pads"][0], "setpoint_C": 590, "box_mm": [20, 50, 150, 110]}
    layers = joint()["layers"]
    layers[1]["covers_mm"], layers[2]["covers_mm"] = [[0, 60, 200, 100]], [[0, 60, 200, 160]]
    sensors = [{"id": "a", "at_mm": [95, 80]}]
    document = joint(size_mm=[200, 160], layers=layers, pads=[pad], sensors=sensors, duration_min=12)
    zone = zone_of(document)
    layout = layout_of(zone, mesh_of(zone, EVEN))
    run = simulate(zone, layout, acts=(PadAct(OFF_S, "A", "off"),), accuracy=Accuracy(0.01, 16.0))
    cells, nodes = cells_of(layout)
    how = {"step_s": [20.0, 10.0], "solver": "lu", "off_s": {"A": OFF_S}, "times_s": TIMES_S}
    peer = told_by_fipy(document, layout, cells, **how)  # backward Euler, extrapolated from two steps
    ours_C = at_times(run, run.node_C[:, nodes], TIMES_S)
    off_K = np.abs(ours_C - np.array(peer["T_C"]))
    assert ours_C.max() > 120
    assert peer["solver"] == "LinearLUSolver"
    assert float(off_K.max()) < 0.5, off_K.max(axis=1)
