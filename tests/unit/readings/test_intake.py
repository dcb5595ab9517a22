"""A file in the office: kept first, looked at, read in once; nothing of it is lost."""

from __future__ import annotations

import hashlib

import pytest

from harness.server import error_of
from unit.readings.shop import MAPPING, HotShop

PLAIN = b"s,a,b,m\n0,20.4,20.5,21\n60,131,128,140\nlate,1,1,1\n120,132,OL,141\n"
MINUTE_MS = 60_000


def test_a_file_becomes_an_entry_a_sensor_and_a_note_that_names_it(shop: HotShop) -> None:
    file = shop.kept(PLAIN)
    assert shop.take(file) == {"rows": 3, "next_row": 0, "readings": 8, "known": 0}
    assert shop.points() == {
        "a": [[0, 20], [MINUTE_MS, 131], [2 * MINUTE_MS, 132]],
        "b": [[0, 21], [MINUTE_MS, 128]],
        "m": [[0, 21], [MINUTE_MS, 140], [2 * MINUTE_MS, 141]],
    }
    readings = shop.entries("reading")
    assert {(one.body["run"], one.body["typed_time"], one.body["run_doubt"]) for one in readings} == {
        (shop.run, True, False)
    }
    assert {(one.by, one.as_) for one in readings} == {(shop.server.people["office"], ("office",))}
    (note,) = shop.entries("note")
    assert note.body["about"] == sorted(one.hash for one in readings)
    assert note.body["text"] == (
        "Readings of a logger\u2019s file: run.csv, logger Logger 7, "
        f"SHA-256 {hashlib.sha256(PLAIN).hexdigest()}. "
        "8 readings taken from 3 rows. 2 rows or cells could not be read, in lines 4, 5."
    )


def test_the_fold_counts_them_as_readings_of_the_run(shop: HotShop) -> None:
    shop.take(shop.kept(PLAIN))
    (run,) = shop.state()["runs"]
    assert {one["sensor"]: one["value"] for one in run["peaks"]} == {"a": 132, "b": 128, "m": 141}


def test_the_same_file_twice_adds_nothing(shop: HotShop) -> None:
    file = shop.kept(PLAIN)
    shop.take(file)
    before = (shop.points(), len(shop.entries("note")))
    assert shop.kept(PLAIN) == file
    assert shop.take(file) == {"rows": 3, "next_row": 0, "readings": 0, "known": 8}
    assert (shop.points(), len(shop.entries("note"))) == before


def test_a_longer_export_of_the_same_logger_adds_only_what_is_new(shop: HotShop) -> None:
    shop.take(shop.kept(PLAIN))
    longer = shop.kept(PLAIN + b"180,133,129,142\n")
    assert shop.take(longer) == {"rows": 4, "next_row": 0, "readings": 3, "known": 8}
    assert len(shop.entries("note")) == 2


def test_readings_that_were_struck_can_be_read_in_again(shop: HotShop) -> None:
    file = shop.kept(PLAIN)
    shop.take(file)
    for entry in shop.entries("reading"):
        shop.write("strike", {"target": entry.hash, "reason": "the wrong columns"})
    assert shop.take(file)["readings"] == 8


def test_a_long_file_is_taken_in_parts_and_goes_on_where_it_stopped(shop: HotShop) -> None:
    lines = "".join(f"{second},20,20,20\n" for second in range(4000))
    file = shop.kept(f"s,a,b,m\n{lines}".encode())
    first = shop.take(file)
    assert first == {"rows": 4000, "next_row": 3000, "readings": 9000, "known": 0}
    assert shop.entries("note") == []
    assert shop.take(file, from_row=3000) == {"rows": 4000, "next_row": 0, "readings": 3000, "known": 0}
    sizes = [len(one.body["points"]) for one in shop.entries("reading") if one.body["sensor"] == "a"]
    assert sorted(sizes) == [400, 600, 600, 600, 600, 600, 600]
    (note,) = shop.entries("note")
    assert len(note.body["about"]) == 21


def test_a_look_writes_nothing_and_lists_what_cannot_be_read(shop: HotShop) -> None:
    file = shop.kept(PLAIN)
    guessed = shop.look(file, logger="Logger 7")
    assert guessed["read"] is None
    assert guessed["headings"] == ["s", "a", "b", "m"]
    assert guessed["mapping"] == MAPPING | {"at_on": ""}
    looked = shop.look(file, mapping=MAPPING)
    assert looked["read"]["unread"] == [
        {"line": 4, "column": "", "found": "late", "reason": "no time"},
        {"line": 5, "column": "b", "found": "OL", "reason": "no figure"},
    ]
    assert (looked["read"]["rows"], looked["read"]["whole"], looked["read"]["last_ms"]) == (
        3,
        2,
        2 * MINUTE_MS,
    )
    assert looked["read"]["sensors"][0] == {"sensor": "a", "readings": 3, "low": 20, "high": 132}
    assert shop.entries("reading") == []


def test_the_columns_of_a_logger_are_remembered_by_its_name(shop: HotShop) -> None:
    swapped = [{"column": 1, "sensor": "b"}, {"column": 2, "sensor": "a"}]
    shop.take(shop.kept(PLAIN), sensors=swapped, unit="K", at_on="60")
    next_file = shop.kept(b"s,x,y\n0,400,401\n")
    again = shop.look(next_file, logger="Logger 7")
    assert again["remembered"] is True
    assert (again["mapping"]["sensors"], again["mapping"]["unit"], again["mapping"]["at_on"]) == (
        swapped,
        "K",
        "",
    )
    assert shop.look(next_file, logger="Logger 8")["remembered"] is False


def test_the_file_is_kept_and_listed_whatever_becomes_of_it(shop: HotShop) -> None:
    strange = b"no readings at all"
    file = shop.kept(strange)
    (row,) = shop.office.get(f"/api/jobs/{shop.job}/reading_files").get_json()["files"]
    assert (row["id"], row["bytes"], row["read_ms"]) == (file, len(strange), 0)
    assert shop.office.get(f"/api/reading_files/{file}").data == strange
    shop.server.clock.turn_s(1)
    shop.take(shop.kept(PLAIN))
    listed = shop.office.get(f"/api/jobs/{shop.job}/reading_files").get_json()
    assert (listed["files"][1]["taken"], listed["files"][1]["unread_total"]) == (8, 2)
    assert listed["loggers"] == ["Logger 7"]


@pytest.mark.parametrize(
    ("changed", "code", "field"),
    [
        ({"sensors": []}, "wrong_mapping", "sensors"),
        ({"logger": " "}, "wrong_mapping", "logger"),
        ({"sensors": [{"column": 1, "sensor": "z"}]}, "wrong_mapping", "sensors"),
        ({"sensors": [{"column": 0, "sensor": "a"}]}, "wrong_mapping", "time"),
        (
            {"sensors": [{"column": 1, "sensor": "a"}, {"column": 2, "sensor": "a"}]},
            "wrong_mapping",
            "sensors",
        ),
        ({"at_on": "noon"}, "wrong_time", "at_on"),
        ({"unit": "R"}, "broken_request", "mapping.unit"),
    ],
)
def test_a_mapping_that_cannot_be_is_refused_by_its_field(
    shop: HotShop, changed: dict[str, object], code: str, field: str
) -> None:
    file = shop.kept(PLAIN)
    answer = shop.office.post(f"/api/reading_files/{file}/take", json={"mapping": MAPPING | changed})
    assert (error_of(answer)[1], answer.get_json()["field"]) == (code, field)


def test_no_such_run_file_or_type_is_refused(shop: HotShop) -> None:
    assert error_of(shop.hand_in(PLAIN, run="ab" * 32)) == (404, "unknown_run")
    path = f"/api/jobs/{shop.job}/reading_files?name=run.csv&run={shop.run}"
    assert error_of(shop.office.post(path, data=PLAIN, content_type="application/json")) == (
        415,
        "wrong_type",
    )
    nothing = "00000000-0000-4000-8000-000000000000"
    assert error_of(shop.office.get(f"/api/reading_files/{nothing}")) == (404, "not_found")
    no_text = shop.kept(b"\0\0\0\0")
    assert error_of(shop.office.post(f"/api/reading_files/{no_text}/look", json={})) == (422, "not_a_table")


def test_a_struck_run_takes_no_readings(shop: HotShop) -> None:
    file = shop.kept(PLAIN)
    shop.write("strike", {"target": shop.run, "reason": "never switched on"})
    answer = shop.office.post(f"/api/reading_files/{file}/take", json={"mapping": MAPPING})
    assert error_of(answer) == (404, "unknown_run")
