"""What a method file may leave unsaid, what is taken for it, and that the writer is told."""

from __future__ import annotations

import pytest

from bayleaf.method_files import Checked, MethodFileFault, check_methods

FILE = """\
scenario:
  invented: true
  heat_zones:
    - {id: one, pads: [{id: B2}, {id: A1}]}
    - {id: two, pads: [{id: C1}]}
    - {id: both, made_of: [one, two]}
  sensors_per_zone:
    - {id: a, at: bond edge}
    - {id: m, at: bare metal}
    - {id: "n", at: loom, of: bond}
  heat_settings:
    cure: {bondline_min_C: 55, bondline_max_C: 70, hold_minutes: 30, cold_below_C: 35}
methods:
  - id: first
    title: First
    revision: "1"
    stages:
      - id: all
        title: All
        steps:
          - id: one
            title: One
            do: Record.
            asks:
              - {ask: lot, id: sealant, of: Edge sealant}
              - {ask: reading, id: size, name: size, unit: mm, decimals: 1, repeat: [{id: top, name: top}]}
              - {ask: heat_run, id: run, zone: both, purpose: cure, parts: [ramp, soak]}
  - id: second
    title: Second
    revision: "1"
    needs_method: first
    stages:
      - id: all
        title: All
        steps:
          - id: two
            title: Two
            do: Compare.
            needs: [one@soaked]
            asks:
              - {ask: reading, id: top, name: top, unit: mm, decimals: 1, max: 0.5, against: one.size.top}
              - {ask: reading, id: size, name: size, unit: mm, decimals: 1, max: 0.5, against: one.size,
                 repeat: [{id: top, name: top}]}
"""


def checked() -> Checked:
    return check_methods(FILE)


def faults_of(right: str, wrong: str) -> list[str]:
    assert FILE.count(right) == 1
    with pytest.raises(MethodFileFault) as told:
        check_methods(FILE.replace(right, wrong))
    return [str(fault) for fault in told.value.faults]


def test_the_materials_are_those_of_the_lots() -> None:
    document = checked().methods[0].document
    assert document["materials"] == [{"id": "edge_sealant", "name": "Edge sealant"}]
    assert document["stages"][0]["steps"][0]["asks"][0]["of"] == "edge_sealant"


def test_times_and_order_of_a_run_are_taken_as_usual() -> None:
    run = checked().methods[0].document["stages"][0]["steps"][0]["asks"][2]
    assert run["settings"]["gap_max_s"] == 300
    assert run["settings"]["ramp_s"] == 2700
    assert run["settings"]["release"] == ["B2", "A1", "C1"]


def test_a_sensor_that_says_what_it_is_on_is_not_judged_by_its_letter() -> None:
    sensors = checked().methods[0].document["zones"][0]["sensors"]
    assert [sensor.get("of", "bond") for sensor in sensors] == ["bond", "metal", "bond"]


def test_a_moment_and_a_point_of_another_method_are_told_with_it() -> None:
    step = checked().methods[1].document["stages"][0]["steps"][0]
    assert step["needs"] == ["first/one@soaked"]
    assert step["asks"][0]["against"] == {"method": "first", "step": "one", "ask": "size", "point": "top"}


def test_all_that_was_taken_is_remarked_with_its_line() -> None:
    assert [str(remark) for remark in checked().remarks] == [
        "line 1: scenario: no `materials`; taken from the lots: edge_sealant",
        "line 9: scenario.sensors_per_zone[1]: no `of` at the sensor m; metal taken by its letter",
        "line 12: scenario.heat_settings.cure: no `gap_max_seconds`; 300 taken (common practice, no source)",
        (
            "line 12: scenario.heat_settings.cure: no `ramp_expected_minutes`; 45 taken "
            "(common practice, no source)"
        ),
        "line 27: one.run: no `release_order`; B2, A1, C1 taken, as the zone lists them",
        "line 27: one.run: no step records the run's release and cool_down",
    ]


@pytest.mark.parametrize(
    ("right", "wrong", "sentence"),
    [
        (
            "    needs_method: first\n",
            "",
            (
                'line 38: two.needs[0]: found "one", a step of the method first; '
                "needed: a step of second, or needs_method: first"
            ),
        ),
        (
            "needs_method: first",
            "needs_method: third",
            (
                'line 31: methods[1].needs_method: found "third"; '
                "needed: a method that stands before this one in the file (first)"
            ),
        ),
        (
            "{id: both, made_of: [one, two]}",
            "{id: both, made_of: [one, two], pads: [{id: X}]}",
            "line 6: scenario.heat_zones[2].made_of: found pads of its own too",
        ),
        (
            "{id: two, pads: [{id: C1}]}",
            "{id: two, pads: [{id: A1}]}",
            "line 6: scenario.heat_zones[2].made_of: found A1 in two of its zones",
        ),
        (
            "{id: two, pads: [{id: C1}]}",
            "{id: two}",
            "line 5: scenario.heat_zones[1]: found a mapping; allowed: a zone with `pads`",
        ),
        (
            "cold_below_C: 35",
            "cold_below_C: 35, leading_max_C: 70",
            "allowed: exactly one of leading_max_C and bondline_max_C",
        ),
        (
            "against: one.size,\n                 repeat: [{id: top, name: top}]",
            "against: one.size,\n                 repeat: [{id: foot, name: foot}]",
            'line 42: two.size.against: found "one.size", read at top; needed: the points of this one: foot',
        ),
        (
            "max: 0.5, against: one.size.top",
            "against: one.size.top",
            "line 41: two.top.against: found `against` without min or max",
        ),
        (
            "max: 0.5, against: one.size.top",
            "since: one.sealant",
            'line 41: two.top.unit: found "mm"; needed with `since`: a unit of time: s, min, h, d',
        ),
        (
            "of: Edge sealant",
            'of: "--"',
            'line 25: one.sealant.of: found "--"; needed: a material in letters',
        ),
    ],
)
def test_what_contradicts_is_told(right: str, wrong: str, sentence: str) -> None:
    faults = faults_of(right, wrong)
    assert [fault for fault in faults if sentence in fault], faults


@pytest.mark.parametrize(
    ("right", "wrong", "line"),
    [
        ("ask: lot, id: sealant", "ask: [lot], id: sealant", 25),
        ("ask: lot, id: sealant", "ask: lot, id: {sealant: 1}", 25),
        ("          - id: two\n", "          - id: [two]\n", 36),
        ("needs: [one@soaked]", "needs: 3", 39),
        ("{id: both, made_of: [one, two]}", "{id: both, made_of: one}", 6),
        ("{id: one, pads: [{id: B2}, {id: A1}]}", "{id: one, pads: [B2, 3]}", 4),
        ("purpose: cure, parts: [ramp, soak]", "purpose: [cure], parts: ramp", 27),
        ("against: one.size.top", "against: [one.size]", 41),
        ("needs_method: first", "needs_method: {first: 1}", 31),
        ("  heat_settings:\n", "  heat_settings: 3\n  datum_points:\n", 11),
    ],
)
def test_what_has_the_wrong_shape_is_told_and_passed_over(right: str, wrong: str, line: int) -> None:
    assert any(fault.startswith(f"line {line}: ") for fault in faults_of(right, wrong))
