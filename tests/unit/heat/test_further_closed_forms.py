"""Closed forms beyond the shared cases, asked of the command with its own mesh and steps.

Incropera, DeWitt, Fundamentals of Heat and Mass Transfer (6th ed. 2007): fin equation 3.6, lumped balance
5.1-5.3. Carslaw, Jaeger, Conduction of Heat in Solids (2nd ed. 1959): cosine series for a plate with
insulated edges and loss from its faces, 5.1-5.4. Worked out here from those equations, not by the model.
"""

from __future__ import annotations

import json
from itertools import product
from math import cos, cosh, exp, pi, sin, sinh, sqrt
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from click.testing import CliRunner
from scipy.linalg import expm

from bayleaf.cli import main
from unit.heat.closed_forms import NO_LOSS, NO_RESISTANCE, Document, layer, linear

AIR_C = 20.0
STEADY_MIN = 1200.0
STEADY_S = STEADY_MIN * 60
WITHIN_K = 0.2
Box = tuple[float, float, float, float]


def document(layers: list[Document], size_mm: list[float], minutes: float, **more: Any) -> Document:
    none = {"heated_face": NO_LOSS, "inner_face": NO_LOSS}
    base = {"form": 1, "id": "own", "purpose": "removal", "ambient_C": AIR_C, "losses": none}
    return base | {"size_mm": size_mm, "duration_min": minutes, "layers": layers} | more


def flux(name: str, box_mm: list[float], q_W_m2: float, **more: Any) -> Document:
    """An even flux into the metal."""
    return {"id": name, "box_mm": box_mm, "power_W_cm2": q_W_m2 / 1e4, "back_loss_W_m2K": 0, **more}


def planned(folder: Path, asked: Document) -> dict[tuple[str, float], float]:
    """What `heat plan --json` answers for each place and time."""
    file = folder / "zone.json"
    file.write_text(json.dumps(asked))
    told = CliRunner().invoke(main, ["heat", "plan", str(file), "--json"])
    assert told.exit_code == 0, told.output
    answer = json.loads(told.stdout)
    assert answer["heat_balance_error"] < 1e-3
    return {(row["id"], row["t_s"]): row["T_C"] for row in answer["report"]}


def asking(places: dict[str, tuple[str, float, float]], times_s: list[float]) -> Document:
    rows = [{"id": name, "layer": of, "at_mm": [x, y]} for name, (of, x, y) in places.items()]
    return {"report": {"places": rows, "times_s": times_s}}


def test_pads_in_a_corner_and_at_an_edge_one_off_one_at_half_power(tmp_path: Path) -> None:
    """Orthotropic plate, insulated edges, linear loss: theta = sum q_mn (1 - exp(-L t / C)) / L cos cos."""
    size_m, thick_m, kx, ky, U = (0.3, 0.2), 0.003, 190.0, 120.0, 12.0
    C = thick_m * 2700 * 930
    pads: list[tuple[Box, float]] = [
        ((0, 0, 0.08, 0.06), 9000.0), ((0.2, 0.14, 0.3, 0.2), 3000.0), ((0.1, 0, 0.18, 0.06), 0.0),
    ]  # fmt: skip
    places = {"corner": (0.002, 0.002), "off": (0.14, 0.03), "far": (0.29, 0.19), "middle": (0.15, 0.1)}

    def share(low: float, high: float, length: float, n: int) -> float:
        if n == 0:
            return (high - low) / length
        return 2 / (n * pi) * (sin(n * pi * high / length) - sin(n * pi * low / length))

    def exact_C(x: float, y: float, t_s: float) -> float:
        total = 0.0
        for m, n in product(range(90), repeat=2):
            a, b = m * pi / size_m[0], n * pi / size_m[1]
            rate = U + thick_m * (kx * a * a + ky * b * b)
            heat = sum(
                q * share(x0, x1, size_m[0], m) * share(y0, y1, size_m[1], n) for (x0, y0, x1, y1), q in pads
            )
            total += heat / rate * (1 - exp(-rate * t_s / C)) * cos(a * x) * cos(b * y)
        return AIR_C + total

    given = [
        flux("a", [0, 0, 80, 60], 9000),
        flux("b", [200, 140, 300, 200], 6000, power_share=0.5),
        flux("off", [100, 0, 180, 60], 9000, power_share=0),
    ]
    plate = layer("metal", 3, (kx, ky, NO_RESISTANCE), 2700, 930, sublayers=1)
    times_s = [120.0, 600.0, 3600.0]
    at = {name: ("metal", 1e3 * x, 1e3 * y) for name, (x, y) in places.items()}
    losses = {"heated_face": linear(U), "inner_face": NO_LOSS}
    got = planned(
        tmp_path, document([plate], [300, 200], 60, pads=given, losses=losses, **asking(at, times_s))
    )
    want = {(name, t_s): exact_C(x, y, t_s) for name, (x, y) in places.items() for t_s in times_s}
    assert got == {key: pytest.approx(T_C, abs=WITHIN_K) for key, T_C in want.items()}


def test_three_layers_that_cover_a_part_as_two_fins_tied_by_the_adhesive(tmp_path: Path) -> None:
    """Fin equations of metal and laminate, coupled by the adhesive over the covered part, matched at its end.

    x from 0 to a covered and heated, from a to L bare metal; no flow at 0 and L, none out of the laminate
    at a. With d = (metal, laminate): d'' = H d - q / kt on the covered part, theta'' = m^2 theta beyond.
    """
    a, length, h1, h2, q = 0.06, 0.25, 9.0, 14.0, 5000.0
    metal_kt, laminate_kt, tie = 190 * 0.003, 5 * 0.003, 0.3 / 0.0015
    H = np.array([[(h1 + tie) / metal_kt, -tie / metal_kt], [-tie / laminate_kt, (h2 + tie) / laminate_kt]])
    even = np.linalg.solve(H, np.array([q / metal_kt, 0.0]))
    squares, shapes = np.linalg.eig(H)
    roots, m = np.sqrt(squares), sqrt((h1 + h2) / metal_kt)
    # amounts of both shapes and of cosh m (L - x) beyond: metal and its flow go on, the laminate's ends
    rows = np.zeros((3, 3))
    for n in range(2):
        rows[0, n] = shapes[0, n] * cosh(roots[n] * a)
        rows[1, n] = shapes[0, n] * roots[n] * sinh(roots[n] * a)
        rows[2, n] = shapes[1, n] * roots[n] * sinh(roots[n] * a)
    rows[0, 2], rows[1, 2] = -cosh(m * (length - a)), m * sinh(m * (length - a))
    amounts = np.linalg.solve(rows, np.array([-even[0], 0.0, 0.0]))

    def exact_C(which: int, x: float) -> float:
        if x > a:
            return float(AIR_C + amounts[2] * cosh(m * (length - x)))
        return float(
            AIR_C + even[which] + sum(amounts[n] * shapes[which, n] * cosh(roots[n] * x) for n in range(2))
        )

    stack = [
        layer("metal", 3, (190, 190, NO_RESISTANCE), 2700, 930, sublayers=1),
        layer("bond", 1.5, (0, 0, 0.3), 1250, 1300, covers_mm=[[0, 0, 60, 10]]),
        layer("laminate", 3, (5, 5, NO_RESISTANCE), 1550, 1050, sublayers=1, covers_mm=[[0, 0, 60, 10]]),
    ]
    places: dict[str, tuple[str, float, float]] = {
        "m0": ("metal", 2, 5), "m_end": ("metal", 59, 5), "far": ("metal", 245, 5), "l0": ("laminate", 2, 5),
        "l_end": ("laminate", 57.5, 5), "bond": ("bond", 2, 5),
    }  # fmt: skip
    losses = {"heated_face": linear(h1), "inner_face": linear(h2)}
    pads = [flux("p", [0, 0, 60, 10], q)]
    asked = document(stack, [250, 10], STEADY_MIN, pads=pads, losses=losses, **asking(places, [STEADY_S]))
    got = {name: T_C for (name, _), T_C in planned(tmp_path, asked).items()}
    want = {
        name: exact_C(1 if of == "laminate" else 0, x / 1e3)
        for name, (of, x, _) in places.items()
        if of != "bond"
    }
    want["bond"] = (want["m0"] + want["l0"]) / 2  # straight through an adhesive that stores nothing
    assert got == {name: pytest.approx(T_C, abs=WITHIN_K) for name, T_C in want.items()}


def test_a_pad_turned_down_then_off_then_lifted_is_two_lumps_stage_by_stage(tmp_path: Path) -> None:
    """Lumped balances of pad and metal, each stage by the matrix exponential of its linear system."""
    pad_C, metal_C, contact, back, face, inner, full = 5000.0, 7500.0, 150.0, 4.0, 11.0, 8.0, 15000.0

    def stage(start: np.ndarray[Any, Any], power: float, span_s: float, *, lies: bool) -> Any:
        tie = contact if lies else 0.0
        loss = inner + (0.0 if lies else face)
        A = np.array([[-(tie + back) / pad_C, tie / pad_C], [tie / metal_C, -(tie + loss) / metal_C]])
        even = -np.linalg.solve(A, np.array([power / pad_C, 0.0]))
        return even + expm(A * span_s) @ (start - even)

    at_600 = stage(np.zeros(2), full, 600, lies=True)
    at_900 = stage(at_600, 0.4 * full, 300, lies=True)
    at_1200 = stage(at_900, 0.0, 300, lies=True)
    at_2400 = stage(at_1200, 0.0, 1200, lies=False)
    pad = {"id": "p", "box_mm": [0, 0, 100, 100], "power_W_cm2": 1.5, "contact_W_m2K": contact,
           "capacity_J_m2K": pad_C, "back_loss_W_m2K": back}  # fmt: skip
    acts = [
        {"at_min": 10, "pad": "p", "act": "turn_down", "power_share": 0.4},
        {"at_min": 15, "pad": "p", "act": "off"},
        {"at_min": 20, "pad": "p", "act": "lift"},
    ]
    plate = layer("metal", 1, (190, 190, NO_RESISTANCE), 7500, 1000, sublayers=1)
    losses = {"heated_face": linear(face), "inner_face": linear(inner)}
    asked = document([plate], [100, 100], 40, pads=[pad], acts=acts, losses=losses,
                     **asking({"m": ("metal", 50, 50)}, [600, 900, 1200, 2400]))  # fmt: skip
    got = planned(tmp_path, asked)
    want = {600: at_600, 900: at_900, 1200: at_1200, 2400: at_2400}
    assert got == {("m", t_s): pytest.approx(AIR_C + at[1], abs=WITHIN_K) for t_s, at in want.items()}


def test_an_even_flux_into_an_insulated_plate_fills_its_heat_table(tmp_path: Path) -> None:
    """No loss: q t = C (a theta + b theta^2 / 2) with a capacity that rises straight, from 20 C."""
    q, per_K, a, b = 4000.0, 0.003 * 2700, 900.0, 1.2
    plate = layer("metal", 3, 190, 2700, 0) | {
        "specific_heat_J_kgK": [[20, a], [420, a + b * 400]], "sublayers": 1,
        "conductivity_through_W_mK": 1e9,
    }  # fmt: skip
    times_s = [60.0, 300.0, 600.0]
    asked = document([plate], [80, 40], 10, pads=[flux("p", [0, 0, 80, 40], q)],
                     **asking({"m": ("metal", 70, 10)}, times_s))  # fmt: skip
    got = planned(tmp_path, asked)
    want = {("m", t): AIR_C + (sqrt(a * a + 2 * b * q * t / per_K) - a) / b for t in times_s}
    assert got == {key: pytest.approx(T_C, abs=0.05) for key, T_C in want.items()}


def test_a_strip_with_pads_at_both_ends_of_unlike_power_is_the_fin_equation(tmp_path: Path) -> None:
    """Green's function of the fin with insulated ends, integrated over each pad; loss on both faces."""
    length, kt, U = 0.4, 160 * 0.002, 7.0 + 5.0
    m = sqrt(U / kt)
    pads = [((0.0, 0.05), 4000.0), ((0.3, 0.4), 1500.0)]

    def below(x: float, low: float, high: float) -> float:
        """Of a pad that ends before x."""
        return (sinh(m * high) - sinh(m * low)) * cosh(m * (length - x)) / (U * sinh(m * length))

    def beyond(x: float, low: float, high: float) -> float:
        return (sinh(m * (length - low)) - sinh(m * (length - high))) * cosh(m * x) / (U * sinh(m * length))

    def exact_C(x: float) -> float:
        total = 0.0
        for (low, high), q in pads:
            total += q * below(x, min(low, x), min(high, x)) + q * beyond(x, max(low, x), max(high, x))
        return AIR_C + total

    places_m = [0.001, 0.05, 0.17, 0.3, 0.36, 0.399]
    plate = layer("metal", 2, (160, 160, NO_RESISTANCE), 2700, 900, sublayers=1)
    given = [flux("a", [0, 0, 50, 10], 4000), flux("b", [300, 0, 400, 10], 1500)]
    at = {f"p{n}": ("metal", 1e3 * x, 5.0) for n, x in enumerate(places_m)}
    losses = {"heated_face": linear(7.0), "inner_face": linear(5.0)}
    asked = document([plate], [400, 10], STEADY_MIN, pads=given, losses=losses, **asking(at, [STEADY_S]))
    got = planned(tmp_path, asked)
    want = {(f"p{n}", STEADY_S): exact_C(x) for n, x in enumerate(places_m)}
    assert got == {key: pytest.approx(T_C, abs=WITHIN_K) for key, T_C in want.items()}
