"""Faults of the grown language, all made in one file at once: each is told with its line, field and mend."""

from __future__ import annotations

from pathlib import Path

import pytest

from bayleaf.method_files import Fault, MethodFileFault, compile_methods

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
RIGHT = (SEED / "rear_frame.yaml").read_text("utf-8")
DRAWINGS = {path.name: path.read_bytes() for path in SEED.glob("*.svg")}

Case = tuple[str, str, int, str, str]
# what stands in the file, what is written instead, how far below the fault's line is, its field, words of it
CASES: list[Case] = [
    ("[rem-37, rem-39, rem-40]", "[rem-37, rem-39, rem-99]", 0, "rem-41.needs[2]", "no step of this file"),
    (
        "needs: [rem-25]",
        "needs: [fit-25]",
        0,
        "rem-26.needs[0]",
        '"fit-25", a step of the method fitting; needed: a step of removal, or needs_method: fitting',
    ),
    ("[rem-32@workable]", "[rem-29@cold]", 0, "rem-33.needs[0]", "where that run begins: rem-27"),
    ("[rem-27@workable]", "[rem-27@soft]", 0, "rem-28.needs[0]", 'the moment "soft"; moments: on, soaked'),
    ("needs: [rem-10]", "needs: [rem-11]", 0, "rem-11.needs[0]", "a circular need (rem-11 -> rem-11)"),
    ("meanwhile: [rem-06]", "meanwhile: [rem-07]", 0, "rem-05.meanwhile[0]", '"rem-07", which needs rem-05'),
    ("[fit-02, fit-03]", "[rem-02, fit-03]", 0, "fit-01.meanwhile[0]", "needed: a step of the same method"),
    (
        "against: rem-04.rising, min: -0.5",
        "against: rem-04.raising, min: -0.5",
        0,
        "rem-09.rising.against",
        '"rem-04.raising", which is no ask of rem-04 of this file; known: instrument, dx',
    ),
    (
        "against: rem-04.falling, min: -0.5",
        "against: rem-09.across, min: -0.5",
        0,
        "rem-09.falling.against",
        'whose unit is "mm/m"; needed: a reading with unit "mm"',
    ),
    (
        "against: rem-40.rising",
        "against: rem-17.hole",
        0,
        "fit-01.rising.against",
        "whose decimals is 2; needed: a reading with decimals 1",
    ),
    ("against: rem-40.falling", "against: rem-41.waste", 0, "fit-01.falling.against", "needed: a reading"),
    (
        "against: rem-09.falling, min: -1.0",
        "against: rem-40.falling, min: -1.0",
        0,
        "rem-40.falling.against",
        "which is not answered before rem-40.falling",
    ),
    (
        "since: fit-13.matt",
        "since: fit-04.dew_point",
        0,
        "fit-17.since_abrading.since",
        "a compute; needed: one of tick, text",
    ),
    (
        "[L2, U1, L1, U2], when: {cure: warm}",
        "[L2, U1, L1, U2], when: {cure: tepid}",
        0,
        "fit-27.run.when.cure",
        '"tepid", which is no option of cure of this file; known: room, warm',
    ),
    (
        "thermal_mismatch\n                when: {cure: warm}",
        "thermal_mismatch\n                when: {heat: warm}",
        1,
        "fit-27.mismatch.when.heat",
        '"heat", which is no choice of fit-27 of this file; known: cure',
    ),
    (
        "name: part number and serial number}",
        "name: part number and serial number, when: {tapped: sound}}",
        0,
        "fit-02.part_number.when.tapped",
        "a choice that comes later; needed: a choice that stands before this ask",
    ),
    (
        "continues: rem-27.run",
        "continues: rem-27.display",
        0,
        "rem-29.release.continues",
        "a photo; needed: the heat_run that begins the run",
    ),
    (
        "continues: rem-32.run, zone: post",
        "continues: rem-32.run, zone: upper",
        0,
        "rem-35.release.zone",
        '"upper" in a run that was begun with "post"',
    ),
    (
        "release_order: [U1, U2]",
        "release_order: [U1, U7]",
        0,
        "rem-29.release.release_order[1]",
        "no pad of this zone of this file; known: U1, U2",
    ),
    (
        "parts: [ramp, soak, release, cool_down]",
        "parts: [soak, release, cool_down]",
        0,
        "fit-27.run.parts",
        "without ramp; needed: ramp, or `continues`",
    ),
    (
        "heat_plan\n                zone: post",
        "heat_plan\n                zone: pots",
        1,
        "rem-31.plan.zone",
        "no heat zone of this file; known: upper, post, joint",
    ),
    ("of: edge_sealant", "of: edge glue", 0, "fit-31.edge_sealant.of", "no material of this file"),
    ("sets: [on_stands, braced]", "sets: [on_stands, based]", 0, "rem-09.sets[1]", "no standing condition"),
    (
        "deadline: {before_step: rem-30}",
        "deadline: {before_step: rem-27}",
        0,
        "rem-28.open_joint.deadline.before_step",
        '"rem-27", which does not come after rem-28',
    ),
    ("outline: bead", "outline: beads", 0, "fit-19.bead.outline", "no drawing of this file; known: part"),
    (
        "rehearsal: fit-11.rehearsal",
        "rehersal: fit-11.rehearsal",
        0,
        "fit-11.open_time.inputs.rehersal",
        "`rehersal`, which open_time does not take; it takes: adhesive, air, flange",
    ),
    (
        "rehearsal: fit-11.rehearsal",
        "rehersal: fit-11.rehearsal",
        -4,
        "fit-11.open_time.inputs",
        "no input `started`; needed: one of started, rehearsal",
    ),
    (
        "surface: fit-17.flange",
        "surfaces: fit-17.flange",
        -3,
        "fit-17.dew_point.inputs",
        "no input `surface`; needed: surface, a figure in C",
    ),
    (
        "run: rem-32.run",
        "run: rem-32.display",
        0,
        "rem-35.verdict.inputs.run",
        '"rem-32.display", a photo; needed: a heat_run',
    ),
    (
        'spares: {value: 10, unit: "%"}',
        'spares: {value: 10, unit: "pcs"}',
        0,
        "fit-10.picked.inputs.spares.unit",
        '"pcs"; needed: the unit "%"',
    ),
    (
        "earlier: fit-04.dew_point",
        "earlier: [fit-04.dew_point, fit-04.dew_point]",
        0,
        "fit-17.dew_point.inputs.earlier",
        "a list; needed: one answer; lists are for earlier_runs, tallies",
    ),
    (
        "humidity: fit-17.humidity",
        "humidity: fit-17.air",
        0,
        "fit-17.dew_point.inputs.humidity",
        '"fit-17.air", a reading in C; needed: a figure in %',
    ),
    (
        "mandrels: fit-25.spent",
        "mandrels: fit-25.spent.left",
        0,
        "fit-25.accounted.inputs.mandrels",
        '"fit-25.spent.left", which is no point of fit-25.spent',
    ),
    (
        "dry_gap: fit-06.gap",
        "dry_gap: fit-07.room",
        0,
        "fit-30.fit.inputs.dry_gap",
        "read at header_left, header_centre",
    ),
    (
        "plan: rem-31.plan",
        "plan: {value: 3, unit: C}",
        0,
        "rem-35.verdict.inputs.plan",
        "a fixed value; needed: a result of heat_plan",
    ),
    (
        "computation: grip\n                groups: [header, post, foot]",
        "computation: grip\n                zone: upper",
        1,
        "fit-10.grip.zone",
        "grip is about groups: leave it out",
    ),
    (
        "computation: grip\n                groups: [header, post, foot]",
        "computation: grip\n                zone: upper",
        -3,
        "fit-10.grip",
        "no `groups`; needed: groups, which grip is about",
    ),
    ("name: lost inside", "name: lost", -2, "scenario.rivet_marks", "needed: {id: damaged_hole"),
    (
        "[hole_checked, rivet_seated, set, set_and_checked]",
        "[hole_checked, set, set_and_checked]",
        0,
        "scenario.ladders.setting",
        "needed, as the record has it: hole_checked, rivet_seated",
    ),
    (
        "made_of: [upper, post]",
        "made_of: [upper, pots]",
        0,
        "scenario.heat_zones[2].made_of[1]",
        "known: upper",
    ),
    (
        "      hold_minutes: 60",
        "      soak_minutes: 60",
        -6,
        "scenario.heat_settings.cure",
        "exactly one of soak_min_minutes and hold_minutes",
    ),
]


@pytest.fixture(scope="module")
def faults() -> list[Fault]:
    wrong = RIGHT
    for right, other, *_ in CASES:
        assert RIGHT.count(right) == 1, right
        assert right.count("\n") == other.count("\n")
        wrong = wrong.replace(right, other)
    with pytest.raises(MethodFileFault) as told:
        compile_methods(wrong, DRAWINGS)
    return told.value.faults


@pytest.mark.parametrize("case", CASES, ids=[f"{case[3]}: {case[1]}" for case in CASES])
def test_each_fault_is_told_with_line_field_and_mend(faults: list[Fault], case: Case) -> None:
    right, wrong, below, field, words = case
    line = RIGHT[: RIGHT.index(right)].count("\n") + 1 + below
    told = [fault for fault in faults if fault.field == field and words in f"{fault.found}; {fault.allowed}"]
    assert told, f"{wrong}: {[str(fault) for fault in faults if fault.field.startswith(field[:6])]}"
    assert told[0].line == line
