"""What is wrong with a method file is told whole: every fault, its line and field, and what mends it."""

from __future__ import annotations

from pathlib import Path

import pytest

from bayleaf.method_files import MethodFileFault, compile_methods

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
SPINE = (SEED / "spine.yaml").read_text("utf-8")
DRAWINGS = {"bracket.svg": (SEED / "bracket.svg").read_bytes()}

# what is written instead, how often it stands before it is replaced, the field, a part of the sentence
CASES = [
    (
        "needs: [spn-01]",
        "needs: [spn-99]",
        "spn-02.needs[0]",
        '"spn-99", which is no step of this file; known: spn-01',
    ),
    ("spn-09@workable", "spn-09@worn", "spn-10.needs[0]", "moments: on, soaked, workable, lifted, off, cold"),
    ("spn-09@workable", "spn-08@workable", "spn-10.needs[0]", "a moment needs a heat run"),
    (
        "needs: [spn-06]",
        "needs: [spn-09]",
        "spn-08.needs[0]",
        "a circular need (spn-07 -> spn-09 -> spn-08 -> spn-07)",
    ),
    ("max: 0.30", "max: 0.305", "spn-07.gap.max", "0.305, a limit with 3 decimals; allowed: 2"),
    ("unit: km, ", "", "spn-01.odometer", "no `unit`; needed: a unit as people read it"),
    (
        "unit: km, decimals: 0",
        "unit: km, decimals: 4",
        "spn-01.odometer.decimals",
        "4; allowed: 0, 1, 2 or 3",
    ),
    ("id: spn-05", "id: spn-04", "spn-04.id", '"spn-04" a second time; it stands in line'),
    ("id: bits", "id: post", "spn-05.post.id", '"post" a second time'),
    ("id: plus_body", "id: plus_minus", "spn-03.voltage.repeat[1].id", '"plus_minus" a second time'),
    (
        "sets: [on_stands]",
        "sets: [on_stand]",
        "spn-04.sets[0]",
        "no standing condition of this file; known: locked_and_dead",
    ),
    ("sets: [on_stands]", "sets: [pads_hot]", "spn-04.sets[0]", "begins and ends with the run"),
    ("of: cleaner", "of: glue", "spn-07.cleaner.of", "no material of this file; known: cleaner"),
    (
        "group: post,",
        "group: posts,",
        "spn-05.post.group",
        "no rivet group of this file; known: header, post",
    ),
    ("[header, post]", "[header, foot]", "spn-06.accounted.groups[1]", "no rivet group of this file"),
    (
        "[U1, U2]",
        "[U1, U9]",
        "spn-09.run.release_order[1]",
        "no pad of this zone of this file; known: U1, U2",
    ),
    ("[U1, U2]", "[U1]", "spn-09.run.release_order", "no U2; needed: every pad of the zone, once"),
    ("zone: upper", "zone: lower", "spn-09.run.zone", "no heat zone of this file; known: upper"),
    ("purpose: removal", "purpose: cure", "spn-09.run.purpose", "needed: scenario.heat_settings.cure"),
    ("to: shank_out", "to: shank_gone", "spn-05.header.to", "allowed: taking_out: in_place, mandrel_out"),
    ("to: shank_out", "to: set", "spn-05.header.to", "states of the ladder taking_out: in_place"),
    (
        "before_step: spn-07",
        "before_step: spn-77",
        "spn-01.damage.deadline.before_step",
        "no step of this file",
    ),
    ("stop_if: [waiting]", "stop_if: [wait]", "spn-02.approval.stop_if[0]", "no option of this ask"),
    ("[same, different]", "[same, Same]", "spn-01.vin_compared.options[1]", 'makes the id "same"'),
    ("meanwhile: [spn-03]", "meanwhile: [spn-33]", "spn-02.meanwhile[0]", "no step of this file"),
    ("meanwhile: [spn-11]", "meanwhile: [spn-12]", "spn-08.meanwhile[0]", '"spn-12", which needs spn-08'),
    ("invented: true", "invented: yes", "scenario.invented", '"yes"; allowed: true'),
    ("count: 4", "count: 5", "scenario.rivet_groups[0].positions", "4 positions; needed: 5"),
    ("P1 to P2", "H4 to H5", "scenario.rivet_groups[1].positions", "H4 a second time"),
    (
        "soak_min_minutes: 1.5",
        "soak_min_minutes: 1.51",
        "scenario.heat_settings.removal.soak_min_minutes",
        "whole number of seconds",
    ),
    (
        "workable_min_C: 125",
        "workable_min_C: 125.5",
        "scenario.heat_settings.removal.workable_min_C",
        "a whole number",
    ),
    ("min: -5.0", "min: 6.0", "spn-03.voltage.min", "min 6.0 above max 5.0"),
    ("plausible: [-900.0", "plausible: [-4.0", "spn-03.voltage.plausible", "wider than the limits"),
    (
        "title: Agree the repair",
        "titel: Agree",
        "spn-02.titel",
        "the unknown key `titel`; known keys: id, title",
    ),
    ("ask: lot", "ask: batch", "spn-07.cleaner.ask", "allowed: a kind of ask: tick, text"),
    ("bracket.svg", "other.svg", "scenario.drawings[0].file", "a file that is not there"),
    (
        "revision: demo-1",
        "revision: demo-1\n    revision: demo-2",
        "methods[0].revision",
        "the key a second time",
    ),
]


def faults_of(text: str) -> list[str]:
    with pytest.raises(MethodFileFault) as told:
        compile_methods(text, DRAWINGS)
    return [str(fault) for fault in told.value.faults]


@pytest.mark.parametrize(("right", "wrong", "field", "sentence"), CASES)
def test_a_fault_names_its_line_its_field_and_what_mends_it(
    right: str, wrong: str, field: str, sentence: str
) -> None:
    assert right in SPINE
    faults = faults_of(SPINE.replace(right, wrong, 1))
    assert [fault for fault in faults if f": {field}: found " in fault and sentence in fault], faults


def test_the_line_is_the_one_in_the_file() -> None:
    wrong = SPINE.replace("max: 0.30", "max: 0.305", 1)
    line = next(number for number, text in enumerate(wrong.splitlines(), 1) if "0.305" in text)
    sentence = "found 0.305, a limit with 3 decimals; allowed: 2, as the ask's `decimals` says"
    assert faults_of(wrong) == [f"line {line}: spn-07.gap.max: {sentence}"]


def test_all_faults_are_told_at_once_in_the_order_of_lines() -> None:
    wrong = SPINE
    for right, other in [
        ("max: 0.30", "max: 0.305"),
        ("unit: km, ", ""),
        ("of: cleaner", "of: glue"),
        ("[U1, U2]", "[U1, U9]"),
        ("needs: [spn-05]", "needs: [spn-55]"),
        ("ask: text, id: stays", "ask: txt, id: stays"),
    ]:
        wrong = wrong.replace(right, other, 1)
    faults = faults_of(wrong)
    assert len(faults) == 7, faults  # the pad is both unknown and missing
    lines = [int(fault.split(":")[0].removeprefix("line ")) for fault in faults]
    assert lines == sorted(lines)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("methods: [1\nb: 2", "line 2: file: found text that is not YAML"),
        ("", "line 1: file: found nothing"),
        ("- 1", "line 1: file: found a list"),
        ("scenario: &all {invented: true}\nmethods: []", "line 1: scenario: found the anchor &all"),
        ("scenario: !!python/object:os.system {}\nmethods: []", "line 1: scenario: found"),
        ("scenario: {invented: true}\nmethods: []", "line 2: methods: found an empty list"),
        ("[" * 5000, "more than 40 levels"),
        ("a: .nan", "a figure is finite"),
        ('scenario: {invented: true, part: "\\ud800"}\nmethods: []', "half surrogates"),
    ],
)
def test_what_is_no_method_file_is_told_in_a_sentence(text: str, sentence: str) -> None:
    assert any(sentence in fault for fault in faults_of(text)), faults_of(text)
