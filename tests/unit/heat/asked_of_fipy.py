"""Asks the program `fipy_plate.py` for a zone on the planner's own cells."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.layout import ABSENT, Layout

PROGRAM = Path(__file__).with_name("fipy_plate.py")


def told_by_fipy(document: dict[str, Any], layout: Layout, cells: list[list[int]], **how: Any) -> Any:
    """Its answer on the layout's grid; `how`: steps, solver, times and when pads end, as it takes them."""
    asked = {
        "document": document,
        "x_mm": list(1e3 * layout.mesh.x_lines),
        "y_mm": list(1e3 * layout.mesh.y_lines),
        "sublayers": [len(stack) for stack in layout.stack],
        "cells": cells,
        **how,
    }
    words = [sys.executable, str(PROGRAM)]
    told = subprocess.run(words, input=json.dumps(asked), capture_output=True, text=True, check=False)
    assert told.returncode == 0, told.stderr
    return json.loads(told.stdout)


def cells_of(layout: Layout) -> tuple[list[list[int]], NDArray[np.int64]]:
    """Every cell of every sub-layer as [layer, sub-layer, i, j], and its node."""
    cells, nodes = [], []
    for layer, plates in enumerate(layout.stack):
        for sub, plate in enumerate(plates):
            for i, j in np.argwhere(plate.node != ABSENT):
                cells.append([layer, sub, int(i), int(j)])
                nodes.append(int(plate.node[i, j]))
    return cells, np.array(nodes)
