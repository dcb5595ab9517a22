"""Documents about adhesive: bead, bondline, cartridges, mix."""

from __future__ import annotations

from bayleaf.bonding import bead, cartridges
from bayleaf.bonding.refusal import Refused
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import listed, mm, number, tupled, whole
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema


def _bead(asked: Inputs) -> Outcome:
    section = (
        bead.round_section_mm2(asked["diameter_mm"])
        if "diameter_mm" in asked
        else bead.triangle_section_mm2(asked["base_mm"], asked["height_mm"])
    )
    return Outcome({"section_mm2": section, "volume_mL": bead.volume_mL(section, asked["length_mm"])})


def _pressed(asked: Inputs) -> Outcome:
    pressed = bead.press(
        asked["bead_section_mm2"], asked["flange_width_mm"], asked["bondline_mm"], asked["length_mm"]
    )
    result = {
        "bead_volume_mL": pressed.bead_mL,
        "bondline_volume_mL": pressed.bondline_mL,
        "spread_width_if_free_mm": pressed.spread_if_free_mm,
        "squeeze_out_fraction_of_bead": pressed.squeeze_out_of_bead,
        "fills_flange": pressed.fills_flange,
        "missing_mL": pressed.missing_mL,
    }
    return Outcome(result, remarks=("the share is of the bead laid, not of the bondline",))


def _height(asked: Inputs) -> Outcome:
    height = bead.triangle_height_mm(
        asked["base_mm"],
        asked["flange_width_mm"],
        asked["bondline_mm"],
        asked["squeeze_out_fraction_of_bead"],
    )
    return Outcome({"height_mm": height})


def _over_gaps(asked: Inputs) -> Outcome:
    stations = [(place, gap) for place, gap in asked["stations_mm_mm"]]
    volume = bead.bondline_mL(stations, asked["flange_width_mm"])
    return Outcome({"bondline_volume_mL": volume, "mean_gap_mm": bead.mean_gap_mm(stations)})


def _gaps(asked: Inputs) -> Outcome:
    low, high = asked["minimum_mm"], asked["maximum_mm"]
    if low > high:
        raise Refused("minimum_mm", f"{low} mm", f"at most maximum_mm, {high} mm")
    return Outcome({"verdicts": [bead.gap_verdict(gap, low, high) for gap in asked["gaps_mm"]]})


def _cartridges(asked: Inputs) -> Outcome:
    size = cartridges.Cartridge(
        asked["cartridge_mL"],
        asked["left_in_mixer_mL"],
        asked["left_in_cartridge_mL"],
        asked["mixers_per_cartridge"],
    )
    wanted = cartridges.cartridges_for(asked["volume_needed_mL"], size)
    result = {
        "usable_per_cartridge_mL": wanted.usable_per_cartridge_mL,
        "cartridges": wanted.cartridges,
        "mixers": wanted.mixers,
        "bought_mL": wanted.bought_mL,
        "spare_mL": wanted.spare_mL,
    }
    return Outcome(result)


def _mix(asked: Inputs) -> Outcome:
    mix = cartridges.mix(
        asked["volume_needed_mL"],
        (asked["ratio_by_volume_A"], asked["ratio_by_volume_B"]),
        (asked["density_A_g_per_mL"], asked["density_B_g_per_mL"]),
    )
    result = {
        "A_mL": mix.a_mL,
        "B_mL": mix.b_mL,
        "mass_g": mix.mass_g,
        "ratio_by_mass_A_per_B": mix.mass_a_per_b,
    }
    return Outcome(result, remarks=("ratio by volume is not ratio by mass",))


LENGTH = mm("length of the joint, mm")
WIDTH = mm("width of the flange, mm")
BONDLINE = mm("pressed bondline, mm")
STATION: Schema = tupled("place along the flange, gap; mm", mm("place", zero=True), mm("gap", zero=True))
NEEDED = number("adhesive on the flange, mL", low=0, high=1e6)
LEFT = number("left behind, mL", low=0, high=1e4)
PART = number("parts by volume", above=0, high=1000)
DENSITY = number("density, g/mL", above=0, high=20)

COMPUTATIONS = (
    Computation(
        "bead",
        "Section and volume of a triangular or a round bead",
        bead.MODEL,
        (src.GEOMETRY,),
        _bead,
        asks={"length_mm": LENGTH},
        may={
            "base_mm": mm("base of the triangle, mm"),
            "height_mm": mm("height of the triangle, mm"),
            "diameter_mm": mm("diameter of a round bead, mm"),
        },
        one_of=(("base_mm", "height_mm"), ("diameter_mm",)),
    ),
    Computation(
        "bead-pressed",
        "A bead pressed to the bondline: does it fill the flange, what comes out?",
        bead.MODEL,
        (src.GEOMETRY,),
        _pressed,
        asks={
            "bead_section_mm2": number("section of the bead, mm2", above=0, high=1e5),
            "flange_width_mm": WIDTH,
            "bondline_mm": BONDLINE,
            "length_mm": LENGTH,
        },
    ),
    Computation(
        "bead-height",
        "Height of a triangular bead for a wanted share of squeeze-out",
        bead.MODEL,
        (src.GEOMETRY,),
        _height,
        asks={
            "base_mm": mm("base of the triangle, mm"),
            "flange_width_mm": WIDTH,
            "bondline_mm": BONDLINE,
            "squeeze_out_fraction_of_bead": number("share of the bead that comes out", low=0, below=1),
        },
    ),
    Computation(
        "bead-over-gaps",
        "Adhesive for a flange whose gaps the dry fit measured at stations",
        bead.MODEL,
        (src.GEOMETRY,),
        _over_gaps,
        asks={"flange_width_mm": WIDTH, "stations_mm_mm": listed("stations, in order", STATION, least=2)},
    ),
    Computation(
        "bondline-gaps",
        "Measured gaps against the allowed bondline",
        bead.MODEL,
        (src.SHEET,),
        _gaps,
        asks={
            "gaps_mm": listed("measured gaps, mm", mm("gap", zero=True)),
            "minimum_mm": mm("thinnest bondline, mm", zero=True),
            "maximum_mm": mm("thickest bondline, mm"),
        },
    ),
    Computation(
        "cartridges",
        "Cartridges and mixers for a volume, with what stays behind",
        cartridges.MODEL,
        (src.COUNTING,),
        _cartridges,
        asks={
            "volume_needed_mL": NEEDED,
            "cartridge_mL": number("one cartridge, mL", above=0, high=1e5),
            "left_in_mixer_mL": LEFT,
            "left_in_cartridge_mL": LEFT,
        },
        may={"mixers_per_cartridge": whole("mixers that one cartridge needs", low=1, high=100, default=1)},
    ),
    Computation(
        "mix",
        "Two components by volume: how much of each, and its mass",
        cartridges.MODEL,
        (src.COUNTING,),
        _mix,
        asks={
            "volume_needed_mL": NEEDED,
            "ratio_by_volume_A": PART,
            "ratio_by_volume_B": PART,
            "density_A_g_per_mL": DENSITY,
            "density_B_g_per_mL": DENSITY,
        },
    ),
)
