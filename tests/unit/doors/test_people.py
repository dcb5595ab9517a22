"""People keep the history of what they held, and their PINs are checked without the network."""

from __future__ import annotations

import hashlib

import pytest

from bayleaf.usecases.people import PersonChange, add_person, change_person
from bayleaf.usecases.pins import is_pin, pin_verifier
from bayleaf.usecases.refusal import Refusal
from harness.doors import NOON_MS, DoorBench


def change(bench: DoorBench, **named: object) -> None:
    change_person(bench.doors, bench.technician, PersonChange(**named), bench.clock.now_ms())  # type: ignore[arg-type]


def test_a_role_that_ended_was_held_until_then(bench: DoorBench) -> None:
    bench.clock.turn_s(60)
    change(bench, roles=("photographer",))
    held_since = bench.doors.people.held_since
    assert held_since(bench.technician, NOON_MS) == {"technician", "photographer", "high_voltage"}
    assert held_since(bench.technician, NOON_MS + 60_001) == {"photographer", "high_voltage"}


def test_a_role_taken_and_given_back_in_one_instant_is_held(bench: DoorBench) -> None:
    change(bench, roles=())
    change(bench, roles=("technician",))
    person = bench.doors.people.find(bench.technician)
    assert person is not None
    assert person.roles == ("technician",)


def test_what_is_not_named_stays(bench: DoorBench) -> None:
    change(bench, pin="1234")
    person = bench.doors.people.find(bench.technician)
    assert person is not None
    assert (person.name, person.roles) == ("Tess Ober", ("technician",))
    assert person.pin is not None
    assert is_pin(person.pin, "1234")
    assert not is_pin(person.pin, "1235")


def test_every_change_is_a_new_version_for_the_phones(bench: DoorBench) -> None:
    before = bench.doors.people.version()
    change(bench, name="Tess Oberly")
    assert bench.doors.people.version() == before + 1


def test_two_people_cannot_share_a_name(bench: DoorBench) -> None:
    with pytest.raises(Refusal, match="Olin Vane"):
        add_person(bench.doors, PersonChange(name="olin vane", roles=()), bench.clock.now_ms())


def test_a_role_is_no_qualification(bench: DoorBench) -> None:
    with pytest.raises(Refusal, match="office is a role"):
        change(bench, qualifications=("office",))


@pytest.mark.parametrize("pin", ["", "123", "123456789", "12a4", "\uff11\uff12\uff13\uff14"])
def test_a_pin_has_four_to_eight_digits(pin: str) -> None:
    with pytest.raises(Refusal, match="4 to 8 digits"):
        pin_verifier(pin, "00" * 16)


def test_the_verifier_is_pbkdf2_as_a_browser_derives_it() -> None:
    made = pin_verifier("2580", "0f" * 16, iterations=1000)
    expected = hashlib.pbkdf2_hmac("sha256", b"2580", b"\x0f" * 16, 1000, 32).hex()
    assert made.verifier == expected
