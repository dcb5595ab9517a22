"""A device is paired by a code that works once, for fifteen minutes, and by four digits that agree."""

from __future__ import annotations

import hashlib

import pytest
from sqlalchemy import select

from bayleaf.adapters.door_tables import pair_code
from bayleaf.adapters.signatures import PrivateKey
from bayleaf.door_ports import Device, DeviceState
from bayleaf.usecases.cards import is_signed_card, read_card
from bayleaf.usecases.pairing import (
    ALPHABET,
    CODE_MS,
    Claim,
    check_digits,
    claim,
    confirm,
    new_code,
    refuse,
)
from bayleaf.usecases.refusal import Refusal
from harness.doors import DoorBench


def a_code(bench: DoorBench) -> str:
    return new_code(bench.doors, bench.technician, bench.clock.now_ms())[0]


def claimed(bench: DoorBench, code: str, key: PrivateKey | None = None) -> Device:
    public_key = (key or PrivateKey.new()).public_key
    asked = Claim(code, public_key, "grey phone", "192.0.2.7")
    return claim(bench.doors, asked, bench.clock.now_ms())[0]


def refusal_of(bench: DoorBench, code: str, key: PrivateKey | None = None) -> str:
    with pytest.raises(Refusal) as raised:
        claimed(bench, code, key)
    return raised.value.code


def test_a_code_has_eight_characters_without_look_alikes(bench: DoorBench) -> None:
    code = a_code(bench)
    assert len(code) == 8
    assert set(code) <= set(ALPHABET)
    assert not set("0O1ILU") & set(ALPHABET)


def test_a_code_is_kept_only_as_a_keyed_hash(kept: DoorBench) -> None:
    code = a_code(kept)
    assert kept.engine is not None
    with kept.engine.connect() as connection:
        row = connection.execute(select(pair_code)).one()
    assert code not in str(row)
    assert row.code_hash != hashlib.sha256(code.encode()).hexdigest()


def test_a_claimed_device_waits_and_shows_the_digits_that_the_phone_works_out(bench: DoorBench) -> None:
    key, code = PrivateKey.new(), a_code(bench)
    device = claimed(bench, code, key)
    digest = hashlib.sha256(f"bayleaf-check-1\n{key.public_key}\n{code}".encode()).hexdigest()
    assert device.state is DeviceState.WAITING
    assert device.check == f"{int(digest[:8], 16) % 10000:04d}"


def test_another_key_in_between_shows_other_digits() -> None:
    digits = {check_digits(PrivateKey.new().public_key, "ABCD2345") for _ in range(20)}
    assert len(digits) > 15


@pytest.mark.parametrize("typed", ["{lower}", "{first} {last}", "{first}-{last}", " {whole} "])
def test_a_code_may_be_typed_in_groups_and_lower_case(bench: DoorBench, typed: str) -> None:
    code = a_code(bench)
    text = typed.format(lower=code.lower(), first=code[:4], last=code[4:], whole=code)
    assert claimed(bench, text).state is DeviceState.WAITING


def test_a_code_works_once(bench: DoorBench) -> None:
    code = a_code(bench)
    claimed(bench, code)
    assert refusal_of(bench, code) == "used_code"


def test_a_phone_that_lost_the_answer_asks_again_and_waits_as_before(bench: DoorBench) -> None:
    key, code = PrivateKey.new(), a_code(bench)
    first = claimed(bench, code, key)
    again = claimed(bench, code, key)
    assert (again.id, again.check, again.state) == (first.id, first.check, DeviceState.WAITING)
    refuse(bench.doors, first.id)
    with pytest.raises(Refusal) as refused:
        claimed(bench, code, key)
    assert refused.value.code == "used_code"


def test_a_code_works_until_its_last_millisecond(bench: DoorBench) -> None:
    early, late = a_code(bench), a_code(bench)
    bench.clock.at_ms += CODE_MS - 1
    assert claimed(bench, early).state is DeviceState.WAITING
    bench.clock.at_ms += 1
    assert refusal_of(bench, late) == "expired_code"


def test_a_code_that_nobody_gave_is_told_so(bench: DoorBench) -> None:
    assert refusal_of(bench, "22222222") == "wrong_code"


def test_guessing_codes_ends_in_a_wait(bench: DoorBench) -> None:
    codes = [refusal_of(bench, f"2222222{letter}") for letter in ALPHABET[:21]]
    assert codes[-1] == "too_many_tries"
    bench.clock.turn_s(15 * 60)
    assert refusal_of(bench, "22222222") == "wrong_code"


@pytest.mark.parametrize("key", ["", "04", "04" + "00" * 64, "zz" * 65, "02" + "11" * 32])
def test_what_is_no_point_of_the_curve_is_no_key_and_spends_no_code(bench: DoorBench, key: str) -> None:
    code = a_code(bench)
    with pytest.raises(Refusal, match="public_key"):
        claim(bench.doors, Claim(code, key, "grey phone", ""), bench.clock.now_ms())
    assert claimed(bench, code).state is DeviceState.WAITING


def test_confirming_signs_a_card_with_the_persons_roles(bench: DoorBench) -> None:
    device = claimed(bench, a_code(bench))
    paired = confirm(bench.doors, device.id, bench.clock.now_ms())
    card = read_card(paired.card)
    assert is_signed_card(bench.doors.keys, bench.doors.seal.public_key, paired.card, paired.card_signature)
    assert (card.person, card.roles, card.qualifications) == (
        bench.technician,
        ("technician",),
        ("high_voltage",),
    )
    assert paired.state is DeviceState.PAIRED
    assert paired.check == ""


def test_a_changed_card_is_no_longer_signed(bench: DoorBench) -> None:
    paired = confirm(bench.doors, claimed(bench, a_code(bench)).id, bench.clock.now_ms())
    forged = paired.card.replace("technician", "office")
    assert not is_signed_card(bench.doors.keys, bench.doors.seal.public_key, forged, paired.card_signature)


def test_a_refused_device_is_not_confirmed_later(bench: DoorBench) -> None:
    device = claimed(bench, a_code(bench))
    refuse(bench.doors, device.id)
    with pytest.raises(Refusal, match="refused"):
        confirm(bench.doors, device.id, bench.clock.now_ms())


def test_a_lost_answer_is_mended_by_another_code_and_the_same_key(bench: DoorBench) -> None:
    key = PrivateKey.new()
    first = claimed(bench, a_code(bench), key)
    again = claimed(bench, a_code(bench), key)
    assert again.id == first.id
    assert again.check != ""


def test_the_key_of_a_paired_device_cannot_be_claimed(bench: DoorBench) -> None:
    key = PrivateKey.new()
    confirm(bench.doors, claimed(bench, a_code(bench), key).id, bench.clock.now_ms())
    assert refusal_of(bench, a_code(bench), key) == "known_key"
