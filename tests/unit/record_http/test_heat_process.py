"""The child process that plans a heat zone."""

from __future__ import annotations

import gzip
import json

import pytest

from bayleaf.adapters.heat_process import ProcessPlanner
from bayleaf.heat_ports import NotPlanned
from unit.heat.zones import joint


def test_the_child_process_plans_a_short_joint_and_tells_how_far_it_is() -> None:
    said: list[str] = []
    text = json.dumps(joint(mesh={"cells_mm": [40, 20]}))
    made = ProcessPlanner().plan(text, lambda doing, _: said.append(doing), lambda: False)
    assert made.sentence == json.loads(made.answer)["sentence"]
    document = json.loads(gzip.decompress(made.response))
    assert document["form"] == 2
    assert json.loads(made.figures)["workable_s"] == document["answer"]["workable_s"]
    field = json.loads(gzip.decompress(made.field))
    assert {len(frame) for layer in field["layers"] for frame in layer["frames"]} == {60 * 24}
    assert len(made.field) < 300_000
    assert "family" in said


def test_the_child_process_ends_when_somebody_stops_it() -> None:
    with pytest.raises(NotPlanned) as why:
        ProcessPlanner().plan(json.dumps(joint()), lambda _doing, _share: None, lambda: True)
    assert why.value.stopped


def test_the_child_process_says_why_a_zone_cannot_be_planned() -> None:
    with pytest.raises(NotPlanned, match="pads") as why:
        ProcessPlanner().plan(json.dumps(joint(pads=3)), lambda _doing, _share: None, lambda: False)
    assert not why.value.stopped
