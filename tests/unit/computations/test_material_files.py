"""The materials that come with the demonstration: each value with unit, range and source, and computable."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from bayleaf.fastening.galvanic import GROUPS
from bayleaf.fastening.rivet_rows import RivetRow, rows_15981
from reference.cases import ask

FOLDER = Path(__file__).parents[3] / "seed_data" / "materials"
KINDS = ["materials", "adhesives", "rivets", "bits"]


def _file(kind: str) -> dict[str, Any]:
    document: dict[str, Any] = YAML(typ="safe").load((FOLDER / f"{kind}.yaml").read_text("utf-8"))
    return document


def _figures(kind: str) -> Iterator[tuple[str, dict[str, Any]]]:
    for name, thing in _file(kind)[kind].items():
        yield from ((f"{name}.{key}", figure) for key, figure in thing["properties"].items())
        yield from ((f"{name}.limits", figure) for figure in thing.get("limits", []))


def _adhesive(name: str) -> tuple[dict[str, float], dict[str, dict[str, float]]]:
    thing = _file("adhesives")["adhesives"][name]
    tables = {key: one["rows"] for key, one in thing.get("tables", {}).items()}
    return {key: one["value"] for key, one in thing["properties"].items()}, tables


@pytest.mark.parametrize("kind", KINDS)
def test_a_file_follows_its_schema_and_is_versioned(kind: str) -> None:
    schema = json.loads((FOLDER / "materials.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    document = _file(kind)
    assert [error.message for error in Draft202012Validator(schema).iter_errors(document)] == []
    assert document["kind"] == kind


@pytest.mark.parametrize("kind", KINDS)
def test_every_value_lies_in_its_range_and_names_a_source_without_a_page_address(kind: str) -> None:
    for name, figure in _figures(kind):
        assert figure["low"] <= figure["value"] <= figure["high"], name
        assert "://" not in figure["source"], name


def test_whatever_names_a_metal_names_one_that_can_be_paired() -> None:
    named = [thing.get("galvanic_group") for thing in _file("materials")["materials"].values()]
    named += [thing[part] for thing in _file("rivets")["rivets"].values() for part in ("body", "mandrel")]
    assert {one for one in named if one} <= set(GROUPS)


def test_the_example_rivets_are_those_that_grip_is_computed_with() -> None:
    for name, thing in _file("rivets")["rivets"].items():
        if name.startswith("iso-15981"):
            rows = rows_15981(thing["properties"]["diameter"]["value"])
            assert tuple(RivetRow(*row) for row in thing["rows"]["grips"]) == rows


def test_the_demo_rivets_method_and_sheet_have_the_rows_of_the_material() -> None:
    rows = _file("rivets")["rivets"]["demo-structural-blind-4p8"]["rows"]["grips"]
    sheet = json.loads((FOLDER.parent / "sheets" / "blind_rivet.json").read_text("utf-8"))
    assert [[float(row[key]) for key in ("length", "low", "high")] for row in sheet["rows"]] == rows
    document = YAML(typ="safe").load((FOLDER.parent / "methods" / "rear_frame.yaml").read_text("utf-8"))
    asks = [
        ask
        for method in document["methods"]
        for stage in method["stages"]
        for step in stage["steps"]
        for ask in step.get("asks", ())
    ]
    (lengths,) = (ask["inputs"]["lengths"]["rows"] for ask in asks if ask.get("computation") == "grip")
    assert [[row["length"], *row["grip"]] for row in lengths] == rows
    assert [row["part"] for row in lengths] == [row["part"] for row in sheet["rows"]]


def test_the_demo_rivet_holds_the_demo_stack_up_from_its_own_rows() -> None:
    rivet = _file("rivets")["rivets"]["demo-structural-blind-4p8"]
    keys = ("length_mm", "grip_min_mm", "grip_max_mm")
    rows = [dict(zip(keys, row, strict=True)) for row in rivet["rows"]["grips"]]
    stack = [("laminate", 3.2), ("bondline", 1.2), ("flange", 3.0)]
    layers = [{"layer": name, "thickness_mm": mm} for name, mm in stack]
    asked = {"nominal_diameter_mm": 4.8, "rows": rows, "stack_up_mm": layers}
    assert ask("fastening", "grip", asked)["result"]["lengths_that_fit_mm"] == [12]


def test_the_demo_adhesive_answers_open_time_cure_and_cartridges() -> None:
    values, tables = _adhesive("demo-structural-epoxy")
    opened = {"sheet_open_time_min_by_C": tables["open_time_min_by_C"], "temperature_C": 21}
    assert ask("bonding", "open-time", opened)["result"]["open_time_min"] == 35
    cure = {
        "activation_energy_J_per_mol": values["activation_energy"],
        "reference_temperature_C": values["reference_temperature"],
        "data_sheet_handling_time_min_by_C": tables["handling_time_min_by_C"],
        "temperature_C": 60,
    }
    shown = ask("bonding", "cure-against-sheet", cure)["result"]
    assert shown["shown_min"] >= tables["handling_time_min_by_C"]["60"]
    cartridge = {
        "volume_needed_mL": 60,
        "cartridge_mL": values["cartridge"],
        "left_in_mixer_mL": values["left_in_mixer"],
        "left_in_cartridge_mL": values["left_in_cartridge"],
    }
    assert ask("bonding", "cartridges", cartridge)["result"]["cartridges"] == 2


def test_the_demo_sealant_is_refused_an_equivalent_time() -> None:
    sealant = _file("adhesives")["adhesives"]["demo-seam-sealant"]
    asked = {
        "cures_by": sealant["cures_by"],
        "rate_factor_per_10K": 2,
        "reference_temperature_C": 23,
        "temperature_C": 23,
        "duration_min": 60,
    }
    assert ask("bonding", "cure-time", asked)["result"]["field"] == "cures_by"
