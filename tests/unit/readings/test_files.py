"""Files of loggers as they come: separators, commas, clocks and units; what cannot be read is listed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bayleaf.usecases.readings_guess import guess
from bayleaf.usecases.readings_mapping import ColumnMap, SensorColumn, map_json, map_of
from bayleaf.usecases.readings_rows import Rows, in_scale, rows_of
from bayleaf.usecases.readings_table import table_of, text_of
from bayleaf.usecases.refusal import Refusal

SENSORS = ("a", "b", "m")
PLAIN = "s,a,b,m\n0,20.4,20.5,21\n60,31.6,28.0,40\n"
COMMAS = (
    "Logger 7;;;\nDatum;Uhrzeit;Kanal a (\u00b0C);Kanal b (\u00b0C);Kanal m (\u00b0C)\n"
    "24.03.2026;10:02:00;20,4;20,5;21,0\n"
)
MAP = ColumnMap(
    logger="Logger 7", separator=",", decimal=".", first_line=2, time=0, date=-1, time_form="seconds",
    day_order="ymd", unit="C", at_on="0",
    sensors=(SensorColumn(1, "a"), SensorColumn(2, "b"), SensorColumn(3, "m")),
)  # fmt: skip


def read(text: str, **changed: object) -> Rows:
    mapping = replace(MAP, **changed)  # type: ignore[arg-type]
    return rows_of(table_of(text, mapping.separator), mapping, 0)


def moments(rows: Rows) -> list[tuple[int, dict[str, int]]]:
    return [(row.run_ms, dict(row.readings)) for row in rows.rows]


def test_seconds_and_degrees_become_whole_degrees_on_the_runs_clock() -> None:
    found = moments(read(PLAIN))
    assert found == [(0, {"a": 20, "b": 21, "m": 21}), (60_000, {"a": 32, "b": 28, "m": 40})]


def test_a_file_of_another_country_is_guessed_whole() -> None:
    table = table_of(text_of(COMMAS.encode("cp1252")))
    found = guess(table, SENSORS)
    assert (found.separator, found.decimal, found.first_line) == (";", ",", 3)
    assert (found.date, found.time, found.time_form, found.day_order, found.unit) == (
        0,
        1,
        "clock",
        "dmy",
        "C",
    )
    assert [(one.column, one.sensor) for one in found.sensors] == [(2, "a"), (3, "b"), (4, "m")]
    rows = rows_of(table, replace(found, at_on="10:00"), 1)
    assert moments(rows) == [(120_000, {"a": 204, "b": 205, "m": 210})]


@pytest.mark.parametrize(
    ("encoding", "begins"), [("utf-8", b""), ("utf-8-sig", b"\xef\xbb\xbf"), ("utf-16", b""), ("cp1252", b"")]
)
def test_every_usual_encoding_reads_alike(encoding: str, begins: bytes) -> None:
    content = COMMAS.encode(encoding)
    assert content.startswith(begins)
    assert guess(table_of(text_of(content)), SENSORS).sensors[0] == SensorColumn(2, "a")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("time;a\n1;2\n2;3\n", ";"),
        ("time\ta\n1\t2,5\n", "\t"),
        ("time,a\n1,2\n", ","),
        ("time|a\n1|2\n", "|"),
        ("zeit;a;b\n1,0;2,5;3,5\n2,0;2,6;3,6\n", ";"),
    ],
)
def test_the_separator_is_the_one_that_lines_agree_on(text: str, expected: str) -> None:
    assert table_of(text).separator == expected


@pytest.mark.parametrize(
    ("heading", "first", "form"),
    [
        ("Time (min)", "0.5", "minutes"),
        ("elapsed", "30", "seconds"),
        ("Time", "10:02", "clock"),
        ("Time", "2026-03-24T10:02:00Z", "clock"),
        ("Time", "03/24/2026 10:02:00 AM", "clock"),
    ],
)
def test_the_time_column_says_its_form(heading: str, first: str, form: str) -> None:
    assert guess(table_of(f"{heading},a\n{first},20\n"), SENSORS).time_form == form


@pytest.mark.parametrize(
    ("days", "order"),
    [(["24.03.2026"], "dmy"), (["03/24/2026"], "mdy"), (["2026-03-24"], "ymd"), (["04.03.2026"], "dmy")],
)
def test_the_order_of_a_day_is_seen_where_it_can_be_seen(days: list[str], order: str) -> None:
    text = "time;a\n" + "".join(f"{day} 10:00:00;20\n" for day in days)
    assert guess(table_of(text), SENSORS).day_order == order


def test_a_heading_names_a_sensor_only_by_a_word_of_its_own() -> None:
    headings = "t,Sensor A [F],area,T_b,metal (m)"
    found = guess(table_of(f"{headings}\n0,68,1,68,68\n"), SENSORS)
    assert [(one.column, one.sensor) for one in found.sensors] == [(1, "a"), (3, "b"), (4, "m")]
    assert found.unit == "F"


def test_the_time_at_switch_on_moves_every_row_and_what_came_before_is_left_out() -> None:
    text = "time,a,b,m\n09:58:00,20,20,20\n10:02:30,30,30,30\n"
    found = read(text, time_form="clock", at_on="10:00")
    assert moments(found) == [(150_000, {"a": 30, "b": 30, "m": 30})]
    assert found.before_on == 1


def test_a_clock_without_a_day_goes_on_over_midnight() -> None:
    text = "time,a,b,m\n23:59:00,20,20,20\n00:01:00,30,30,30\n"
    found = read(text, time_form="clock", at_on="23:58:00")
    assert [row.run_ms for row in found.rows] == [60_000, 180_000]


def test_a_switch_on_before_midnight_of_a_file_without_days_is_the_evening_before() -> None:
    found = read("time,a,b,m\n00:01:00,30,30,30\n", time_form="clock", at_on="23:58")
    assert [row.run_ms for row in found.rows] == [180_000]


def test_a_switch_on_before_midnight_of_a_file_that_begins_after_it_needs_the_day() -> None:
    text = "time,a,b,m\n2026-03-25 00:01:00,30,30,30\n"
    found = read(text, time_form="clock", at_on="2026-03-24 23:58:00")
    assert [row.run_ms for row in found.rows] == [180_000]


def test_bad_rows_and_cells_are_listed_with_line_and_reason_and_the_others_are_taken() -> None:
    text = "s,a,b,m\n0,20,20,20\nlater,21,21,21\n60,OL,22,22\n120,23,9999,23\n120,24,24,24\n180,,25,25\n"
    found = read(text)
    told = [(one.line, one.column, one.found, one.reason) for one in found.unread]
    assert told == [
        (3, "", "later", "no time"),
        (4, "a", "OL", "no figure"),
        (5, "b", "9999", "9999 C, believable are -50 to 700"),
        (6, "a", "", "a second value for this moment, the first stands in line 5"),
        (6, "m", "", "a second value for this moment, the first stands in line 5"),
    ]
    assert found.blank == 1
    assert moments(found) == [
        (0, {"a": 20, "b": 20, "m": 20}),
        (60_000, {"b": 22, "m": 22}),
        (120_000, {"a": 23, "m": 23}),
        (120_000, {"b": 24}),
        (180_000, {"b": 25, "m": 25}),
    ]


@pytest.mark.parametrize("words", ["", "noon", "10:61"])
def test_an_unreadable_time_at_switch_on_is_refused_by_name(words: str) -> None:
    with pytest.raises(Refusal) as refused:
        read("time,a,b,m\n10:00:00,20,20,20\n", time_form="clock", at_on=words)
    assert (refused.value.code, refused.value.field) == ("wrong_time", "at_on")


@pytest.mark.parametrize(
    ("figure", "unit", "decimals", "value"),
    [
        ("20.5", "C", 0, 21), ("-0.5", "C", 0, -1), ("20.44", "C", 1, 204), ("212", "F", 0, 100),
        ("-40", "F", 0, -40), ("373.15", "K", 1, 1000), ("1e2", "C", 0, 100),
    ],
)  # fmt: skip
def test_units_become_celsius_and_halves_go_away_from_zero(
    figure: str, unit: str, decimals: int, value: int
) -> None:
    assert in_scale(figure, unit, decimals) == value


@pytest.mark.parametrize("figure", ["nan", "inf", "", "12,5", "0x1F", "--"])
def test_what_is_no_figure_is_none(figure: str) -> None:
    assert in_scale(figure, "C", 0) == "no figure"


@pytest.mark.parametrize("content", [b"\0\1\2", b"", b"\n\n  \n", b"\xff\xfe\x00"])
def test_what_is_no_text_or_has_no_line_is_refused(content: bytes) -> None:
    with pytest.raises(Refusal) as refused:
        table_of(text_of(content))
    assert refused.value.code == "not_a_table"


def test_what_was_said_of_a_logger_is_said_again_for_its_next_file() -> None:
    known = replace(MAP, separator=";", decimal=",", unit="F", sensors=(SensorColumn(3, "a"),))
    found = guess(table_of("x;y;z;w\n1;2;3;4\n"), SENSORS, known)
    assert (found.unit, found.decimal, found.sensors, found.at_on) == ("F", ",", (SensorColumn(3, "a"),), "")
    too_narrow = guess(table_of("s;a\n1;2\n"), SENSORS, known)
    assert too_narrow.sensors == (SensorColumn(1, "a"),)


def test_a_mapping_comes_back_from_its_json_as_it_was() -> None:
    assert map_of(map_json(MAP)) == MAP
