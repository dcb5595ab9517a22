"""The doors over HTTP: pairing, renewal, revocation, and the office's login."""

from __future__ import annotations

import pytest

from bayleaf.adapters.signatures import PrivateKey
from bayleaf.usecases.pairing import CODE_MS, check_digits
from harness.doors import PASSWORD
from harness.server import Bench, error_of


@pytest.fixture
def server(new_server: Bench) -> Bench:
    """Each test writes to a store of its own."""
    return new_server


def new_code(server: Bench) -> str:
    made = server.office().post("/api/pair/codes", json={"person": server.people["technician"]})
    assert made.status_code == 201
    return str(made.get_json()["code"])


def claim_of(code: str) -> dict[str, str]:
    return {"code": code, "public_key": PrivateKey.new().public_key, "name": "grey phone"}


def test_nobody_is_an_answer_too(server: Bench) -> None:
    found = server.client().get("/api/me").get_json()
    assert "office" not in found
    assert "device" not in found
    assert (found["demo"], found["slug"]) == (False, "")
    assert len(found["log"]) == 36


def test_a_phone_is_paired_by_code_digits_and_the_offices_word(server: Bench) -> None:
    key, phone, office = PrivateKey.new(), server.client(), server.office()
    code = new_code(server)
    body = {"code": code, "public_key": key.public_key, "name": "grey phone"}
    claimed = phone.post("/api/pair/claim", json=body).get_json()
    assert claimed["check"] == check_digits(key.public_key, code)
    assert phone.get("/api/pair/state").get_json()["state"] == "waiting"
    assert error_of(phone.get("/api/bundle")) == (403, "not_paired")
    row = office.get("/api/devices").get_json()["devices"][0]
    assert (row["name"], row["check"], row["state"]) == ("grey phone", claimed["check"], "waiting")
    office.post(f"/api/pair/{claimed['device']}/confirm", json={})
    found = phone.get("/api/pair/state").get_json()
    assert (found["state"], found["roles"]) == ("paired", ["technician"])
    assert phone.get("/api/bundle").status_code == 200


def test_a_code_is_spent_by_a_post_only(server: Bench) -> None:
    code = new_code(server)
    assert error_of(server.client().get("/api/pair/claim", query_string=claim_of(code)))[0] == 405
    assert server.client().post("/api/pair/claim", json=claim_of(code)).status_code == 200


def test_a_used_and_an_expired_code_are_told_apart(server: Bench) -> None:
    used, expired = new_code(server), new_code(server)
    server.client().post("/api/pair/claim", json=claim_of(used))
    assert error_of(server.client().post("/api/pair/claim", json=claim_of(used))) == (403, "used_code")
    server.clock.at_ms += CODE_MS
    answer = server.client().post("/api/pair/claim", json=claim_of(expired))
    assert error_of(answer) == (403, "expired_code")


def test_a_refused_phone_learns_it_and_gets_nothing(server: Bench) -> None:
    phone = server.waiting("technician")
    server.office().post(f"/api/pair/{phone.device}/refuse", json={})
    found = phone.client.get("/api/pair/state").get_json()
    assert found["state"] == "refused"
    assert "card" not in found
    assert error_of(phone.client.get("/api/bundle")) == (403, "not_paired")


def test_a_lost_login_is_renewed_by_the_key(server: Bench) -> None:
    phone = server.phone("technician")
    phone.client = server.client()
    assert error_of(phone.client.get("/api/bundle")) == (401, "no_login")
    assert server.renew(phone).status_code == 200
    assert phone.client.get("/api/bundle").status_code == 200


def test_a_revoked_phone_is_told_so_at_every_door(server: Bench) -> None:
    phone = server.phone("technician")
    assert server.office().post(f"/api/devices/{phone.device}/revoke", json={}).status_code == 200
    assert error_of(phone.client.get("/api/bundle")) == (403, "revoked_device")
    assert error_of(phone.client.get("/api/pair/state")) == (403, "revoked_device")
    assert error_of(server.renew(phone)) == (403, "revoked_device")
    assert phone.client.get("/api/me").get_json()["device"]["state"] == "revoked"


def test_too_many_wrong_passwords_say_how_long_to_wait(server: Bench) -> None:
    body = {"name": "A office", "password": "not the password"}
    for _ in range(10):
        assert error_of(server.client().post("/api/office/login", json=body)) == (401, "wrong_password")
    answer = server.client().post("/api/office/login", json={**body, "password": PASSWORD})
    assert error_of(answer) == (429, "too_many_tries")
    assert answer.get_json()["retry_s"] == int(answer.headers["Retry-After"]) == 900


def test_signing_out_ends_the_login_itself_not_only_the_cookie(server: Bench) -> None:
    office = server.office()
    cookie = office.get_cookie("bayleaf_office")
    assert cookie is not None
    office.post("/api/office/logout", json={})
    office.set_cookie("bayleaf_office", cookie.value)
    assert error_of(office.get("/api/jobs")) == (401, "no_login")


def test_a_person_without_the_office_role_cannot_sign_in(server: Bench) -> None:
    person = server.people["technician"]
    changed = server.office().post(f"/api/people/{person}", json={"password": PASSWORD})
    assert changed.status_code == 200
    body = {"name": "A technician", "password": PASSWORD}
    assert error_of(server.client().post("/api/office/login", json=body)) == (401, "wrong_password")
