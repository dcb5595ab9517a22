"""A three-layer plate under a pad by FiPy, a general-purpose finite-volume library: a program of its own.

Usage: python fipy_plate.py < ASKED.json. ASKED holds `document` (a heat zone), `x_mm` and `y_mm` (grid
lines), `sublayers` per layer, `step_s` (with two, the second half the first, the result is extrapolated to no
step at all), `solver` (lu, pcg or gmres), `off_s` (when each pad's power ends), `times_s`, and `cells`, each
[layer, sub-layer, i, j]. It prints the temperatures there, (times, cells), the seconds of processor time and
the unknowns. Only the document and the grid are shared with the planner: equations, losses and steps are
written out here.
"""

from __future__ import annotations

import json
import os
import sys
import time
from typing import Any

os.environ["FIPY_SOLVERS"] = "scipy"
asked = json.load(sys.stdin)
sys.argv = sys.argv[:1]

import fipy  # noqa: E402  it reads the environment and the command line when imported
import numpy as np  # noqa: E402

STEFAN_BOLTZMANN = 5.670374419e-8
KELVIN = 273.15
PAD_THICKNESS_M = 0.001  # any: its resistance is all in its conductivity
SOLVERS = {"lu": fipy.LinearLUSolver, "pcg": fipy.LinearPCGSolver, "gmres": fipy.LinearGMRESSolver}
SWEEPS = 3


class Plate:
    """Cells numbered x first, then y, then through: the pads' sheet, then every sub-layer."""

    def __init__(self, document: dict[str, Any], x_m: Any, y_m: Any, sublayers: list[int]) -> None:
        self.document, self.x_m, self.y_m = document, x_m, y_m
        layers = document["layers"]
        slices = [(layer, layer["thickness_mm"] / 1e3 / n) for layer, n in zip(layers, sublayers, strict=True)
                  for _ in range(n)]  # fmt: skip
        self.first = np.cumsum([1, *sublayers])
        self.dz = np.array([PAD_THICKNESS_M, *(thick for _, thick in slices)])
        self.shape = (len(self.dz), len(y_m) - 1, len(x_m) - 1)
        self.k = np.zeros((3, *self.shape))
        self.heat = np.full(self.shape, 1e-3)  # J/m3K; next to nothing where no layer lies
        self.there = np.zeros(self.shape, dtype=bool)
        self.power_W_m3 = np.zeros(self.shape)
        self.under: dict[str, Any] = {}
        self.loss_back = np.zeros(self.shape)
        for n, (layer, _) in enumerate(slices, 1):
            self._lay(n, layer)
        for pad in document["pads"]:
            self._press(pad)

    def _inside(self, boxes: list[list[float]]) -> Any:
        x, y = (self.x_m[1:] + self.x_m[:-1]) / 2, (self.y_m[1:] + self.y_m[:-1]) / 2
        found = np.zeros(self.shape[1:], dtype=bool)
        for x0, y0, x1, y1 in np.array(boxes) / 1e3:
            found |= ((y > y0) & (y < y1))[:, None] & ((x > x0) & (x < x1))[None, :]
        return found

    def _lay(self, n: int, layer: dict[str, Any]) -> None:
        width, height = self.document["size_mm"]
        here = self._inside(layer.get("covers_mm", [[0, 0, width, height]]))
        self.there[n] = here
        for axis, name in enumerate(("x", "y", "through")):
            self.k[axis, n][here] = layer[f"conductivity_{name}_W_mK"]
        self.heat[n][here] = layer["density_kg_m3"] * layer["specific_heat_J_kgK"]

    def _press(self, pad: dict[str, Any]) -> None:
        here = self._inside([pad["box_mm"]])
        self.there[0] |= here
        self.k[2, 0][here] = pad["contact_W_m2K"] * PAD_THICKNESS_M / 2
        self.heat[0][here] = pad["capacity_J_m2K"] / PAD_THICKNESS_M
        self.under[pad["id"]] = here
        self.power_W_m3[0][here] = pad["power_W_cm2"] * 1e4 / PAD_THICKNESS_M
        self.loss_back[0][here] = pad.get("back_loss_W_m2K", 4.0) / PAD_THICKNESS_M

    def bare(self, side: int) -> Any:
        """Cells of layers whose heated (-1) or inner (+1) face nothing lies on."""
        padded = np.pad(self.there, ((1, 1), (0, 0), (0, 0)))
        beyond = padded[:-2] if side < 0 else padded[2:]
        found = self.there & ~beyond
        found[0] = False
        return found


def lost_W_m2K(T: Any, half_m2K_W: Any, law: dict[str, float], ambient_C: float) -> Any:
    """Loss through half a layer and a bare face, as a coefficient on the cell's own rise."""
    face = T.copy()
    n, c, e = law["flux_exponent"], law["coefficient_W_m2_at_1K"], law["emissivity"] * STEFAN_BOLTZMANN
    for _ in range(6):
        rise = face - ambient_C
        size = np.abs(rise) + 1e-9
        q = c * size ** (n - 1) * rise + e * ((face + KELVIN) ** 4 - (ambient_C + KELVIN) ** 4)
        slope = c * n * size ** (n - 1) + 4 * e * (face + KELVIN) ** 3
        face = face - (q * half_m2K_W - (T - face)) / (1 + slope * half_m2K_W)
    rise = T - ambient_C
    return np.where(np.abs(rise) > 1e-6, (T - face) / half_m2K_W / np.where(rise == 0, 1, rise), slope)


def conductances(plate: Plate, mesh: Any) -> Any:
    """k of every face such that k area / distance is the two half cells in series."""
    size = np.stack([np.broadcast_to(np.diff(plate.x_m)[None, None, :], plate.shape),
                     np.broadcast_to(np.diff(plate.y_m)[None, :, None], plate.shape),
                     np.broadcast_to(plate.dz[:, None, None], plate.shape)])  # fmt: skip
    first, second = np.ma.filled(mesh.faceCellIDs, -1)
    axis = np.abs(np.asarray(mesh.faceNormals)).argmax(axis=0)
    k, size = plate.k.reshape(3, -1), size.reshape(3, -1)
    inner = second >= 0
    found = np.zeros(len(first))
    a, b, way = first[inner], second[inner], axis[inner]
    k_a, k_b, half_a, half_b = k[way, a], k[way, b], size[way, a] / 2, size[way, b] / 2
    both = (k_a > 0) & (k_b > 0)
    with np.errstate(divide="ignore", invalid="ignore"):
        series = (half_a + half_b) / (half_a / k_a + half_b / k_b)
    found[inner] = np.where(both, series, 0.0)
    return found


def run(plate: Plate, step_s: float, solver: Any) -> list[Any]:
    mesh = fipy.Grid3D(dx=np.diff(plate.x_m), dy=np.diff(plate.y_m), dz=plate.dz)
    ambient = float(plate.document["ambient_C"])  # whole numbers would make a field of whole numbers
    T = fipy.CellVariable(mesh=mesh, value=ambient, hasOld=True)
    k = fipy.FaceVariable(mesh=mesh, value=conductances(plate, mesh))
    power = fipy.CellVariable(mesh=mesh, value=plate.power_W_m3.ravel())
    loss = fipy.CellVariable(mesh=mesh, value=0.0)
    equation = fipy.TransientTerm(coeff=fipy.CellVariable(mesh=mesh, value=plate.heat.ravel())) == (
        fipy.DiffusionTerm(coeff=k) - fipy.ImplicitSourceTerm(coeff=loss) + loss * ambient + power
    )
    thick = np.broadcast_to(plate.dz[:, None, None], plate.shape)
    off_s, times_s, sweeps = asked["off_s"], asked["times_s"], asked.get("sweeps", SWEEPS)
    found, now_s, given = [], 0.0, plate.power_W_m3.copy()
    for stop_s in sorted({*times_s, *off_s.values()}):
        for _ in range(round((stop_s - now_s) / step_s)):
            T.updateOld()
            for _ in range(sweeps):
                loss.setValue(losses(plate, np.asarray(T.value).reshape(plate.shape), thick).ravel())
                equation.solve(var=T, dt=step_s, solver=solver)
        now_s = stop_s
        if stop_s in times_s:
            found.append(np.asarray(T.value).reshape(plate.shape).copy())
        for pad in [pad for pad, at_s in off_s.items() if at_s == stop_s]:
            given[0][plate.under[pad]] = 0.0
            power.setValue(given.ravel())
    return found


def losses(plate: Plate, T: Any, thick: Any) -> Any:
    """W/m3K of every cell: pads' backs, and bare faces by the law of the side that they look to."""
    total, ambient = plate.loss_back.copy(), plate.document["ambient_C"]
    laws = plate.document["losses"]
    covered = np.zeros_like(plate.there)
    covered[2:] = np.logical_or.accumulate(plate.there[1:-1], axis=0)
    heated, inner = plate.bare(-1), plate.bare(+1)
    for chosen, law in (
        (heated & ~covered, laws["heated_face"]),
        (heated & covered, laws["inner_face"]),
        (inner, laws["inner_face"]),
    ):
        half = thick[chosen] / 2 / plate.k[2][chosen]
        total[chosen] += lost_W_m2K(T[chosen], half, law, ambient) / thick[chosen]
    return total


def main() -> None:
    x_m, y_m = np.array(asked["x_mm"]) / 1e3, np.array(asked["y_mm"]) / 1e3
    plate = Plate(asked["document"], x_m, y_m, asked["sublayers"])
    begun = time.process_time()
    solver = SOLVERS[asked["solver"]](tolerance=asked.get("tolerance", 1e-10), iterations=2000)
    runs = [run(plate, step_s, solver) for step_s in asked["step_s"]]
    T = np.array(runs[0]) if len(runs) == 1 else 2 * np.array(runs[1]) - np.array(runs[0])
    rows = [(plate.first[layer] + sub, j, i) for layer, sub, i, j in asked["cells"]]
    told = [[float(state[row]) for row in rows] for state in T]
    json.dump({"T_C": told, "cpu_s": time.process_time() - begun, "unknowns": int(plate.there.sum()),
               "solver": type(solver).__name__, "version": fipy.__version__}, sys.stdout)  # fmt: skip


if __name__ == "__main__":
    main()
