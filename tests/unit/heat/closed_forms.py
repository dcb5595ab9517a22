"""The closed-form cases as zone documents: the same form that `bayleaf heat plan` reads."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

Case = dict[str, Any]
Document = dict[str, Any]
REFERENCE = Path(__file__).parents[2] / "reference" / "heat.json"
NO_RESISTANCE = 1e12
NO_LOSS = {"coefficient_W_m2_at_1K": 0.0, "flux_exponent": 1, "emissivity": 0}
STEADY_MIN = 1200.0


def cases() -> list[Case]:
    loaded: list[Case] = json.loads(REFERENCE.read_text("utf-8"))["cases"]
    return loaded


def linear(U_W_m2K: float) -> dict[str, float]:
    return {"coefficient_W_m2_at_1K": U_W_m2K, "flux_exponent": 1, "emissivity": 0}


def layer(
    name: str, t_mm: float, k: float | tuple[float, float, float], rho: float, cp: float, **more: Any
) -> Document:
    kx, ky, kz = k if isinstance(k, tuple) else (k, k, k)
    conduct = {"conductivity_x_W_mK": kx, "conductivity_y_W_mK": ky, "conductivity_through_W_mK": kz}
    rest = {"density_kg_m3": rho, "specific_heat_J_kgK": cp, **more}
    return {"id": name, "role": "other", "thickness_mm": t_mm, **conduct, **rest}


def zone(case: Case, layers: list[Document], **more: Any) -> Document:
    places = _places(case, [one["id"] for one in layers])
    times = sorted({row["t_s"] for row in case["expected"] if row["t_s"] is not None})
    last_s = STEADY_MIN * 60 if any(row["t_s"] is None for row in case["expected"]) else times[-1]
    document = {
        "form": 1, "id": case["id"][:32], "purpose": "removal", "ambient_C": 20.0, "size_mm": [10, 10],
        "duration_min": last_s / 60, "layers": layers,
        "losses": {"heated_face": NO_LOSS, "inner_face": NO_LOSS},
        "mesh": {"cells_mm": [10, 10]},
        "report": {"places": places, "times_s": [*times, *([last_s] if last_s not in times else [])]},
    }  # fmt: skip
    return document | more


def place_id(where: dict[str, Any]) -> str:
    figures = (f"{key[0]}{value}" for key, value in where.items() if key != "through")
    return "_".join(figures).replace(".", "p").replace("-", "m") or "all"


def _places(case: Case, layers: list[str]) -> list[Document]:
    unique = {place_id(row["where"]): row["where"] for row in case["expected"] if "T_C" in row}
    return [{"id": name, **_place(where, case, layers)} for name, where in unique.items()]


def _place(where: dict[str, Any], case: Case, layers: list[str]) -> Document:
    number = where.get("layer", 1) - 1
    x, y = 1e3 * where.get("x_m", 0.005), 1e3 * where.get("y_m", 0.005)
    place: Document = {"at_mm": [x, y], "layer": layers[number]}
    if "z_m" in where:
        place["depth_mm"] = 1e3 * where["z_m"]
    if "face" in where:
        thick = {"a": "metal", "b": "adhesive", "c": "laminate"}[layers[number]]
        place["depth_mm"] = 0 if where["face"] == "heated" else 1e3 * case["inputs"][f"{thick}_thickness_m"]
    return place


def flux(box: list[float], q_W_m2: float, **more: Any) -> list[Document]:
    return [{"id": "q", "box_mm": box, "power_W_cm2": q_W_m2 / 1e4, "back_loss_W_m2K": 0, **more}]


def document_of(case: Case) -> Document:
    name, given = case["id"], case["inputs"]
    for start, make in FAMILIES.items():
        if name.startswith(start):
            return make(case, given)
    raise KeyError(name)


def _wall(case: Case, i: Document) -> Document:
    both = linear(i["h_W_m2K"])
    slab = layer("a", 1e3 * i["thickness_m"], i["k_W_mK"], i["rho_kg_m3"], i["cp_J_kgK"], sublayers=32)
    losses = {"heated_face": both, "inner_face": both}
    mesh = {"cells_mm": [10, 10], "longest_step_s": 0.04}
    return zone(case, [slab], ambient_C=i["fluid_C"], start_C=i["start_C"], losses=losses, mesh=mesh)


def _step(case: Case, i: Document) -> Document:
    slab = layer("a", 1e3 * i["thickness_m"], i["k_W_mK"], i["rho_kg_m3"], i["cp_J_kgK"], sublayers=32)
    losses = {"heated_face": NO_LOSS, "inner_face": linear(1e8)}
    mesh = {"cells_mm": [10, 10], "longest_step_s": 0.05}
    return zone(case, [slab], ambient_C=i["surface_C"], start_C=i["start_C"], losses=losses, mesh=mesh)


def _half_space(case: Case, i: Document, **more: Any) -> Document:
    """Fine sub-layers near the face, growing inward: four layers of one material, in perfect contact."""
    cuts = [("a", 6.0, 48), ("b", 6.0, 24), ("c", 12.0, 24), ("d", 36.0, 24)]
    stack = [layer(n, t, i["k_W_mK"], i["rho_kg_m3"], i["cp_J_kgK"], sublayers=s) for n, t, s in cuts]
    made = zone(case, stack, start_C=i["start_C"], mesh={"cells_mm": [10, 10], "longest_step_s": 0.1}, **more)
    for place in made["report"]["places"]:
        if place["depth_mm"] > 6:
            place |= {"layer": "b", "depth_mm": place["depth_mm"] - 6}
    return made


def _half_space_flux(case: Case, i: Document) -> Document:
    return _half_space(case, i, pads=flux([0, 0, 10, 10], i["q_W_m2"]))


def _half_space_convection(case: Case, i: Document) -> Document:
    losses = {"heated_face": linear(i["h_W_m2K"]), "inner_face": NO_LOSS}
    return _half_space(case, i, losses=losses, ambient_C=i["fluid_C"])


def _composite(case: Case, i: Document) -> Document:
    stack = [
        layer("a", 3, i["metal_k_W_mK"], 2700, 930, contact_to_next_W_m2K=i["metal_adhesive_contact_W_m2K"]),
        layer(
            "b",
            1.5,
            i["adhesive_k_W_mK"],
            1250,
            1300,
            contact_to_next_W_m2K=i["adhesive_laminate_contact_W_m2K"],
        ),
        layer("c", 3, i["laminate_k_through_W_mK"], 1550, 1050),
    ]
    pad = flux([0, 0, 10, 10], 2e5, setpoint_C=i["source_C"], contact_W_m2K=i["pad_contact_W_m2K"])
    losses = {"heated_face": NO_LOSS, "inner_face": linear(i["outer_loss_W_m2K"])}
    return zone(case, stack, pads=pad, losses=losses)


def _lump(name: str, capacity_J_m2K: float, **more: Any) -> Document:
    return layer(name, 1, (0, 0, NO_RESISTANCE), capacity_J_m2K, 1000, sublayers=1, **more)


def _two_lumps(case: Case, i: Document) -> Document:
    stack = [
        _lump("a", i["capacity_1_J_m2K"], contact_to_next_W_m2K=i["U_coupling_W_m2K"]),
        _lump("b", i["capacity_2_J_m2K"]),
    ]
    losses = {"heated_face": linear(i["U_loss_1_W_m2K"]), "inner_face": linear(i["U_loss_2_W_m2K"])}
    return zone(case, stack, losses=losses, pads=flux([0, 0, 10, 10], i["q_W_m2"]))


def _three_lumps(case: Case, i: Document) -> Document:
    stack = [
        _lump("a", i["capacity_1_J_m2K"], contact_to_next_W_m2K=i["U_coupling_12_W_m2K"]),
        _lump(
            "b",
            i["capacity_2_J_m2K"],
            contact_to_next_W_m2K=i["U_coupling_23_W_m2K"],
            extra_loss_W_m2K=i["U_loss_2_W_m2K"],
        ),
        _lump("c", i["capacity_3_J_m2K"]),
    ]
    losses = {"heated_face": linear(i["U_loss_1_W_m2K"]), "inner_face": linear(i["U_loss_3_W_m2K"])}
    return zone(case, stack, losses=losses, pads=flux([0, 0, 10, 10], i["q_W_m2"]))


def _changing_loss(case: Case, i: Document) -> Document:
    """The pad left on covers the face and loses by its back; lifted, it bares the face."""
    pad = flux([0, 0, 10, 10], 0, contact_W_m2K=1e9, capacity_J_m2K=0)[0] | {
        "back_loss_W_m2K": i["U_loss_before_W_m2K"]
    }
    acts = [{"at_min": i["change_s"] / 60, "pad": "q", "act": "lift"}]
    losses = {"heated_face": linear(i["U_loss_after_W_m2K"]), "inner_face": NO_LOSS}
    return zone(
        case, [_lump("a", i["capacity_J_m2K"])], start_C=i["start_C"], pads=[pad], acts=acts, losses=losses
    )


def _natural(case: Case, i: Document) -> Document:
    law = {
        "coefficient_W_m2_at_1K": i["coefficient_W_m2K_per_K_exponent"],
        "flux_exponent": 1 + i["exponent"],
        "emissivity": 0,
    }
    losses = {"heated_face": law, "inner_face": NO_LOSS}
    return zone(case, [_lump("a", i["capacity_J_m2K"])], start_C=i["start_C"], losses=losses)


def _radiation(case: Case, i: Document) -> Document:
    law = {"coefficient_W_m2_at_1K": 0, "flux_exponent": 1, "emissivity": i["emissivity"]}
    losses = {"heated_face": law, "inner_face": NO_LOSS}
    return zone(case, [_lump("a", i["capacity_J_m2K"])], start_C=i["start_C"], losses=losses)


def _setpoint(case: Case, i: Document) -> Document:
    pads = flux([0, 0, 10, 10], i["q_limit_W_m2"], setpoint_C=i["setpoint_C"])
    losses = {"heated_face": linear(i["U_loss_W_m2K"]), "inner_face": NO_LOSS}
    return zone(case, [_lump("a", i["capacity_J_m2K"])], losses=losses, pads=pads)


def _plate(
    case: Case,
    i: Document,
    k: float | tuple[float, float, float],
    size_mm: list[float],
    *,
    U: float,
    cells_mm: float,
    **more: Any,
) -> Document:
    kx, ky, _ = k if isinstance(k, tuple) else (k, k, k)
    thick = 1e3 * i["thickness_m"]
    plate = layer(
        "a", thick, (kx, ky, NO_RESISTANCE), i.get("rho_kg_m3", 2700), i.get("cp_J_kgK", 930), sublayers=1
    )
    losses = {"heated_face": linear(U), "inner_face": NO_LOSS}
    mesh = {"cells_mm": [cells_mm, min(cells_mm, size_mm[1])]}
    return zone(case, [plate], size_mm=size_mm, losses=losses, mesh=mesh) | more


def _fin(case: Case, i: Document) -> Document:
    edges = {"x_low": {"held_C": i["base_C"]}, "x_high": {"end_loss_W_m2K": i["tip_h_W_m2K"]}}
    return _plate(
        case, i, i["k_W_mK"], [1e3 * i["length_m"], 10], U=i["U_loss_W_m2K"], cells_mm=2.5, edges=edges
    )


def _strip(case: Case, i: Document) -> Document:
    pads = flux([1e3 * i["strip_from_m"], 0, 1e3 * i["strip_to_m"], 10], i["q_W_m2"])
    return _plate(case, i, i["k_W_mK"], [1e3 * i["length_m"], 10], U=i["U_loss_W_m2K"], cells_mm=5, pads=pads)


def _two_plates(case: Case, i: Document) -> Document:
    stack = [
        layer(
            "a",
            3,
            (i["k_1_W_mK"], i["k_1_W_mK"], NO_RESISTANCE),
            i["rho_1_kg_m3"],
            i["cp_1_J_kgK"],
            sublayers=1,
            contact_to_next_W_m2K=i["U_coupling_W_m2K"],
        ),
        layer(
            "b",
            3,
            (i["k_2_W_mK"], i["k_2_W_mK"], NO_RESISTANCE),
            i["rho_2_kg_m3"],
            i["cp_2_J_kgK"],
            sublayers=1,
        ),
    ]
    losses = {"heated_face": linear(i["U_loss_1_W_m2K"]), "inner_face": linear(i["U_loss_2_W_m2K"])}
    pads = flux([1e3 * i["strip_from_m"], 0, 1e3 * i["strip_to_m"], 10], i["q_W_m2"])
    return zone(
        case, stack, size_mm=[1e3 * i["length_m"], 10], losses=losses, pads=pads, mesh={"cells_mm": [5, 10]}
    )


def _rectangle(case: Case, i: Document) -> Document:
    k = (i["k_x_W_mK"], i["k_y_W_mK"], 1.0) if "k_x_W_mK" in i else i["k_W_mK"]
    box = [1e3 * i[f"pad_{end}_m"] for end in ("x_from", "y_from", "x_to", "y_to")]
    size_mm = [1e3 * i["length_x_m"], 1e3 * i["length_y_m"]]
    return _plate(case, i, k, size_mm, U=i["U_loss_W_m2K"], cells_mm=5, pads=flux(box, i["q_W_m2"]))


def _laplace(case: Case, i: Document) -> Document:
    edges = {side: {"held_C": i["cold_edge_C"]} for side in ("x_low", "x_high", "y_low")}
    edges["y_high"] = {"held_C": i["hot_edge_C"]}
    return _plate(
        case, i, i["k_W_mK"], [1e3 * i["length_x_m"], 1e3 * i["length_y_m"]], U=0.0, cells_mm=5, edges=edges
    )


FAMILIES = {
    "plane_wall_biot": _wall, "plane_wall_insulated_step": _step,
    "half_space_constant_flux": _half_space_flux,
    "half_space_convection": _half_space_convection, "composite_wall": _composite, "two_lumps": _two_lumps,
    "three_lumps": _three_lumps, "lump_convection": _changing_loss, "lump_natural": _natural,
    "lump_radiation": _radiation, "lump_power_limit": _setpoint, "fin": _fin, "strip": _strip,
    "two_plates": _two_plates, "rectangle": _rectangle, "laplace": _laplace,
}  # fmt: skip
