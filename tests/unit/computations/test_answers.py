"""What single documents of the trade's sums are answered, through the commands: figures and remarks."""

import pytest

from reference.cases import ask


def test_layers_each_by_their_own_rule_through_the_command() -> None:
    layers = [
        {"layer": "outer", "material": "carbon laminate", "edge_distance_mm": 12.0},
        {"layer": "inner", "material": "aluminium", "edge_distance_mm": 12.0},
    ]
    found = ask("fastening", "edge-by-layer", {"nominal_diameter_mm": 4.8, "layers": layers, "pitch_mm": 25})
    assert found["result"]["edge"]["worst_layer"] == "outer"
    assert found["result"]["good"] is False


def test_a_pattern_names_the_pairs_that_are_too_close() -> None:
    positions = {
        "17": {"centre_mm": [0, 12], "diameter_mm": 4.8},
        "18": {"centre_mm": [17, 12], "diameter_mm": 6.0},
    }
    found = ask("fastening", "pattern", {"positions": positions, "edge_polyline_mm": [[-50, 0], [50, 0]]})
    assert [(one["first"], one["second"]) for one in found["result"]["too_close"]] == [("17", "18")]


def test_an_aluminium_rivet_through_carbon_asks_for_the_makers_word() -> None:
    found = ask(
        "fastening", "galvanic-rivet", {"rivet": "aluminium", "layers": ["carbon laminate", "aluminium"]}
    )
    assert found["result"]["needs_maker"] is True
    assert "maker's word" in found["remarks"][0]


def test_a_moisture_curing_sealant_has_no_equivalent_time() -> None:
    asked = {"cures_by": "moisture", "rate_factor_per_10K": 2, "reference_temperature_C": 23}
    found = ask("bonding", "cure-time", {**asked, "temperature_C": 23, "duration_min": 60})
    assert found["result"]["field"] == "cures_by"
    assert "square root of time" in found["result"]["allowed"]


def test_warming_is_counted_with_its_ramps() -> None:
    asked = {
        "rate_factor_per_10K": 2,
        "reference_temperature_C": 23,
        "equivalent_time_needed_min": 600,
        "equivalent_time_reached_min": 0,
        "present_temperature_C": 13,
        "heated_temperature_C": 53,
    }
    plain = ask("bonding", "cure-forecast", asked)["result"]
    ramped = ask("bonding", "cure-forecast", {**asked, "heating_K_per_min": 2, "cooling_K_per_min": 2})[
        "result"
    ]
    assert plain["remaining_at_present_min"] == 1200
    assert ramped["remaining_heated_with_ramps_min"] > plain["remaining_heated_min"] == 75
    assert ramped["saved_with_ramps_min"] < plain["saved_min"]


@pytest.mark.parametrize(
    ("name", "document", "key", "wanted"),
    [
        (
            "clock",
            {"clock": "primer", "since_min": 3, "minimum_min": 5, "maximum_min": 240},
            "stand",
            "too early",
        ),
        ("clock", {"clock": "mixer", "since_min": 9, "maximum_min": 8}, "warns", True),
        (
            "sheet-limits",
            {"readings": {"air": {"found": 15.0, "unit": "C", "decimals": 1, "minimum": 15, "maximum": 30}}},
            "inside",
            True,
        ),
        (
            "cure-verdict",
            {
                "equivalent_time_reached_min": 240,
                "equivalent_time_needed_min": 240,
                "elapsed_min": 100,
                "data_sheet_min": 240,
                "blob_hard": True,
            },
            "waits_for",
            ["data sheet"],
        ),
        (
            "body",
            {"deviations_mm": {"d1": 0.4, "d2": -1.0}, "diagonals_mm": [1500.0, 1501.5]},
            "largest_at",
            "d2",
        ),
        (
            "dry-fit",
            {
                "gap_mm": 4,
                "gap_tolerance_mm": 0.5,
                "step_tolerance_mm": 1,
                "points": {"g5": {"gap_mm": 3.5, "step_mm": 0.0}},
            },
            "good",
            True,
        ),
        (
            "drying",
            {
                "minimum_temperature_C": 70,
                "maximum_temperature_C": 90,
                "required_min": 60,
                "samples_min_C": [[0, 75], [60, 75]],
            },
            "dried_as_the_method_asks",
            True,
        ),
        (
            "expansion-laminate",
            {
                "E1_MPa": 181e3,
                "E2_MPa": 10.3e3,
                "nu12": 0.28,
                "G12_MPa": 7.17e3,
                "expansion_1_per_K": 0.02e-6,
                "expansion_2_per_K": 22.5e-6,
                "stack_deg": [0, 0],
            },
            "along_per_K",
            0.02e-6,
        ),
    ],
)
def test_what_no_reference_case_asks_is_answered_too(
    name: str, document: dict[str, object], key: str, wanted: object
) -> None:
    assert ask("bonding", name, document)["result"][key] == wanted


def test_trial_rivets_are_judged_through_the_command() -> None:
    trial = {
        "gap_under_head_mm": 0,
        "mandrel_locked_inside": True,
        "cut_open": True,
        "blind_head_formed": True,
    }
    assert ask("fastening", "trial-rivets", {"trials": [trial, trial]})["result"]["good"] is True
    assert ask("fastening", "trial-rivets", {"trials": []})["result"]["good"] is False
