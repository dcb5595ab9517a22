"""The commands as documents: published schemas, one answer each, one clear refusal."""

import json

import pytest
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from bayleaf.cli import main
from bayleaf.computations import BONDING, FASTENING, Computation
from reference.cases import ask, cases_of, examined_of

EVERY = [("fastening", one) for one in FASTENING.values()] + [("bonding", one) for one in BONDING.values()]
HOLE = {"nominal_diameter_mm": 4.8, "measured_max_mm": 4.95, "measured_min_mm": 4.93}
AIR = {"air_temperature_C": 20, "relative_humidity_percent": 60}
WARM = {"rate_factor_per_10K": 2, "reference_temperature_C": 23}
ADDED = {"nominal_diameter_mm": 4.8, "added_mm": [0, 0]}


@pytest.mark.parametrize(("command", "computation"), EVERY, ids=[one.name for _, one in EVERY])
def test_every_schema_is_sound_names_its_sources_and_is_printed(
    command: str, computation: Computation
) -> None:
    ran = CliRunner().invoke(main, [command, computation.name, "--schema"])
    schema = json.loads(ran.stdout)
    Draft202012Validator.check_schema(schema)
    assert schema == json.loads(json.dumps(computation.schema()))
    assert all("description" in one for one in schema["properties"].values())
    assert computation.sources
    assert schema["additionalProperties"] is False


def test_an_answer_carries_model_inputs_with_defaults_band_sources_and_who_comes_first() -> None:
    answer = ask("bonding", "dew-point", {**AIR, "surface_temperature_C": 15})
    assert answer["model"] == "dew-1"
    assert answer["inputs"]["required_margin_K"] == 3
    low, high = answer["band"]["margin_K"]
    assert low < answer["result"]["margin_K"] < high
    assert answer["result"]["band_reaches_limit"]
    assert "WMO-No. 8" in answer["sources"][0]
    assert "come first" in answer["first"]


def test_the_coldest_of_several_surfaces_decides() -> None:
    found = ask("bonding", "dew-point", {**AIR, "surface_temperatures_C": {"sill": 14.0, "post": 16.0}})
    assert (found["result"]["coldest_surface"], found["result"]["meets_rule"]) == ("sill", False)


@pytest.mark.parametrize(
    ("command", "name", "document", "field", "says"),
    [
        (
            "bonding",
            "dew-point",
            {**AIR, "relative_humidity_percent": 0},
            "relative_humidity_percent",
            "above 0",
        ),
        ("bonding", "dew-point", {**AIR, "air_temperature_C": 61}, "air_temperature_C", "from -45 to 60"),
        ("bonding", "dew-point", {"air_temperature_C": 20}, "relative_humidity_percent", "above 0 to 100"),
        ("bonding", "dew-point", {**AIR, "colour": 1}, "colour", "only air_temperature_C"),
        ("bonding", "dew-point", {**AIR, "air_temperature_C": "20"}, "air_temperature_C", "number"),
        ("bonding", "dew-point", {**AIR, "air_temperature_C": True}, "air_temperature_C", "number"),
        ("bonding", "dew-point", [1], "", "one JSON object"),
        (
            "bonding",
            "dew-point",
            '{"air_temperature_C": NaN}',
            "air_temperature_C",
            "finite numbers; a number from -45 to 60",
        ),
        ("bonding", "dew-point", '{"air_temperature_C": 1e999}', "air_temperature_C", "finite numbers"),
        (
            "bonding",
            "dew-point",
            '{"surface_temperatures_C": {"sill": -Infinity}}',
            "surface_temperatures_C.sill",
            "finite numbers",
        ),
        ("fastening", "pick-list", '{"lines": [{"count": NaN}]}', "lines[0].count", "finite numbers"),
        ("bonding", "dew-point", '{"a": 1, "a": 2}', "a", "each name once"),
        ("bonding", "dew-point", "{", "", "one JSON object"),
        ("bonding", "bead", {"length_mm": 10, "base_mm": 1, "diameter_mm": 2}, "", "exactly one of"),
        ("bonding", "open-time", {"temperature_C": 20}, "sheet_open_time_min_by_C", "sheet_temperature_C"),
        ("bonding", "bead", {"length_mm": 10, "base_mm": 8}, "height_mm", "a number above 0"),
        ("bonding", "bead", {"length_mm": 10}, "", "base_mm, height_mm | diameter_mm"),
        ("fastening", "hole", {**HOLE, "measured_min_mm": "4.9"}, "measured_min_mm", "a number"),
        ("fastening", "vin", {"characters_1_to_8": "0BAYLEAF"}, "characters_10_to_17", "a text"),
        ("bonding", "cure-time", {**WARM, "samples_min_C": [[0, 23], [5]]}, "samples_min_C[1]", "of 2 items"),
        (
            "bonding",
            "cure-time",
            {**WARM, "samples_min_C": {"a": [[0, "23"], [5, 23]]}},
            "samples_min_C.a[0][1]",
            "a number from -60 to 400",
        ),
        ("bonding", "cure-time", {**WARM, "samples_min_C": "warm"}, "samples_min_C", "a list of 2 to 10000"),
        ("fastening", "pitch-added", {**ADDED, "positions_mm": {}}, "positions_mm", "of 1 to 10000 names"),
        ("bonding", "dew-point", '{"a": "\\ud800"}', "a", "whole characters"),
        ("bonding", "dew-point", '{"air_temperature_C": ' + "9" * 5000 + "}", "air_temperature_C", "finite"),
        ("bonding", "dew-point", '{"a": ' + "[" * 500 + "]" * 500 + "}", "", "one JSON object"),
        ("fastening", "grip", {"nominal_diameter_mm": 4.8, "stack_up_mm": []}, "stack_up_mm", "layers"),
        (
            "fastening",
            "grip",
            {"nominal_diameter_mm": 9.9, "grip_mm": 5},
            "nominal_diameter_mm",
            "one of 2.4",
        ),
        ("fastening", "hole", {**HOLE, "measured_max_mm": 49.5}, "measured_max_mm", "decimal point"),
        ("fastening", "tally-events", {"events": [{"position": "1"}]}, "events", "found or not found"),
        (
            "fastening",
            "rivet-table",
            {"nominal_diameter_mm": 4.8, "material": "St/St"},
            "material",
            "AlA/AlA",
        ),
    ],
)
def test_a_refusal_names_field_found_and_allowed(
    command: str, name: str, document: object, field: str, says: str
) -> None:
    answer = ask(command, name, document)
    assert answer["result"]["refused"] is True
    assert answer["result"]["field"] == field
    assert says in answer["result"]["allowed"]
    assert answer["result"]["found"]


def test_a_refusal_is_one_line_on_standard_error() -> None:
    ran = CliRunner().invoke(
        main, ["fastening", "galvanic-pair", "-"], input='{"first": "bronze", "second": "zinc"}'
    )
    assert ran.exit_code == 3
    assert ran.stderr.startswith("first: found bronze; allowed: one of aluminium")
    assert ran.stderr.count("\n") == 1


@pytest.mark.parametrize("command", ["fastening", "bonding"])
def test_an_unknown_name_or_a_missing_file_is_a_usage_error(command: str) -> None:
    assert CliRunner().invoke(main, [command, "weather", "-"]).exit_code == 2
    name = next(iter(FASTENING if command == "fastening" else BONDING))
    ran = CliRunner().invoke(main, [command, name])
    assert ran.exit_code == 2
    assert "FILE is missing" in ran.stderr


def test_json_answers_on_one_line() -> None:
    ran = CliRunner().invoke(main, ["fastening", "hole", "-", "--json"], input=json.dumps(HOLE))
    assert json.loads(ran.stdout)["result"]["decision"] == "reuse"
    assert ran.stdout.count("\n") == 1


@pytest.mark.parametrize("command", ["fastening", "bonding"])
def test_every_case_that_is_answered_echoes_what_was_asked(command: str) -> None:
    for case in cases_of(command):
        answer = ask(command, case.computation, case.inputs)
        if not answer["result"].get("refused"):
            assert {**answer["inputs"], **case.inputs} == answer["inputs"]


def test_the_reference_files_carry_sources_and_no_page_addresses() -> None:
    for command in ("fastening", "bonding"):
        for case in cases_of(command) + examined_of(command):
            assert case.source
            assert "://" not in case.source
