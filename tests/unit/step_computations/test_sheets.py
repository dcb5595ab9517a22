"""Suppliers' sheets on the card: their figures in the place of the method's, the same on both sides."""

from __future__ import annotations

import json
import subprocess
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bayleaf.domain.asks import ComputeAsk, ComputeInput, RivetRow
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc
from bayleaf.step_computations import Gathered, Record, answer, gather
from bayleaf.step_computations.inputs import RivetTable
from bayleaf.step_computations.sheets import FACTS, FIGURES, RANGE, TABLES, TAKES, MaterialSheet, SheetValue
from harness.node import NODE_ENV, node_binary
from harness.played import frame_documents, frame_methods, played_fitting
from harness.twin import on_the_phone

WEB = Path(__file__).parents[3] / "web"
JOB = played_fitting()


def sheet(
    material: str, group: str, *values: tuple[str, int, str, int], table: RivetTable | None = None
) -> MaterialSheet:
    figures = tuple(SheetValue(name, value, value, value, unit, at) for name, value, unit, at in values)
    digest = (material[0] * 64).replace("r", "e")
    words = ("Invented", "A sheet", "B", "2026-02-01")
    return MaterialSheet(digest, group, material, *words, figures, table)


PASTE = sheet(
    "adhesive",
    "adhesives",
    ("open_time", 40, "min", 0),
    ("open_time_at", 20, "C", 0),
    ("handling_time", 200, "h", 1),
    ("full_cure", 120, "h", 0),
    ("cure_at", 20, "C", 0),
    ("cartridge", 400, "mL", 0),
    ("left_in_mixer", 12, "mL", 0),
)
RIVET = sheet(
    "rivets",
    "rivets",
    ("grip_from", 600, "mm", 2),
    ("grip_to", 700, "mm", 2),
    ("hole_min", 49, "mm", 1),
    ("hole_max", 50, "mm", 1),
)
BIT = sheet("carbide_bit", "bits", ("holes_per_bit", 20, "pcs", 0))
SHEETS = (PASTE, RIVET, BIT)


def asked(step: str, ask: str, sheets: tuple[MaterialSheet, ...] = SHEETS) -> tuple[Entry, Gathered]:
    """What stands before the result was recorded, and the question that it answers."""
    at = next(
        index
        for index, one in enumerate(JOB.entries)
        if one.kind == "result" and (one.body["step"], one.body["ask"]) == (step, ask)
    )
    before = JOB.entries[:at]
    return JOB.entries[at], gathered(before, JOB.entries[at], sheets)


def gathered(before: tuple[Entry, ...], result: Entry, sheets: tuple[MaterialSheet, ...]) -> Gathered:
    return gather(record_of(before, sheets), *asked_by(result), result.at_ms)


def record_of(before: tuple[Entry, ...], sheets: tuple[MaterialSheet, ...]) -> Record:
    methods = frame_methods()
    return Record(fold(methods, before), {one.hash: one for one in before}, tuple(methods.values()), sheets)


def asked_by(result: Entry) -> tuple[MethodDoc, ComputeAsk]:
    method = next(one for one in frame_methods().values() if one.id == result.body["method"])
    step = method.step(result.body["step"])
    ask = step.ask(result.body["ask"]) if step is not None else None
    assert isinstance(ask, ComputeAsk)
    return method, ask


def figure(name: str, found: Gathered) -> int:
    return next(one.value for one in answer(found.question).values if one.name == name)


@pytest.mark.parametrize(
    ("step", "ask", "name", "expected"),
    [
        # 40 min at 20 C; the cartridges are at 22.5 C: 40 / 2^0.25 = 33.6 min, whole minutes.
        ("fit-18", "open_time", "open_time", 33),
        # 49.6 mL of bead out of one cartridge of 400 mL less 12 mL in the mixer: 338.4 mL are left.
        ("fit-17", "bead", "left_over", 3384),
        ("rem-39", "decision", "hole_to", 500),
        # The second bit did 11 holes of the sheet's 20; by the method's 11 it would be done.
        ("fit-08", "bits", "last_bit_left", 9),
    ],
)
def test_a_figure_of_the_sheet_stands_in_the_place_of_the_methods(
    step: str, ask: str, name: str, expected: int
) -> None:
    _, found = asked(step, ask)
    assert figure(name, found) == expected
    assert found.tables == ({"rem-39": RIVET, "fit-08": BIT}.get(step, PASTE).digest,)


ROWS = RivetTable((RivetRow(110, 50, 70, "R 11"), RivetRow(130, 70, 88), RivetRow(150, 88, 106)), "mm", 1)
LENGTHS = sheet("rivets", "rivets", table=ROWS)


def test_the_rows_of_the_sheet_stand_in_the_place_of_the_methods() -> None:
    """7.3 to 7.5 mm at header and post: 12 mm by the method's rows, 13 mm by the sheet's 7.0 to 8.8."""
    recorded, found = asked("fit-10", "grip", (LENGTHS,))
    method = {one["name"]: one["value"] for one in recorded.body["values"]}
    assert (method["length_header"], method["length_foot"]) == (120, 140)
    assert (figure("length_header", found), figure("length_post", found)) == (130, 130)
    assert found.tables == (LENGTHS.digest,)


def test_the_rows_of_the_sheet_also_stand_in_the_place_of_one_range_of_the_method() -> None:
    at = next(one for one in JOB.entries if one.kind == "result" and one.body["ask"] == "grip")
    ends = tuple(ComputeInput(name, value=value, unit="mm", decimals=1) for name, value in RANGES.items())
    found = gathered_with(at, (LENGTHS,), ends)
    assert figure("length_header", found) == 130
    assert not set(RANGES) & set(found.question.inputs)
    held = gathered_with(at, (), ends)
    assert answer(held.question).verdict == "outside"  # the foot's 9 mm are over the one rivet's 8.5
    assert "lengths" not in held.question.inputs


RANGES = {"grip_from": 65, "grip_to": 85}


def gathered_with(
    result: Entry, sheets: tuple[MaterialSheet, ...], instead: tuple[ComputeInput, ...]
) -> Gathered:
    """The question of a method that says other inputs in the place of its rows."""
    method, ask = asked_by(result)
    others = tuple(one for one in ask.inputs if one.name != "lengths")
    before = JOB.entries[: JOB.entries.index(result)]
    return gather(record_of(before, sheets), method, replace(ask, inputs=(*others, *instead)))


def test_a_grip_beyond_the_sheet_is_outside_though_the_method_would_hold_it() -> None:
    """7.35 mm of grip: 12 mm by the method's rows, and the sheet's one rivet takes 6 to 7 mm."""
    recorded, found = asked("fit-10", "grip")
    assert recorded.body["verdict"] == "inside"
    assert answer(found.question).verdict == "outside"


def test_without_a_sheet_nothing_is_named() -> None:
    _, found = asked("fit-18", "open_time", ())
    assert found.tables == ()
    assert figure("open_time", found) == 35


def test_a_sheet_in_another_unit_is_left_alone() -> None:
    odd = sheet("adhesive", "adhesives", ("open_time", 2, "h", 0), ("open_time_at", 20, "C", 0))
    _, found = asked("fit-18", "open_time", (odd,))
    assert figure("open_time", found) == 29  # the method's 35 min, at the sheet's 20 C: 35 / 2^0.25 = 29.4


def test_the_phone_takes_the_rows_of_a_sheet_as_the_server_does(tmp_path: Path) -> None:
    told = on_the_phone(frame_documents(), JOB.entries, tmp_path, (LENGTHS,))["results"]
    recorded, found = asked("fit-10", "grip", (LENGTHS,))
    mine = told[recorded.hash]
    assert mine["tables"] == list(found.tables)
    assert {one["name"]: one["value"] for one in mine["values"]} == {
        one.name: one.value for one in answer(found.question).values
    }


def test_the_phone_works_every_result_out_from_the_sheets_as_the_server_does(tmp_path: Path) -> None:
    told = on_the_phone(frame_documents(), JOB.entries, tmp_path, SHEETS)["results"]
    used = [one for one in JOB.entries if one.kind == "result" and told[one.hash]["tables"]]
    assert len(used) == 9
    for entry in used:
        _, found = asked(entry.body["step"], entry.body["ask"])
        theirs = answer(found.question)
        mine = told[entry.hash]
        assert mine["tables"] == list(found.tables)
        assert mine["inputs"] == list(found.hashes)
        assert [(one["name"], one["value"]) for one in mine["values"]] == [
            (one.name, one.value) for one in theirs.values
        ]
        assert mine["verdict"] == theirs.verdict


def test_both_sides_take_the_same_figures_by_the_same_names(tmp_path: Path) -> None:
    runner = tmp_path / "books.mts"
    module = (WEB / "src" / "core" / "computations" / "sheets.ts").as_uri()
    runner.write_text(
        f"import {{ FACTS, RANGE, TABLES, TAKES }} from '{module}'\n"
        "console.log(JSON.stringify([TAKES, FACTS, TABLES, RANGE]))\n",
        encoding="utf-8",
    )
    tables = {name: list(pair) for name, pair in TABLES.items()}
    assert json.loads(run_node(runner)) == [as_lists(TAKES), as_lists(FACTS), tables, list(RANGE)]


def test_every_figure_that_is_taken_may_be_entered() -> None:
    known = {figure.name for figures in FIGURES.values() for figure in figures}
    for book in (TAKES, FACTS):
        for taken in book.values():
            assert {figure for _, figure in taken.values()} <= known


def as_lists(book: Any) -> Any:
    return {name: {key: list(pair) for key, pair in taken.items()} for name, taken in book.items()}


def run_node(script: Path) -> str:
    command = [str(node_binary()), str(script)]
    return subprocess.run(command, capture_output=True, text=True, env=NODE_ENV, check=True).stdout
