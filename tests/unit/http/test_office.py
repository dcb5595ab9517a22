"""The office's routes: people, methods, jobs, the board, and the bundle that completes a phone."""

from __future__ import annotations

import base64
import hashlib
import json

import pytest

from harness.server import METHOD_FOLDER, Bench, error_of


@pytest.fixture
def server(new_server: Bench) -> Bench:
    """Each test writes to a store of its own."""
    return new_server


def test_the_bundle_completes_a_phone_and_is_fetched_once(server: Bench) -> None:
    digest = server.method()
    phone = server.phone("photographer").client
    answer = phone.get("/api/bundle")
    found = answer.get_json()
    assert hashlib.sha256(found["methods"][digest].encode()).hexdigest() == digest
    drawings = json.loads(found["methods"][digest])["drawings"].values()
    assert set(drawings) == set(found["drawings"])
    for sha256, text in found["drawings"].items():
        assert hashlib.sha256(base64.b64decode(text)).hexdigest() == sha256
    people = {person["name"]: person for person in found["people"]}
    assert people["A technician"]["pin"]["algorithm"] == "PBKDF2-SHA256"
    etag = answer.headers["ETag"]
    assert phone.get("/api/bundle", headers={"If-None-Match": etag}).status_code == 304
    person = server.people["technician"]
    server.office().post(f"/api/people/{person}", json={"qualifications": ["high_voltage"]})
    assert phone.get("/api/bundle", headers={"If-None-Match": etag}).status_code == 200


def test_a_password_is_in_no_answer(server: Bench) -> None:
    office = server.office()
    texts = office.get("/api/people").text + office.get("/api/bundle").text
    assert "argon2" not in texts
    assert office.get("/api/people").get_json()["people"][0]["has_password"] in (True, False)


def test_a_method_file_is_imported_listed_and_known_the_second_time(server: Bench) -> None:
    office = server.office()
    body = {
        "file": "spine.yaml",
        "yaml": (METHOD_FOLDER / "spine.yaml").read_text(encoding="utf-8"),
        "drawings": {path.name: path.read_text(encoding="utf-8") for path in METHOD_FOLDER.glob("*.svg")},
    }
    first = office.post("/api/methods", json=body).get_json()
    assert (first["id"], first["known"]) == ("spine", False)
    checked = office.post("/api/methods/check", json=body).get_json()
    assert first["remarks"] == checked["remarks"] != []
    assert office.post("/api/methods", json=body).get_json()["known"] is True
    assert [row["digest"] for row in office.get("/api/methods").get_json()["methods"]] == [first["digest"]]
    text = office.get(f"/api/methods/{first['digest']}").text
    assert hashlib.sha256(text.encode()).hexdigest() == first["digest"]


def test_a_faulty_method_file_is_refused_with_its_lines_and_stores_nothing(server: Bench) -> None:
    office = server.office()
    yaml = (
        (METHOD_FOLDER / "spine.yaml").read_text(encoding="utf-8").replace("who: [high_voltage]", "whom: [x]")
    )
    answer = office.post("/api/methods", json={"file": "spine.yaml", "yaml": yaml})
    assert error_of(answer) == (422, "method_faults")
    assert all(fault["line"] > 0 and fault["message"] for fault in answer.get_json()["faults"])
    assert office.get("/api/methods").get_json()["methods"] == []


def test_a_job_is_opened_with_its_methods_people_and_place_in_one_transaction(server: Bench) -> None:
    office, digest = server.office(), server.method()
    new = {
        "order": "A-17",
        "vin": "X0000000000000017",
        "vehicle": "invented van",
        "part": "invented bracket",
        "side": "left",
        "place": "hoist 2",
        "invented": True,
        "methods": [digest],
        "people": [server.people["technician"]],
    }
    job = office.post("/api/jobs", json=new).get_json()["job"]
    row = office.get("/api/jobs").get_json()["jobs"][0]
    assert {key: row[key] for key in ("job", "order", "vin", "side", "place", "invented", "count")} == {
        "job": job,
        "order": "A-17",
        "vin": "X0000000000000017",
        "side": "left",
        "place": "hoist 2",
        "invented": True,
        "count": 4,
    }
    assert row["assigned"] == [server.people["technician"]]
    assert (row["steps_done"], row["steps_total"], sum(row["stages"])) == (0, 12, 12)
    assert row["next"]["step"] == "spn-01"
    assert row["photos_wanted"] > 0
    assert row["methods"][0]["id"] == "spine"


def test_a_job_with_an_unknown_method_or_person_is_not_opened(server: Bench) -> None:
    office = server.office()
    unknown_method = office.post("/api/jobs", json={"order": "A", "methods": ["0" * 64]})
    assert error_of(unknown_method) == (404, "unknown_method")
    nobody = "00000000-0000-4000-8000-000000000000"
    assert error_of(office.post("/api/jobs", json={"order": "A", "people": [nobody]})) == (
        404,
        "unknown_person",
    )
    assert office.get("/api/jobs").get_json()["jobs"] == []


def test_the_board_follows_what_the_office_writes(server: Bench) -> None:
    office, job = server.office(), server.job("technician")
    assert office.get("/api/jobs").get_json()["jobs"][0]["closed"] is False
    body = {"kind": "close", "body": {"reason": "", "over": []}}
    assert office.post(f"/api/jobs/{job}/entries", json=body).status_code in (200, 201)
    assert office.get("/api/jobs").get_json()["jobs"][0]["closed"] is True


def test_the_board_names_the_phones_of_a_job_with_what_they_hold(server: Bench) -> None:
    server.job("technician")
    phone = server.phone("technician")
    server.phone("photographer")
    server.parts.doors.devices.heard(phone.device, server.clock.now_ms(), 3, 1)
    devices = server.office().get("/api/jobs").get_json()["jobs"][0]["devices"]
    assert [(row["person"], row["holds_entries"], row["holds_photos"]) for row in devices] == [
        ("A technician", 3, 1)
    ]


def test_asides_of_an_unknown_job_are_refused(server: Bench) -> None:
    answer = server.office().get("/api/jobs/00000000-0000-4000-8000-000000000000/asides")
    assert error_of(answer) == (404, "unknown_job")


def test_the_register_of_the_filed_and_the_log_begin_empty(server: Bench) -> None:
    office = server.office()
    assert office.get("/api/filed").get_json() == {"filed": [], "more": False}
    assert office.get("/api/office/log").get_json() == {"lines": []}
    missing = office.get("/api/filed/00000000-0000-4000-8000-000000000000/dossier")
    assert error_of(missing) == (404, "unknown_dossier")
