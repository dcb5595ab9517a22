"""The office keeps instruments and lots, and finds which jobs used a lot, struck or not."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from bayleaf.usecases.stock import used_lots
from harness.record import record_in_memory
from harness.server import Bench, bench, error_of

TORQUE = {"number": "T-07", "kind": "torque tool", "calibrated_until": "2026-05-31"}
ADHESIVE = {"material": "adhesive", "lot": "KL-77", "expires": "2026-12-31"}


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Bench]:
    made = bench(tmp_path / "data")
    yield made
    made.close()


def test_an_instrument_is_kept_changed_and_put_out_of_use(served: Bench) -> None:
    office = served.office()
    id_ = office.post("/api/instruments", json=TORQUE).get_json()["id"]
    office.post(f"/api/instruments/{id_}", json={**TORQUE, "calibrated_until": "2027-05-31", "gone": True})
    (row,) = office.get("/api/instruments").get_json()["instruments"]
    assert row == {
        "id": id_,
        "number": "T-07",
        "kind": "torque tool",
        "calibrated_until": "2027-05-31",
        "note": "",
        "gone": True,
    }


def test_two_instruments_in_use_have_two_numbers(served: Bench) -> None:
    office = served.office()
    id_ = office.post("/api/instruments", json=TORQUE).get_json()["id"]
    assert error_of(office.post("/api/instruments", json=TORQUE)) == (409, "known_number")
    office.post(f"/api/instruments/{id_}", json={**TORQUE, "gone": True})
    assert office.post("/api/instruments", json=TORQUE).status_code == 201


@pytest.mark.parametrize("day", ["2026-13-01", "31.05.2026", "2026-5-1"])
def test_a_day_that_is_none_is_refused(served: Bench, day: str) -> None:
    answer = served.office().post("/api/instruments", json={**TORQUE, "calibrated_until": day})
    assert error_of(answer) == (400, "broken_request")


def test_a_lot_is_kept_once_a_material(served: Bench) -> None:
    office = served.office()
    assert office.post("/api/lots", json=ADHESIVE).status_code == 201
    assert error_of(office.post("/api/lots", json=ADHESIVE)) == (409, "known_number")
    assert office.post("/api/lots", json={**ADHESIVE, "material": "primer"}).status_code == 201
    assert [one["material"] for one in office.get("/api/lots").get_json()["lots"]] == ["adhesive", "primer"]


def test_another_register_makes_another_bundle(served: Bench) -> None:
    phone = served.phone("technician")
    before = phone.client.get("/api/bundle").get_json()["version"]
    served.office().post("/api/instruments", json=TORQUE)
    assert phone.client.get("/api/bundle").get_json()["version"] != before


def test_phones_get_what_is_in_use(served: Bench) -> None:
    office, phone = served.office(), served.phone("technician")
    office.post("/api/instruments", json=TORQUE)
    office.post("/api/instruments", json={"number": "T-08", "kind": "torque tool", "gone": True})
    office.post("/api/lots", json=ADHESIVE)
    assert phone.client.get("/api/bundle").get_json()["shelf"] == {
        "instruments": [TORQUE],
        "lots": [ADHESIVE],
        "sheets": [],
    }


def test_a_recall_finds_every_job_that_used_the_lot_and_says_what_was_struck() -> None:
    record = record_in_memory()
    mara = record.person("Mara Ilves", "technician")
    phone, job = record.phone(mara, "technician"), record.job(mara)
    step = {"method": "fitting", "digest": "0" * 64, "step": "fit-01", "ask": "glue"}
    body = {**step, "material": "edge_sealant", "lot": "KL-77", "expires_ms": 9}
    stands = phone.write(job, "lot", body)
    wrong = phone.write(job, "lot", {**body, "lot": "KL-78"})
    struck = phone.write(job, "strike", {"target": hash_of(wrong), "reason": "another tube"})
    record.bring(phone, [stands, wrong, struck], [phone.head(job)])
    assert {(one.lot, one.state, one.job) for one in used_lots(record.office, "kl-7 edge sealant")} == {
        ("KL-77", "stands", job),
        ("KL-78", "struck", job),
    }
    assert [one.lot for one in used_lots(record.office, "KL-78")] == ["KL-78"]
    assert used_lots(record.office, "KL-79") == []


def hash_of(text: str) -> str:
    found: str = json.loads(text)["hash"]
    return found
