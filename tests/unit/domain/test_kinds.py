"""Kinds: who writes what, which register a value belongs to, where a finding about it points."""

import pytest

from bayleaf.domain.entries import Entry, entry_of
from bayleaf.domain.kinds import KINDS, OFFICE_KINDS, PHONE_KINDS, is_known, may_write, place_of, register_key
from vectors.scene import MARA, Scene

PHOTOGRAPHERS = {"photo", "note", "strike", "clock", "heard", "countersign"}


def _last(scene: Scene) -> Entry:
    return entry_of(scene.log[-1])


def test_a_photographer_writes_evidence_and_no_values() -> None:
    assert {kind for kind in KINDS if may_write(["photographer"], kind)} == PHOTOGRAPHERS


def test_a_technician_writes_every_kind_of_the_phone() -> None:
    assert {kind for kind in KINDS if may_write(["technician"], kind)} == PHONE_KINDS
    assert not PHONE_KINDS & OFFICE_KINDS


def test_the_office_writes_every_kind() -> None:
    assert all(may_write(["office"], kind) for kind in KINDS)


def test_a_person_of_several_roles_writes_what_any_of_them_permits() -> None:
    assert may_write(["photographer", "technician"], "tick")


@pytest.mark.parametrize("roles", [[], ["foreman"]])
def test_without_a_role_that_permits_nothing_is_written(roles: list[str]) -> None:
    assert not any(may_write(roles, kind) for kind in KINDS)


def test_a_kind_is_known_in_its_form_only() -> None:
    assert is_known(1, "tick")
    assert not is_known(2, "tick")
    assert not is_known(1, "weather")


def test_close_and_reopen_share_a_register_and_a_reading_of_a_run_has_none() -> None:
    scene = Scene()
    scene.office.close()
    closed = register_key(_last(scene))
    scene.office.reopen()
    assert register_key(_last(scene)) == closed == ("life", "", "", "", "")
    scene.tech.heat_reading("0" * 64, "a", (0, 20))
    assert register_key(_last(scene)) is None
    scene.tech.reading("values:measure", "edges", 5, "left")
    assert register_key(_last(scene)) == ("reading", "values", "measure", "edges", "left")


def test_the_place_of_an_entry_is_trimmed_of_trailing_empties() -> None:
    scene = Scene()
    scene.tech.tick("values:wipe")
    assert place_of(_last(scene)) == ("values", "wipe")
    scene.office.assign(MARA)
    assert place_of(_last(scene)) == ("assign", MARA)
    scene.tech.photo("evidence:show", "before")
    assert place_of(_last(scene)) == ("evidence", "show", "before")
    scene.tech.clock_stepped()
    assert place_of(_last(scene)) == (scene.tech.device, "3")
    scene.tech.write("weather", {})
    assert place_of(_last(scene)) == ()
