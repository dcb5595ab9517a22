"""The chapters: steps and their values, photos, lots, instruments, people, the record."""

from __future__ import annotations

from typing import Any

from bayleaf.report.contents import contents_of
from bayleaf.report.said import result_words
from bayleaf.report.source import Arrival
from unit.report.jobs import countersign, heat, measure, rivets, well
from unit.report.made_up import Log, at


def report_of(log: Log) -> dict[str, Any]:
    found: dict[str, Any] = contents_of(log.source(filed="9 10:00"))["report"]
    return found


def step_of(log: Log, step_id: str) -> dict[str, Any]:
    steps = [step for stage in report_of(log)["stages"] for step in stage["steps"]]
    return next(step for step in steps if step["id"] == step_id)


def opened() -> Log:
    log = Log()
    log.open()
    return log


def test_a_step_says_who_did_it_when_on_which_device_and_how_that_person_was_known() -> None:
    step = step_of(well(), "two")
    assert step["standing"] == "Done 2026-11-03 09:25 by Mara Ilves; hold point passed"
    assert step["by"] == "Mara Ilves, own phone, phone 1; Oskar Teal, by PIN, phone 2"
    assert step["rows"] == [
        {
            "name": "Gap", "value": "G1\u00a00.9, G2\u00a01.7\u00a0mm", "limits": "0.8 to 1.8\u00a0mm",
            "by": "Mara Ilves, 09:11", "mark": "", "note": "",
        },
        {
            "name": "Bow", "value": "0.31\u00a0mm", "limits": "at most 0.50\u00a0mm",
            "by": "Mara Ilves, 09:12", "mark": "", "note": "",
        },
        {
            "name": "Seen", "value": "countersigned, by PIN", "limits": "of second person, at the car",
            "by": "Oskar Teal, 09:20", "mark": "", "note": "",
        },
    ]  # fmt: skip


def test_a_photo_slot_names_the_number_under_which_its_photo_stands() -> None:
    report = report_of(well())
    assert step_of(well(), "one")["rows"][2]["value"] == "Photo 1"
    (photo,) = report["photos"]
    assert (photo["number"], photo["step"], photo["slot"]) == (1, "1 one", "Damage")
    assert (photo["who"], photo["when"], photo["device"]) == ("Pim Roe", "2026-11-03 09:02", "phone 4")
    assert len(photo["hash"]) == 12


def test_a_replaced_and_a_struck_value_stay_readable_with_who_and_why() -> None:
    log = opened()
    first = log.read("mara", "3 09:10", "two", "bow", 90, decimals=2)
    second = log.read("mara", "3 09:30", "two", "bow", 31, over=(first,), decimals=2)
    log.write("mara", "3 09:40", "strike", {"target": second, "reason": "wrong flange"})
    log.read("mara", "3 09:50", "two", "bow", 33, over=(second,), decimals=2)
    rows = step_of(log, "two")["rows"]
    told = [(row["value"], row["mark"], row["note"]) for row in rows if row["name"] == "Bow"]
    assert told == [
        ("0.33\u00a0mm", "", ""),
        ("0.90\u00a0mm", "struck", "replaced by Mara Ilves, 2026-11-03 09:50"),
        (
            "0.31\u00a0mm",
            "struck",
            "struck by Mara Ilves, 2026-11-03 09:40: wrong flange; replaced by Mara Ilves, 2026-11-03 09:50",
        ),
    ]


def test_a_value_stands_again_once_its_correction_is_struck() -> None:
    log = opened()
    first = log.read("mara", "3 09:10", "two", "bow", 90, decimals=2)
    second = log.read("mara", "3 09:30", "two", "bow", 31, over=(first,), decimals=2)
    log.write("mara", "3 09:40", "strike", {"target": second, "reason": "wrong flange"})
    rows = [row for row in step_of(log, "two")["rows"] if row["name"] == "Bow"]
    assert [(row["value"], row["mark"]) for row in rows] == [
        ("0.90\u00a0mm", "outside"),
        ("0.31\u00a0mm", "struck"),
    ]


def test_what_reached_the_office_late_is_marked_with_both_times() -> None:
    log = opened()
    log.tick("mara", "3 09:05", "one", came="3 17:30")
    (line,) = step_of(log, "one")["lines"]
    assert (
        line["text"] == "Ticked done: Mara Ilves, 2026-11-03 09:05; late: reached the office 2026-11-03 17:30"
    )


def test_a_day_offline_is_told_once_a_step_and_not_under_each_value() -> None:
    log = opened()
    for minute, value in ((10, 90), (20, 31), (30, 33)):
        log.read("mara", f"3 09:{minute}", "two", "bow", value, decimals=2, came="3 17:30")
    log.read("mara", "3 09:40", "two", "bow", 34, decimals=2, came="3 18:00")
    step = step_of(log, "two")
    assert [line["text"] for line in step["lines"]] == [
        "Late: reached the office 2026-11-03 17:30: three values."
    ]
    late = [row["note"] for row in step["rows"] if "late: reached" in row["note"]]
    assert len(late) == 1
    assert "late: reached the office 2026-11-03 18:00" in late[0]


def test_readings_of_several_points_stand_in_one_line_though_one_came_late() -> None:
    log = opened()
    log.read("mara", "3 09:10", "two", "gap", 9, point="g1", came="3 09:22")
    log.read("mara", "3 09:15", "two", "gap", 17, point="g2", came="3 09:22")  # in time
    log.tick("mara", "3 09:11", "two", came="3 09:22")
    step = step_of(log, "two")
    (row,) = [row for row in step["rows"] if row["name"] == "Gap"]
    assert (row["value"], row["note"]) == ("G1\u00a00.9, G2\u00a01.7\u00a0mm", "")
    assert [line["text"] for line in step["lines"]] == [
        "Late: reached the office 2026-11-03 09:22: one value and the tick."
    ]


def test_two_answers_both_stay_and_the_contradiction_is_told() -> None:
    log = opened()
    for who, when, option in (("mara", "3 09:00", "same"), ("oskar", "3 09:09", "different")):
        body = {**log.step("one"), "ask": "compared", "point": "", "option": option, "over": []}
        log.write(who, when, "choice", body)
    rows = [row for row in step_of(log, "one")["rows"] if row["name"] == "VIN against the card"]
    assert [(row["value"], row["mark"]) for row in rows] == [("different", "outside"), ("same", "extra")]
    said = [text for issue in report_of(log)["issues"] for text in issue["what"]]
    assert (
        "two values stand: VIN against the card, \u201csame\u201d by Mara Ilves, 2026-11-03 09:00 "
        "and \u201cdifferent\u201d by Oskar Teal, 2026-11-03 09:09"
    ) in said


def test_a_countersign_by_the_writer_of_a_value_is_void_and_says_why() -> None:
    log = opened()
    saw = measure(log)
    log.write("mara", "3 09:20", "countersign", {**log.step("two"), "ask": "seen", "saw": sorted(saw)})
    row = step_of(log, "two")["rows"][2]
    assert (row["mark"], row["note"]) == ("void", "does not count: its writer wrote one of the values")


def test_a_step_done_before_its_hold_point_says_so() -> None:
    log = opened()
    saw = measure(log)
    rivets(log)
    countersign(log, saw, "3 11:30")
    log.tick("mara", "3 11:31", "two")
    lines = [line["text"] for line in step_of(log, "three")["lines"]]
    assert lines == ["Done, by the clocks, before hold point 2 two."]


def test_a_switch_on_before_the_sign_of_its_hold_point_says_so_there_and_on_the_first_page() -> None:
    log = opened()
    saw = measure(log)
    on = heat(log)
    countersign(log, saw, "3 11:04")
    log.tick("mara", "3 11:05", "two")
    assert "Switched on 2026-11-03 11:00, by the clocks, before hold point 2 two." in [
        line["text"] for line in step_of(log, "four")["lines"]
    ]
    assert "1 of 1 hold points passed, one act before a hold point" in report_of(log)["done"]
    log.arrivals[on] = Arrival(at("3 11:20"), 10 * 60_000)  # her clock was ten minutes slow
    assert step_of(log, "four")["lines"] == []


def test_lots_stand_with_expiry_and_step_and_an_expired_one_says_so() -> None:
    log = opened()
    body = {
        **log.step("three"),
        "ask": "cleaner",
        "material": "cleaner",
        "lot": "OLD-1",
        "expires_ms": at("1 00:00"),
    }
    log.write("mara", "3 10:05", "lot", body)
    (lot,) = report_of(log)["lots"]
    assert (lot["material"], lot["lot"], lot["expiry"], lot["step"]) == (
        "Flange cleaner", "OLD-1", "2026-11-01", "3 three",
    )  # fmt: skip
    assert lot["marks"] == ["expired when recorded"]


def test_texts_that_ask_for_an_instrument_are_gathered() -> None:
    (row,) = report_of(well())["instruments"]
    assert row == {
        "step": "1 one",
        "name": "Logger number and calibration due",
        "value": "LG-4, due 2027-03",
        "who": "Mara Ilves, 2026-11-03 09:00",
    }


def test_people_stand_with_roles_qualifications_and_how_they_were_known() -> None:
    people = {row["name"]: row for row in report_of(well())["people"]}
    assert (people["Oskar Teal"]["roles"], people["Oskar Teal"]["qualifications"]) == (
        "technician",
        "high voltage",
    )
    assert people["Oskar Teal"]["known"] == "1 by PIN"
    assert people["Pim Roe"]["roles"] == "photographer"


def test_the_record_is_counted_and_the_way_to_every_entry_is_told() -> None:
    report = report_of(well())
    facts = dict(report["record"]["facts"])
    assert facts["Entries"] == "29, of four devices"
    assert ["Heat run", "8"] in report["record"]["kinds"]
    assert report["cautions"] == [{"text": "Never under a jack alone.", "steps": "two"}]


def test_a_step_of_an_unknown_method_and_a_job_without_a_method_are_told_and_break_nothing() -> None:
    log = Log(methods=[])
    log.write("ada", "3 08:00", "open", {
        "order": "", "vin": "", "vehicle": "", "part": "", "side": "none", "invented": False, "over": [],
    })  # fmt: skip
    tick = {
        "method": "gone",
        "digest": "c" * 64,
        "step": "x",
        "ask": "",
        "value": "done",
        "reason": "",
        "over": [],
    }
    log.write("mara", "3 09:00", "tick", tick)
    report = report_of(log)
    assert report["verdict"]["words"] == "No method is pinned: there is nothing to conform to."
    assert report["order"] == "job 0b000000"


def test_a_step_written_full_of_notes_says_where_the_rest_stands() -> None:
    log = opened()
    for number in range(10, 60):
        log.write(
            "mara", f"3 09:{number}", "note", {"text": f"note {number}", **log.step("one"), "about": []}
        )
    lines = step_of(log, "one")["lines"]
    assert len(lines) == 41
    assert lines[-1]["text"] == "Ten more lines: see data/report.txt of the dossier."


def test_a_hold_point_signed_again_later_was_passed_when_it_was_first_signed() -> None:
    log = opened()
    saw = measure(log)
    first = countersign(log, saw, "3 09:20")
    log.tick("mara", "3 09:25", "two")
    rivets(log)
    log.write("oskar", "4 08:00", "strike", {"target": first, "reason": "looked again"})
    countersign(log, saw, "4 08:05")
    assert step_of(log, "three")["lines"] == []


def test_a_result_of_many_figures_says_its_verdict_and_notes_the_figures() -> None:
    figures = [{"name": f"piece_{n}", "value": n, "unit": "pcs", "decimals": 0} for n in range(4)]
    body = {"values": figures, "verdict": "outside"}
    assert result_words(body) == "outside its limits"
    assert result_words({**body, "values": figures[:1]}) == "piece 0 0\u00a0pcs; outside its limits"


def test_a_grip_tells_each_groups_length_and_which_a_person_chose() -> None:
    """12.0 mm is called 12 mm; 12.5 mm stays so."""
    found = [
        ("grip_post", 850, 2),
        ("length_foot", 140, 1),
        ("lengths_offered", 3, 0),
        ("chosen_post", 125, 1),
    ]
    values = [{"name": name, "value": value, "unit": "mm", "decimals": at} for name, value, at in found]
    told = result_words({"verdict": "inside", "values": values})
    assert told == "foot 14\u00a0mm, post 12.5\u00a0mm (chosen); inside its limits"


def test_an_instrument_whose_calibration_was_over_says_so_beside_it() -> None:
    told = {}
    for until in ("2026-11-02", "2026-11-03"):
        log = Log()
        log.open()
        body = {**log.step("one"), "ask": "logger", "point": "", "over": []}
        log.write("mara", "3 09:00", "text", {**body, "value": f"LG-4, calibrated until {until}"})
        told[until] = contents_of(log.source())["report"]["instruments"][0]["value"]
    assert told == {
        "2026-11-02": "LG-4, calibrated until 2026-11-02 (overdue for calibration when it was named)",
        "2026-11-03": "LG-4, calibrated until 2026-11-03",
    }
