"""A grip before rows of lengths: the published cases, the command's own rule, and what always holds."""

from __future__ import annotations

import json
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bayleaf.domain.asks import RivetRow
from bayleaf.fastening.grip import Grip, LengthChoice, lengths_for
from bayleaf.fastening.refusal import Refused
from bayleaf.fastening.rivet_rows import RivetRow as CommandRow
from bayleaf.step_computations import Answer, Question, answer
from bayleaf.step_computations.inputs import Input, Points, Quantity, RivetTable
from bayleaf.step_computations.question import Group

CASES: dict[str, dict[str, Any]] = {
    one["id"]: one
    for one in json.loads(
        (Path(__file__).parents[2] / "reference" / "fastening_cases.json").read_text("utf-8")
    )["cases"]
}
OF_ROWS = [name for name, one in CASES.items() if name.startswith("grip") and "table" in one["inputs"]]


def hundredths(mm: float) -> int:
    return int(Decimal(str(mm)).scaleb(2))


def asked(low: int, high: int, rows: tuple[RivetRow, ...]) -> Answer:
    """A grip between two thicknesses in hundredths: two gaps over nothing else."""
    inputs: dict[str, Input] = {
        "laminate": Points((("post", low),), "mm", 2),
        "bondline": Points((("a", 0), ("b", high - low)), "mm", 2),
        "flange": Quantity(0, "mm", 2),
        "lengths": RivetTable(rows, "mm", 2),
    }
    return answer(Question("grip", inputs, groups=(Group("post", ("P1",)),)))


def figures(found: Answer) -> dict[str, int]:
    return {one.name: one.value for one in found.values}


def grip_of(inputs: dict[str, Any]) -> tuple[int, int]:
    if "stack_up_mm" in inputs:
        thick = sum(hundredths(layer["thickness_mm"]) for layer in inputs["stack_up_mm"])
        return thick, thick
    if "grip_mm" in inputs:
        return hundredths(inputs["grip_mm"]), hundredths(inputs["grip_mm"])
    return hundredths(inputs["grip_low_mm"]), hundredths(inputs["grip_high_mm"])


def rows_of(table: str) -> tuple[RivetRow, ...]:
    return tuple(
        RivetRow(hundredths(row["length_mm"]), hundredths(row["grip_min_mm"]), hundredths(row["grip_max_mm"]))
        for row in CASES[table]["expected"]["rows"]
    )


@pytest.mark.parametrize("name", OF_ROWS)
def test_the_card_finds_the_length_of_the_published_case(name: str) -> None:
    """ISO 15981:2002, clause 3; whole-interval rule: common practice. Each case names its own source."""
    case = CASES[name]
    expected, low_high = case["expected"], grip_of(case["inputs"])
    found = asked(*low_high, rows_of(case["inputs"]["table"]))
    codes = [line.code for line in found.lines]
    if expected.get("refused"):
        assert (found.verdict, codes) == ("outside", ["length_no_fit"])
        ends = [one.value for one in found.lines[0].values]
        assert ends == [hundredths(one) for one in expected["allowed_range_mm"]]
    elif expected.get("needs_measuring"):
        assert (found.verdict, codes) == ("outside", ["length_spans"])
    elif expected.get("on_border"):
        assert (found.verdict, codes) == ("inside", ["length_border"])
        offered = [one.value for one in found.lines[0].values if one.name.startswith("length_")]
        assert offered == [hundredths(one) for one in expected["lengths_that_fit_mm"]]
    else:
        (length,) = expected["lengths_that_fit_mm"]
        assert (found.verdict, codes) == ("inside", [])
        assert figures(found)["length_post"] == hundredths(length)


def test_there_are_cases_of_every_kind() -> None:
    told = [CASES[name]["expected"] for name in OF_ROWS]
    assert len(told) == 15
    for kind in ("refused", "needs_measuring", "on_border"):
        assert any(one.get(kind) for one in told), kind


tables = st.lists(
    st.tuples(st.integers(1, 60), st.integers(0, 400), st.integers(0, 400)), min_size=1, max_size=6
).map(
    lambda drawn: tuple(
        RivetRow(length * 100, min(one, other), max(one, other)) for length, one, other in drawn
    )
)


@given(tables, st.integers(0, 450), st.integers(0, 60))
def test_the_card_and_the_command_say_the_same_of_any_rows(
    rows: tuple[RivetRow, ...], low: int, wide: int
) -> None:
    high = low + 2 * wide  # so that the mean is a whole hundredth
    found = asked(low, high, rows)
    told = commanded(rows, low, high)
    codes = [line.code for line in found.lines]
    if told is None:
        assert codes == ["length_no_fit"]
    elif told.needs_measuring:
        assert codes == ["length_spans"]
    elif told.on_border:
        assert codes == ["length_border"]
    elif len(told.lengths_mm) > 1:
        assert codes == ["length_several"]
    else:
        assert codes == []
        assert figures(found)["length_post"] == hundredths(told.lengths_mm[0])


def commanded(rows: tuple[RivetRow, ...], low: int, high: int) -> LengthChoice | None:
    """The same question to the command's own package; None where it refuses."""
    written = [CommandRow(row.length / 100, row.low / 100, row.high / 100) for row in rows]
    try:
        return lengths_for(Grip((low + high) / 200, low / 100, high / 100), written)
    except Refused:
        return None


@given(st.integers(450, 1050), st.integers(0, 300))
def test_a_thicker_grip_never_gets_a_shorter_rivet(grip: int, more: int) -> None:
    rows = (RivetRow(1000, 450, 650), RivetRow(1200, 650, 850), RivetRow(1400, 850, 1050))
    thin, thick = figures(asked(grip, grip, rows)), figures(asked(grip + more, grip + more, rows))
    if "length_post" in thin and "length_post" in thick:
        assert thin["length_post"] <= thick["length_post"]


@pytest.mark.parametrize(
    ("low", "high", "code"),
    [
        (651, 849, ""),
        (650, 849, ""),  # the thinnest on the row's end is good
        (651, 850, ""),  # and so is the thickest
        (649, 849, "length_spans"),
        (651, 851, "length_spans"),
        (650, 650, "length_border"),
        (850, 850, "length_border"),
        (1051, 1051, "length_no_fit"),
        (449, 449, "length_no_fit"),
        (1049, 1051, "length_spans"),  # part of it lies in no row
    ],
)
def test_limits_are_included_to_the_hundredth(low: int, high: int, code: str) -> None:
    rows = (RivetRow(1000, 450, 650), RivetRow(1200, 650, 850), RivetRow(1400, 850, 1050))
    assert [line.code for line in asked(low, high, rows).lines] == [one for one in (code,) if one]
