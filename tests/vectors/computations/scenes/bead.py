"""Bondline and bead: arithmetic on paper, in `about`."""

from __future__ import annotations

from vectors.computations.writing import Json, case, earlier, points, q, v

GEOMETRY = "triangle b h / 2 and plain mean, on paper"
THIN, THICK = q(8, "mm", 1), q(18, "mm", 1)
SIZE = {"length": q(1240, "mm"), "width": q(28, "mm")}


def _room(mean: int, low: int, high: int, volume: int) -> list[Json]:
    return [
        v("bondline_mean", mean, "mm", 2),
        v("bondline_min", low, "mm", 2),
        v("bondline_max", high, "mm", 2),
        v("volume", volume, "mL", 1),
    ]


def _gaps(**at: int) -> Json:
    return {"gaps": points("mm", 2, **at), "thinnest": THIN, "thickest": THICK, **SIZE}


def _bead(width: int, height: int, room: list[Json], cartridge: int = 50) -> Json:
    return {
        "bondline": earlier("bead_volume", "inside", *room),
        "length": q(1240, "mm"),
        "bead_width": q(width, "mm"),
        "bead_height": q(height, "mm"),
        "cartridge": q(cartridge, "mL"),
        "left_in_mixer": q(5, "mL"),
    }


BEAD = {
    "six_gaps": case(
        "Mean of 1.00, 1.10, 1.20, 1.20, 1.30, 1.40 is 1.20 mm; 1.2 x 28 x 1240 mm3 are 41.664 mL.",
        GEOMETRY,
        _gaps(a=100, b=110, c=120, d=120, e=130, f=140),
        _room(120, 100, 140, 417),
        "inside",
        lines=["plain_mean"],
    ),
    "on_both_limits": case(
        "0.80 and 1.80 are the ends that the method allows: mean 1.30, 45.136 mL.",
        GEOMETRY,
        _gaps(a=80, b=180),
        _room(130, 80, 180, 451),
        "inside",
    ),
    "too_thin_and_too_thick": case(
        "0.79 starves the joint, 1.81 weakens it; mean 1.30.",
        GEOMETRY,
        _gaps(a=79, b=181),
        _room(130, 79, 181, 451),
        "outside",
        lines=["plain_mean", "too_thin", "too_thick"],
    ),
    "no_bead": case(
        "A bead of no height is a slip of the pen: no share comes out of nothing.",
        "by eye",
        _bead(10, 0, _room(120, 100, 140, 417)),
        refused={"field": "bead_height", "code": "not_above_zero"},
    ),
    "the_bead_for_it": case(
        "10 x 8 / 2 = 40 mm2 over 1240 mm: 49.6 mL; 41.7 wanted, so 15.9 % comes out; 49.6 / 45 = 1.10, so 2 "
        "cartridges and 40.4 mL over. At the widest 1.40 mm it wants 41.7 x 1.4 / 1.2 = 48.65: filled.",
        GEOMETRY,
        _bead(10, 8, _room(120, 100, 140, 417)),
        [
            v("bead", 496, "mL", 1),
            v("bondline_volume", 417, "mL", 1),
            v("squeeze_out", 16, "%"),
            v("cartridges", 2, "pcs"),
            v("mixers", 2, "pcs"),
            v("left_over", 404, "mL", 1),
        ],
        "inside",
        lines=["one_spare"],
    ),
    "thin_at_the_widest_gap": case(
        "At 1.80 mm it wants 41.7 x 1.5 = 62.55 mL on the whole: 26.1 % more than is laid.",
        GEOMETRY,
        _bead(10, 8, _room(120, 80, 180, 417)),
        [
            v("bead", 496, "mL", 1),
            v("bondline_volume", 417, "mL", 1),
            v("squeeze_out", 16, "%"),
            v("cartridges", 2, "pcs"),
            v("mixers", 2, "pcs"),
            v("left_over", 404, "mL", 1),
        ],
        "inside",
        lines=["one_spare", "thin_at_widest"],
    ),
    "too_small_a_bead": case(
        "10 x 6 / 2 = 30 mm2: 37.2 mL, 4.5 short of 41.7; 37.2 / 45: one cartridge, 7.8 mL over.",
        GEOMETRY,
        _bead(10, 6, _room(120, 100, 140, 417)),
        [
            v("bead", 372, "mL", 1),
            v("bondline_volume", 417, "mL", 1),
            v("squeeze_out", 0, "%"),
            v("cartridges", 1, "pcs"),
            v("mixers", 1, "pcs"),
            v("left_over", 78, "mL", 1),
        ],
        "outside",
        lines=["one_spare", "bead_too_small"],
    ),
    "a_cartridge_that_only_fills_the_mixer": case(
        "5 mL in the cartridge, 5 mL left in the mixer: nothing reaches the flange.",
        GEOMETRY,
        _bead(10, 8, _room(120, 100, 140, 417), cartridge=5),
        refused={"field": "cartridge", "code": "all_waste"},
    ),
}
SCENES = {"bead_volume": BEAD}
