"""What a method file compiles to: one canonical document whose digest is what a job pins."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
from ruamel.yaml import YAML

from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import dumps
from bayleaf.method_files import Compiled, compile_methods, method_schema

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
SPINE = (SEED / "spine.yaml").read_text("utf-8")
DRAWINGS = {"bracket.svg": (SEED / "bracket.svg").read_bytes()}


def compiled(text: str = SPINE) -> Compiled:
    return compile_methods(text, DRAWINGS)[0]


def steps() -> dict[str, dict[str, Any]]:
    return {step["id"]: step for stage in compiled().document["stages"] for step in stage["steps"]}


def ask(step: str, name: str) -> dict[str, Any]:
    found: dict[str, Any] = next(ask for ask in steps()[step]["asks"] if ask["id"] == name)
    return found


def test_the_digest_is_the_hash_of_the_canonical_text() -> None:
    method = compiled()
    assert method.text == dumps(json.loads(method.text))
    assert method.digest == sha256_hex(method.text.encode())


def test_comments_and_layout_of_the_yaml_do_not_change_the_digest() -> None:
    assert (
        compiled(SPINE.replace("\nscenario:", "\n# another remark\n\nscenario:")).digest == compiled().digest
    )


def test_limits_are_integers_scaled_by_the_decimals() -> None:
    gap = ask("spn-07", "gap")
    assert (gap["decimals"], gap["max"], gap["plausible"]) == (2, 30, [0, 500])
    assert "min" not in gap


def test_choice_options_get_ids_and_know_which_stop_the_work() -> None:
    assert ask("spn-12", "cavity")["options"] == [
        {"id": "clear", "name": "clear", "stop": False},
        {"id": "piece_left_and_signed_for", "name": "piece left and signed for", "stop": True},
    ]


def test_the_heat_run_of_the_demonstration_soaks_for_90_seconds() -> None:
    settings = ask("spn-09", "run")["settings"]
    assert settings["soak_s"] == 90
    assert settings["release"] == ["U1", "U2"]
    assert settings["gap_max_s"] == 60


def test_a_drawing_stands_in_the_document_by_its_hash() -> None:
    method = compiled()
    assert method.document["drawings"] == {"part": sha256_hex(DRAWINGS["bracket.svg"])}
    assert method.drawings == {sha256_hex(DRAWINGS["bracket.svg"]): DRAWINGS["bracket.svg"]}


def test_words_of_yaml_1_1_are_strings() -> None:
    told = compiled(
        SPINE.replace("revision: demo-1", "revision: on").replace("name: flange cleaner}", "name: yes}")
    )
    assert told.document["revision"] == "on"
    assert told.document["materials"] == [{"id": "cleaner", "name": "yes"}]


def test_the_demonstration_touches_every_kind_of_ask_and_says_that_it_is_invented() -> None:
    document = compiled().document
    assert document["invented"] is True
    assert len(steps()) == 12
    kinds = {ask["kind"] for step in steps().values() for ask in step["asks"]}
    assert kinds == {
        "tick",
        "text",
        "choice",
        "reading",
        "photo",
        "lot",
        "tally",
        "heat_run",
        "countersign",
        "compute",
    }


def test_every_standing_condition_of_a_step_is_set_somewhere() -> None:
    by_step = {row["id"] for row in compiled().document["conditions"] if row["set_by"] == "step"}
    assert {condition for step in steps().values() for condition in step["sets"]} == by_step


def test_a_caution_with_a_figure_defers_to_the_maker() -> None:
    for step in steps().values():
        figures = any(letter.isdigit() for letter in step["caution"])
        assert not figures or "Maker's instruction and data sheet come first" in step["caution"]


def test_the_published_schema_is_valid_and_takes_the_demonstration_as_other_tools_read_it() -> None:
    jsonschema.Draft202012Validator.check_schema(method_schema())
    jsonschema.validate(YAML(typ="safe", pure=True).load(SPINE), method_schema())
