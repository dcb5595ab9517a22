"""Tables of rivet lengths in a method: a bad row with line, field and mend; gaps and overlaps as remarks."""

from __future__ import annotations

from pathlib import Path

import pytest

from bayleaf.method_files import Checked, MethodFileFault, check_methods

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
RIGHT = (SEED / "rear_frame.yaml").read_text("utf-8")
DRAWINGS = {path.name: path.read_bytes() for path in SEED.glob("*.svg")}
ROWS = """                      - {length: 10, grip: [4.5, 6.5], part: BR-48-10}
                      - {length: 12, grip: [6.5, 8.5], part: BR-48-12}
                      - {length: 14, grip: [8.5, 10.5], part: BR-48-14}
"""
FIRST = RIGHT[: RIGHT.index(ROWS)].count("\n") + 1
AT = "fit-10.grip.inputs.lengths"


def checked(*rows: str, also: str = "") -> Checked:
    written = "".join(f"                      - {row}\n" for row in rows)
    return check_methods(RIGHT.replace(ROWS, written + also), DRAWINGS)


def faults(*rows: str, also: str = "") -> list[str]:
    with pytest.raises(MethodFileFault) as found:
        checked(*rows, also=also)
    return [str(one) for one in found.value.faults]


@pytest.mark.parametrize(
    ("rows", "line", "field", "told"),
    [
        (
            ("{length: 10, grip: [6.5, 4.5]}",),
            0,
            "rows[0].grip[1]",
            "found 4.5 mm; needed: 6.5 mm, where this row begins, or more",
        ),
        (
            ("{length: 10, grip: [4.5, 6.5]}", "{length: 10, grip: [6.5, 8.5]}"),
            1,
            "rows[1].length",
            "found 10 mm twice; needed: each length once",
        ),
        (
            ("{length: 12, grip: [6.5, 8.5]}", "{length: 10, grip: [4.5, 6.5]}"),
            1,
            "rows[1].length",
            "found 10 mm after 12 mm; needed: the shorter rivet first",
        ),
        (
            ("{length: 10, grip: [4.5, 6.5]}", "{length: 12, grip: [4.0, 8.5]}"),
            1,
            "rows[1].grip[0]",
            "found 4.0 mm; needed: 4.5 mm or more, as the shorter rivet before it has",
        ),
        (
            ("{length: 10, grip: [4.5, 6.5]}", "{length: 12, grip: [5.0, 6.0]}"),
            1,
            "rows[1].grip[1]",
            "found 6.0 mm; needed: 6.5 mm or more, as the shorter rivet before it has",
        ),
        (
            ("{length: 10, grip: [4.5, 65]}",),
            0,
            "rows[0].grip[1]",
            "found 65 mm; needed: less than the rivet's own 10 mm: no rivet clamps all of its length",
        ),
        (
            ("{length: 10, grip: [4.5001, 6.5]}",),
            0,
            "rows[0]",
            "found 4.5001 mm; allowed: at most 3 decimals",
        ),
        (
            ("{length: ten, grip: [4.5, 6.5]}",),
            0,
            "rows[0].length",
            'found "ten"; allowed: the rivet\'s length in mm, above 0 and at most 200',
        ),
        (("{length: 10}",), 0, "rows[0]", "found no `grip`; needed: smallest and largest grip in mm"),
        (
            ("{length: 10, grip: [4.5]}",),
            0,
            "rows[0].grip",
            "found a list; allowed: smallest and largest grip in mm, such as [6.5, 8.5]",
        ),
    ],
)
def test_a_bad_row_is_told_with_its_line_its_field_and_its_mend(
    rows: tuple[str, ...], line: int, field: str, told: str
) -> None:
    (fault,) = faults(*rows)
    assert fault.startswith(f"line {FIRST + line}: {AT}.{field}: {told}")


def test_a_table_and_a_range_are_not_both_given() -> None:
    also = "                  grip_from: {value: 6.5, unit: mm}\n"
    (fault,) = faults("{length: 10, grip: [4.5, 6.5]}", also=also)
    assert fault == (
        f"line {FIRST + 1}: fit-10.grip.inputs.grip_from: found `grip_from` beside `lengths`; "
        "leave it out: the rows say it"
    )


def test_without_table_and_range_both_ways_are_named() -> None:
    start = RIGHT.index("                  lengths:\n")
    text = RIGHT[:start] + RIGHT[RIGHT.index(ROWS) + len(ROWS) :]
    with pytest.raises(MethodFileFault) as found:
        check_methods(text, DRAWINGS)
    told = [one.allowed for one in found.value.faults]
    assert told == ["needed: one of lengths, grip_from", "needed: one of lengths, grip_to"]


def test_a_figure_where_a_table_is_meant_and_the_other_way_round() -> None:
    figure = RIGHT.replace(
        f"lengths:\n                    unit: mm\n                    rows:\n{ROWS}",
        "lengths: {value: 12, unit: mm}\n",
    )
    table = RIGHT.replace(
        "foot_bed: {value: 3.0, unit: mm}", "foot_bed: {unit: mm, rows: [{length: 10, grip: [4, 6]}]}"
    )
    for text, told in (
        (figure, "found a fixed value; needed: a table, {unit: mm, rows: [{length: 12, grip: [6.5, 8.5]}]}"),
        (table, "found a table of rows; needed: a figure in mm"),
    ):
        with pytest.raises(MethodFileFault) as found:
            check_methods(text, DRAWINGS)
        assert [told in str(one) for one in found.value.faults] == [True]


def test_a_gap_and_an_overlap_are_no_faults_but_remarked() -> None:
    remarks = checked(
        "{length: 10, grip: [4.5, 6.5]}", "{length: 12, grip: [7.0, 9.0]}", "{length: 14, grip: [8.5, 10.5]}"
    ).remarks
    told = [str(one) for one in remarks if AT in one.field]
    overlap = "14 mm overlaps the row before; a grip within 8.5 to 9.0 mm asks which"
    assert told == [
        f"line {FIRST + 1}: {AT}.rows[1]: a gap before 12 mm; a grip within 6.5 to 7.0 mm finds no rivet",
        f"line {FIRST + 2}: {AT}.rows[2]: {overlap}",
    ]


def test_the_document_holds_the_rows_in_the_finest_decimals_of_the_table() -> None:
    fitting = checked(
        "{length: 10, grip: [4.5, 6.25], part: A 10}", "{length: 12.5, grip: [6.25, 8]}"
    ).methods[1]
    asks = [ask for stage in fitting.document["stages"] for step in stage["steps"] for ask in step["asks"]]
    (inputs,) = [ask["inputs"] for ask in asks if ask.get("computation") == "grip"]
    assert next(one for one in inputs if one["name"] == "lengths") == {
        "name": "lengths",
        "unit": "mm",
        "decimals": 2,
        "rows": [
            {"length": 1000, "low": 450, "high": 625, "part": "A 10"},
            {"length": 1250, "low": 625, "high": 800},
        ],
    }


def test_the_table_that_the_page_shows_is_one_that_the_check_takes() -> None:
    page = (SEED / "writing_a_method.md").read_text("utf-8")
    shown = page[page.index("                  lengths:\n") :]
    start, end = RIGHT.index("                  lengths:\n"), RIGHT.index(ROWS) + len(ROWS)
    text = RIGHT[:start] + shown[: shown.index("```")] + RIGHT[end:]
    told = [one.said for one in check_methods(text, DRAWINGS).remarks if AT in one.field]
    assert len(told) == 1
    assert f"    {told[0]}\n" in page
