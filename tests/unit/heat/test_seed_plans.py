"""The demo's plans, worked out beforehand: of the zones as they are, by the model as it is."""

from __future__ import annotations

import gzip
import json
from base64 import b64decode
from typing import Any

import pytest

from bayleaf.heat.model import MODEL_ID
from bayleaf.heat.plan import plan_of
from bayleaf.heat.plan_json import answer_sentence
from bayleaf.seed_folder import SEED_FOLDER
from unit.heat.zones import seed_zone

ANEW = "run `python -m seed_data.make_plans`"


def seed_plan(name: str) -> dict[str, Any]:
    told: dict[str, Any] = json.loads((SEED_FOLDER / "plans" / f"{name}.json").read_text("utf-8"))
    return told


@pytest.mark.parametrize("name", ["upper", "post"])
def test_a_demo_plan_is_of_the_zone_and_the_model_as_they_are(name: str) -> None:
    told = seed_plan(name)
    assert (told["digest"], told["model"]) == (seed_zone(name).digest, MODEL_ID), ANEW
    response = json.loads(gzip.decompress(b64decode(told["response"])))
    assert (response["digest"], response["model"]) == (told["digest"], told["model"])
    assert json.loads(told["figures"])["feasible"]


@pytest.mark.parametrize("name", ["upper", "post"])
def test_a_demo_plan_keeps_the_methods_limits_and_soak(name: str) -> None:
    """125 C and 15 min; metal at most 190 C, bondline at most 185 C, of the method `removal`."""
    told = json.loads(seed_plan(name)["answer"])
    peaks = {layer["layer"]: layer["peak_C"] for layer in told["layers"]}
    assert peaks["flange"] <= 190
    assert peaks["bond"] <= 185
    assert told["soak_min"] == 15
    assert told["ramp_K_min"] <= 10
    assert told["cooling_K_min"] <= 8


def test_a_demo_plan_says_what_the_planner_says_today() -> None:
    assert seed_plan("upper")["sentence"] == answer_sentence(plan_of(seed_zone("upper"))), ANEW
