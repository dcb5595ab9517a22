"""What each computation that a method may ask for is about, and which inputs it takes, of what kind.

An input's kind is a unit (a reading in it, or a fixed figure), or one of the words of `SOURCES`: the kind
of ask that it comes from. `material` is a fixed word, a lot, or a choice; `@table` rows of rivet lengths.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

SOURCES: Mapping[str, frozenset[str]] = {
    "@lot": frozenset({"lot"}),
    "@run": frozenset({"heat_run"}),
    "@tally": frozenset({"tally"}),
    "@choice": frozenset({"choice"}),
    "@moment": frozenset({"tick", "text", "choice", "reading"}),
    "@result": frozenset({"compute"}),
}
WORDS = frozenset({"material"})  # units whose fixed value is a word
LISTS = frozenset({"tallies", "earlier_runs"})  # inputs that may name several answers


@dataclass(frozen=True)
class Takes:
    """What a computation is about, its inputs by kind, and the sets of which it needs one."""

    needed: Mapping[str, str]
    optional: Mapping[str, str] = field(default_factory=dict)
    about: tuple[str, ...] = ()
    may_be_about: tuple[str, ...] = ()
    one_of: tuple[tuple[str, ...], ...] = ()

    def kind(self, name: str) -> str | None:
        """The kind of an input; None where the computation takes none of that name."""
        return self.needed.get(name, self.optional.get(name))

    def names(self) -> list[str]:
        return sorted({*self.needed, *self.optional})


CURE_SHEET = {
    "started": "@moment",
    "handling_time": "h",
    "full_time": "h",
    "sheet_temperature": "C",
    "activation_energy": "kJ/mol",
}

COMPUTATIONS: Mapping[str, Takes] = {
    "best_fit": Takes(
        {"dx": "mm", "dy": "mm", "dz": "mm", "largest_allowed": "mm"},
        {"before_dx": "mm", "before_dy": "mm", "before_dz": "mm"},
        about=("points",),
    ),
    "bead_volume": Takes(
        {"length": "mm"},
        {
            "gaps": "mm",
            "bondline": "@result bead_volume",
            "thinnest": "mm",
            "thickest": "mm",
            "width": "mm",
            "bead_width": "mm",
            "bead_height": "mm",
            "cartridge": "mL",
            "left_in_mixer": "mL",
        },
        one_of=(("gaps", "bondline"),),
    ),
    "bit_use": Takes({"holes": "pcs", "per_bit": "pcs", "limit": "pcs"}, {"bit": "material"}),
    "cure_progress": Takes(
        {**CURE_SHEET, "coldest": "C"},
        {
            "adhesive": "@lot",
            "run": "@run",
            "blob": "Shore D",
            "blob_least": "Shore D",
            "minimum_cure": "C",
            "warm_to": "C",
            "heating": "K/min",
            "cooling": "K/min",
        },
    ),
    "dew_point_margin": Takes(
        {"air": "C", "humidity": "%", "surface": "C", "least": "K"}, {"earlier": "@result dew_point_margin"}
    ),
    "edge_distance": Takes({"edge": "mm", "nominal": "mm", "least": "diameters"}),
    "galvanic_pairs": Takes(
        {"part": "material", "flange": "material"},
        {"rivet": "material", "rivets": "@lot", "glass_ply": "@choice"},
    ),
    "gap_and_step": Takes(
        {"gap": "mm", "step": "mm", "gap_nominal": "mm", "gap_allowed": "mm", "step_allowed": "mm"},
        {"dry_gap": "mm", "dry_step": "mm"},
        about=("points",),
    ),
    "grip": Takes(
        {"laminate": "mm", "bondline": "mm", "flange": "mm"},
        {"lengths": "@table", "grip_from": "mm", "grip_to": "mm", "rivets": "@lot", "foot_bed": "mm"},
        about=("groups",),
        one_of=(("lengths", "grip_from"), ("lengths", "grip_to")),
    ),
    "heat_plan": Takes(
        {"air": "C", "laminate": "mm", "bondline": "mm", "flange": "mm"},
        {"pad_gap": "mm", "earlier_runs": "@run"},
        about=("zone", "purpose"),
    ),
    "heat_verdict": Takes(
        {"run": "@run"},
        {"plan": "@result heat_plan", "earlier_runs": "@run", "metal_peak": "C"},
        about=("zone", "purpose"),
    ),
    "hole_decision": Takes(
        {"nominal": "mm", "ovality_allowed": "mm"},
        {
            "along": "mm",
            "across": "mm",
            "largest": "mm",
            "ovality": "mm",
            "next_size": "mm",
            "edge": "mm",
            "pitch": "mm",
        },
        about=("groups",),
        may_be_about=("points",),
        one_of=(("along", "largest"), ("across", "ovality")),
    ),
    "laminate_drying": Takes(
        {"time": "min", "coldest": "C", "hottest": "C", "from": "C", "to": "C", "least": "min"}
    ),
    "open_time": Takes(
        {"air": "C", "flange": "C", "adhesive": "C", "sheet_time": "min", "sheet_temperature": "C"},
        {"started": "@moment", "rehearsal": "min", "share": "%"},
        one_of=(("started", "rehearsal"),),
    ),
    "pick_list": Takes(
        {"positions": "pcs", "grip": "@result grip"},
        {"holes": "@result hole_decision", "spares": "%", "least_spares": "pcs", "trial": "pcs"},
        about=("groups",),
    ),
    "tally_reconciliation": Takes(
        {},
        {"tallies": "@tally", "positions": "pcs", "heads": "pcs", "mandrels": "pcs", "shanks": "pcs"},
        about=("groups",),
    ),
    "thermal_mismatch": Takes(
        {
            "laminate": "mm",
            "bondline": "mm",
            "flange": "mm",
            "length": "mm",
            "set_at": "C",
            "coldest": "C",
            "hottest": "C",
            "flange_expansion": "1e-6/K",
            "laminate_expansion": "1e-6/K",
            "flange_modulus": "MPa",
            "laminate_modulus": "MPa",
            "shear_modulus": "MPa",
        }
    ),
}
ABOUT = ("zone", "purpose", "points", "groups")
