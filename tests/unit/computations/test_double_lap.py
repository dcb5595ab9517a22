"""The double lap through its command, where its figures lie far apart."""

from reference.cases import ask, cases_of


def test_figures_too_far_apart_for_an_answer_are_refused_and_none_is_made_up() -> None:
    case = next(one for one in cases_of("bonding") if one.computation == "double-lap")
    found = ask("bonding", "double-lap", {**case.inputs, "inner_modulus_psi": 1e-300})["result"]
    assert found["refused"] is True
    assert "too far apart" in found["allowed"]


def test_a_double_lap_so_stiff_that_its_ends_carry_all_is_answered() -> None:
    """tanh goes to 1 and the middle is free of shear: Shigley's form without its overflow."""
    case = next(one for one in cases_of("bonding") if one.computation == "double-lap")
    thin = ask("bonding", "double-lap", {**case.inputs, "adhesive_thickness_in": 1e-9})
    assert thin["result"]["thermal_amplitude_psi"] == 0
    assert thin["result"]["load_shear_stress_end_psi"] > 0
