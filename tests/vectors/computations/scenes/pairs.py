"""Metals beside carbon: groups subtracted by hand in `about`."""

from __future__ import annotations

from vectors.computations.writing import Json, case, chosen, lots, v, word


def _pairs(rivet: str, ply: Json, flange: str = "aluminium") -> Json:
    given = {
        "rivets": lots(("R-7", False, False)),
        "glass_ply": ply,
        "part": word("carbon_laminate"),
        "flange": word(flange),
    }
    return {**given, "rivet": word(rivet)} if rivet else given


NIU = "five groups after Niu, Airframe Structural Design (magnesium 1 to carbon 5); subtracted by hand"
SOUND, BROKEN = chosen("sound"), chosen("glass_ply_damaged", stop=True)


def _apart(part: int, flange: int, between: int = 3) -> list[Json]:
    return [
        v("rivet_part", part, "groups"),
        v("rivet_flange", flange, "groups"),
        v("part_flange", between, "groups"),
    ]


PAIRS = {
    "stainless_through_a_sound_ply": case(
        "Stainless 4, carbon 5, aluminium 2; the glass ply parts carbon and aluminium.",
        NIU,
        _pairs("stainless_steel", SOUND),
        _apart(1, 2),
        "inside",
        lines=["pair", "pair", "isolated"],
    ),
    "a_damaged_ply_lets_them_touch": case(
        "Carbon on aluminium is three groups apart: strong, wet or dry.",
        NIU,
        _pairs("stainless_steel", BROKEN),
        _apart(1, 2),
        "outside",
        lines=["pair", "pair", "pair"],
    ),
    "aluminium_through_carbon_is_the_makers": case(
        "An aluminium rivet through carbon wants the maker's word, whatever parts the sheets.",
        NIU,
        _pairs("aluminium", SOUND),
        _apart(3, 0),
        "outside",
        lines=["pair", "pair", "isolated", "maker_first"],
    ),
    "a_steel_rivet_in_carbon_is_a_small_anode": case(
        "Steel 3 in carbon 5: the rivet is the baser metal by two groups.",
        NIU,
        _pairs("steel", SOUND),
        _apart(2, 1),
        "outside",
        lines=["pair", "pair", "isolated", "small_anode"],
    ),
    "a_rivet_nobody_named": case(
        "Without the rivet's material its pairs are asked for, not guessed.",
        NIU,
        _pairs("", SOUND),
        [v("part_flange", 3, "groups")],
        "inside",
        lines=["rivet_unsaid", "isolated"],
    ),
    "without_a_ply_they_touch": case(
        "A joint without a glass ply has nothing between carbon and aluminium.",
        NIU,
        {name: one for name, one in _pairs("stainless_steel", SOUND).items() if name != "glass_ply"},
        _apart(1, 2),
        "outside",
    ),
    "a_material_without_a_group": case(
        "No group is known for it.",
        NIU,
        _pairs("stainless_steel", SOUND, flange="chewing_gum"),
        refused={"field": "flange", "code": "no_group"},
    ),
}
SCENES = {"galvanic_pairs": PAIRS}
