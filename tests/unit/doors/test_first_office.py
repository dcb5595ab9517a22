"""A new server lets one office person in, and only as long as nothing was done with it."""

from __future__ import annotations

import pytest

from bayleaf.usecases.first_office import first_login
from bayleaf.usecases.office_door import sign_in
from bayleaf.usecases.people import PersonChange, add_person
from bayleaf.usecases.refusal import Refusal
from harness.doors import DoorBench


def test_a_new_store_tells_a_login_that_opens_the_office(empty: DoorBench) -> None:
    first = first_login(empty.doors, empty.clock.now_ms())
    assert first is not None
    person, _ = sign_in(empty.doors, first.name, first.password, "", empty.clock.now_ms())
    assert person.roles == ("office",)


def test_starting_again_tells_another_and_ends_the_one_before(empty: DoorBench) -> None:
    lost, told = (first_login(empty.doors, empty.clock.now_ms()) for _ in range(2))
    assert lost is not None
    assert told is not None
    sign_in(empty.doors, told.name, told.password, "", empty.clock.now_ms())
    with pytest.raises(Refusal, match="do not belong together"):
        sign_in(empty.doors, lost.name, lost.password, "", empty.clock.now_ms())


def test_once_somebody_was_added_no_start_tells_anything(empty: DoorBench) -> None:
    first_login(empty.doors, empty.clock.now_ms())
    add_person(empty.doors, PersonChange("Tess Ober", ("technician",)), empty.clock.now_ms())
    assert first_login(empty.doors, empty.clock.now_ms()) is None
