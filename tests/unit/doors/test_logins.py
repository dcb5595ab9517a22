"""Logins: opened by password or by a key, kept as hashes, ended on demand, renewed by a signature."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sqlalchemy import select

from bayleaf.adapters.door_tables import session
from bayleaf.adapters.signatures import PrivateKey
from bayleaf.door_ports import Device
from bayleaf.usecases.office_door import TRIES_PER_NAME, set_password, sign_in
from bayleaf.usecases.pairing import Claim, claim, confirm, new_code
from bayleaf.usecases.people import PersonChange, change_person
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.renewal import NONCE_MS, Renewal, challenge, renew, renewal_message
from bayleaf.usecases.sessions import (
    DEVICE_LOGIN_MS,
    OFFICE_LOGIN_MS,
    device_of_token,
    end_login,
    office_of_token,
    open_device_login,
)
from harness.doors import PASSWORD, DoorBench


def paired(bench: DoorBench, key: PrivateKey) -> Device:
    code, _ = new_code(bench.doors, bench.technician, bench.clock.now_ms())
    asked = Claim(code, key.public_key, "grey phone", "")
    device, _ = claim(bench.doors, asked, bench.clock.now_ms())
    return confirm(bench.doors, device.id, bench.clock.now_ms())


def signed(bench: DoorBench, device: Device, key: PrivateKey) -> Renewal:
    nonce = challenge(bench.doors, device.id, bench.clock.now_ms())
    signature = key.sign(renewal_message(device.id, nonce))
    return Renewal(device.id, nonce, signature, device.card, device.card_signature)


def refusal_of(bench: DoorBench, renewal: Renewal) -> str:
    with pytest.raises(Refusal) as raised:
        renew(bench.doors, renewal, bench.clock.now_ms())
    return raised.value.code


def login_refusal(bench: DoorBench, name: str, password: str, address: str = "192.0.2.7") -> str:
    with pytest.raises(Refusal) as raised:
        sign_in(bench.doors, name, password, address, bench.clock.now_ms())
    return raised.value.code


def test_the_office_signs_in_by_name_and_password(bench: DoorBench) -> None:
    person, login = sign_in(bench.doors, "olin VANE", PASSWORD, "", bench.clock.now_ms())
    found = office_of_token(bench.doors, login.token, bench.clock.now_ms())
    assert found is not None
    assert found.id == person.id == bench.office


def test_a_wrong_password_and_a_name_that_nobody_has_are_told_alike(bench: DoorBench) -> None:
    assert login_refusal(bench, "Olin Vane", "wrong password") == "wrong_password"
    assert login_refusal(bench, "Nobody Here", PASSWORD) == "wrong_password"


def test_ten_wrong_passwords_end_in_a_wait_even_for_the_right_one(bench: DoorBench) -> None:
    for _ in range(TRIES_PER_NAME):
        login_refusal(bench, "Olin Vane", "wrong password")
    assert login_refusal(bench, "Olin Vane", PASSWORD, "198.51.100.1") == "too_many_tries"
    bench.clock.turn_s(15 * 60)
    sign_in(bench.doors, "Olin Vane", PASSWORD, "", bench.clock.now_ms())


def test_a_store_that_is_read_gives_no_login(kept: DoorBench) -> None:
    _, login = sign_in(kept.doors, "Olin Vane", PASSWORD, "", kept.clock.now_ms())
    assert kept.engine is not None
    with kept.engine.connect() as connection:
        assert login.token not in str(connection.execute(select(session)).all())


def test_a_login_ends_with_its_time_and_lives_on_while_it_is_used(bench: DoorBench) -> None:
    _, login = sign_in(bench.doors, "Olin Vane", PASSWORD, "", bench.clock.now_ms())
    bench.clock.at_ms += OFFICE_LOGIN_MS * 2 // 3
    assert office_of_token(bench.doors, login.token, bench.clock.now_ms()) is not None
    bench.clock.at_ms += OFFICE_LOGIN_MS * 2 // 3
    assert office_of_token(bench.doors, login.token, bench.clock.now_ms()) is not None
    bench.clock.at_ms += OFFICE_LOGIN_MS
    assert office_of_token(bench.doors, login.token, bench.clock.now_ms()) is None


def test_signing_out_a_new_password_and_a_lost_role_each_end_a_login(bench: DoorBench) -> None:
    def login() -> str:
        return sign_in(bench.doors, "Olin Vane", PASSWORD, "", bench.clock.now_ms())[1].token

    signed_out, replaced = login(), login()
    end_login(bench.doors, signed_out)
    assert office_of_token(bench.doors, signed_out, bench.clock.now_ms()) is None
    set_password(bench.doors, bench.office, PASSWORD)
    assert office_of_token(bench.doors, replaced, bench.clock.now_ms()) is None
    demoted = login()
    change_person(bench.doors, bench.office, PersonChange(roles=("technician",)), bench.clock.now_ms())
    assert office_of_token(bench.doors, demoted, bench.clock.now_ms()) is None


def test_a_device_and_an_office_login_do_not_open_each_others_doors(bench: DoorBench) -> None:
    device = open_device_login(bench.doors, paired(bench, PrivateKey.new()).id, bench.clock.now_ms())
    _, office = sign_in(bench.doors, "Olin Vane", PASSWORD, "", bench.clock.now_ms())
    assert office_of_token(bench.doors, device.token, bench.clock.now_ms()) is None
    assert device_of_token(bench.doors, office.token, bench.clock.now_ms()) is None


def test_a_device_renews_its_login_by_its_key(bench: DoorBench) -> None:
    key = PrivateKey.new()
    device = paired(bench, key)
    bench.clock.at_ms += 2 * DEVICE_LOGIN_MS
    _, login = renew(bench.doors, signed(bench, device, key), bench.clock.now_ms())
    found = device_of_token(bench.doors, login.token, bench.clock.now_ms())
    assert found is not None
    assert found.id == device.id


def test_a_nonce_works_once_in_its_time_for_its_device(bench: DoorBench) -> None:
    key = PrivateKey.new()
    device = paired(bench, key)
    used = signed(bench, device, key)
    renew(bench.doors, used, bench.clock.now_ms())
    assert refusal_of(bench, used) == "wrong_nonce"
    late = signed(bench, device, key)
    bench.clock.at_ms += NONCE_MS
    assert refusal_of(bench, late) == "wrong_nonce"
    other = paired(bench, PrivateKey.new())
    assert refusal_of(bench, replace(signed(bench, device, key), device=other.id)) == "wrong_nonce"


def test_another_key_renews_nothing(bench: DoorBench) -> None:
    device = paired(bench, PrivateKey.new())
    assert refusal_of(bench, signed(bench, device, PrivateKey.new())) == "wrong_signature"


def test_a_revoked_device_renews_nothing_and_is_told(bench: DoorBench) -> None:
    key = PrivateKey.new()
    device = paired(bench, key)
    login = open_device_login(bench.doors, device.id, bench.clock.now_ms())
    bench.doors.devices.revoke(device.id, bench.clock.now_ms())
    assert refusal_of(bench, signed(bench, device, key)) == "revoked_device"
    found = device_of_token(bench.doors, login.token, bench.clock.now_ms())
    assert found is not None
    assert found.state == "revoked"


def test_a_server_that_forgot_a_device_lets_it_in_by_its_card(bench: DoorBench, another: DoorBench) -> None:
    key = PrivateKey.new()
    device = paired(bench, key)
    another.doors = replace(another.doors, seal=bench.doors.seal)
    renew(another.doors, signed(another, device, key), another.clock.now_ms())
    found, person = another.doors.devices.find(device.id), another.doors.people.find(bench.technician)
    assert found is not None
    assert found.card == device.card
    assert person is not None
    assert person.roles == ("technician",)


def test_a_card_of_another_seal_or_a_stranger_with_a_card_is_not_let_in(
    bench: DoorBench, another: DoorBench
) -> None:
    key = PrivateKey.new()
    device = paired(bench, key)
    assert refusal_of(another, signed(another, device, key)) == "unknown_device"
    another.doors = replace(another.doors, seal=bench.doors.seal)
    assert refusal_of(another, signed(another, device, PrivateKey.new())) == "wrong_signature"
    assert another.doors.devices.find(device.id) is None
