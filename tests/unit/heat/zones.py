"""Zones that the tests of the heat planner share: documents, all invented."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from bayleaf.heat.zone import Zone
from bayleaf.heat.zone_document import read_zone, zone_of

Document = dict[str, Any]
SEED = Path(__file__).parents[3] / "seed_data" / "zones"


def seed_zone(name: str) -> Zone:
    return read_zone((SEED / f"{name}.yaml").read_text("utf-8"))


def layer(name: str, role: str, thickness_mm: float, k: tuple[float, float, float], **more: Any) -> Document:
    conduct = dict(zip(("x", "y", "through"), k, strict=True))
    keys: Document = {f"conductivity_{axis}_W_mK": figure for axis, figure in conduct.items()}
    return {"id": name, "role": role, "thickness_mm": thickness_mm, **keys, **more}


def joint(**more: Any) -> Document:
    """A short symmetric joint: 3 mm aluminium, 1.5 mm epoxy on a 40 mm flange, 3 mm laminate, two pads."""
    still_air = {"coefficient_W_m2_at_1K": 1.6, "flux_exponent": 1.25, "emissivity": 0.5}
    pad = {"setpoint_C": 320, "power_W_cm2": 1.5, "contact_W_m2K": 150, "capacity_J_m2K": 5000}
    aluminium = {"density_kg_m3": 2700, "specific_heat_J_kgK": 930}
    epoxy = {"density_kg_m3": 1250, "specific_heat_J_kgK": 1300}
    laminate = {"density_kg_m3": 1550, "specific_heat_J_kgK": 1050}
    return {
        "form": 1,
        "id": "short",
        "invented": True,
        "purpose": "removal",
        "ambient_C": 20,
        "size_mm": [400, 160],
        "duration_min": 45,
        "layers": [
            layer("metal", "metal", 3, (190, 190, 190), **aluminium),
            layer("bond", "adhesive", 1.5, (0, 0, 0.3), covers_mm=[[0, 60, 400, 100]], **epoxy),
            layer("laminate", "composite", 3, (5, 5, 0.65), covers_mm=[[0, 60, 400, 160]], **laminate),
        ],
        "bondline": {"layer": "bond", "workable_C": 110, "maximum_C": 250, "soak_min": 2, "wedging_min": 2},
        "pads": [
            {"id": "A", "box_mm": [0, 50, 190, 110], **pad},
            {"id": "B", "box_mm": [210, 50, 400, 110], **pad},
        ],
        "losses": {"heated_face": still_air, "inner_face": still_air},
        "sensors": [
            {"id": "a", "at_mm": [95, 62.5]},
            {"id": "b", "at_mm": [200, 62.5]},
            {"id": "c", "at_mm": [305, 62.5]},
        ],
        **more,
    }


def joint_zone(**more: Any) -> Zone:
    return zone_of(joint(**more))
