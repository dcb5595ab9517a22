"""The bead: section and length to volume, and what becomes of it when the joint is pressed.

Elementary geometry: triangle b h / 2, circle pi d^2 / 4; 1000 mm3 are 1 mL. Shares of squeeze-out are of the
bead laid, not of the bondline. Model "bead-1".
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from bayleaf.bonding.refusal import Refused
from bayleaf.bonding.units import scaled

MODEL: Final = "bead-1"
MM3_PER_ML: Final = 1000.0
FEWEST_STATIONS: Final = 2


@dataclass(frozen=True, slots=True)
class Pressed:
    """A bead pressed to the bondline over a flange; mL, mm and shares."""

    bead_mL: float
    bondline_mL: float
    spread_if_free_mm: float
    squeeze_out_of_bead: float
    fills_flange: bool
    missing_mL: float


def triangle_section_mm2(base_mm: float, height_mm: float) -> float:
    """Section of a bead laid through a V-notch."""
    return base_mm * height_mm / 2


def round_section_mm2(diameter_mm: float) -> float:
    """Section of a bead laid through a round nozzle."""
    return math.pi * diameter_mm**2 / 4


def volume_mL(section_mm2: float, length_mm: float) -> float:
    """Volume of a section along a length."""
    return section_mm2 * length_mm / MM3_PER_ML


def press(section_mm2: float, width_mm: float, bondline_mm: float, length_mm: float) -> Pressed:
    """Does the bead fill the flange at the pressed bondline, and what comes out?"""
    wanted_mm2 = width_mm * bondline_mm
    fills = scaled(section_mm2) >= scaled(wanted_mm2)
    return Pressed(
        bead_mL=volume_mL(section_mm2, length_mm),
        bondline_mL=volume_mL(wanted_mm2, length_mm),
        spread_if_free_mm=section_mm2 / bondline_mm,
        squeeze_out_of_bead=max(0.0, (section_mm2 - wanted_mm2) / section_mm2),
        fills_flange=fills,
        missing_mL=0.0 if fills else volume_mL(wanted_mm2 - section_mm2, length_mm),
    )


def triangle_height_mm(base_mm: float, width_mm: float, bondline_mm: float, squeeze_out: float) -> float:
    """Height of a triangular bead of which the given share comes out."""
    return 2 * width_mm * bondline_mm / (1 - squeeze_out) / base_mm


def mean_gap_mm(stations: Sequence[tuple[float, float]]) -> float:
    """Mean gap over stations (place, gap) of the dry fit, straight between them; mm.

    Not the plain mean of the gaps: stations are seldom evenly spaced. Refused: fewer than two, or places that
    do not rise.
    """
    if len(stations) < FEWEST_STATIONS or any(
        later <= earlier for (earlier, _), (later, _) in pairwise(stations)
    ):
        raise Refused("stations_mm_mm", list(stations), "two or more stations whose places rise")
    area = sum((x1 - x0) * (gap0 + gap1) / 2 for (x0, gap0), (x1, gap1) in pairwise(stations))
    return area / (stations[-1][0] - stations[0][0])


def bondline_mL(stations: Sequence[tuple[float, float]], width_mm: float) -> float:
    """Adhesive that fills the measured gaps over a flange of the given width."""
    return mean_gap_mm(stations) * (stations[-1][0] - stations[0][0]) * width_mm / MM3_PER_ML


def gap_verdict(
    gap_mm: float, minimum_mm: float, maximum_mm: float
) -> Literal["ok", "too_thin", "too_thick"]:
    """A gap against the allowed bondline; both limits belong to the good side."""
    if scaled(gap_mm) < scaled(minimum_mm):
        return "too_thin"
    return "too_thick" if scaled(gap_mm) > scaled(maximum_mm) else "ok"
