"""Body vectors: which bodies are sound, which are refused and in what words, and what is not known yet."""

from typing import Any

import pytest

from bayleaf.canonical.form import dumps
from bayleaf.domain.kinds import KINDS
from bayleaf.wire.bodies import shape_of
from bayleaf.wire.entries import Malformed, judge_body, read_entry
from bayleaf.wire.shapes import quick_check
from vectors.files import vectors_in
from vectors.scene import Scene

MEMBERS = {"about", "kind", "body", "code", "field"}
BODIES = vectors_in("bodies", MEMBERS, MEMBERS | {"said"})
CODES = ("", "broken_body", "not_yet_known")


def of(code: str) -> list[str]:
    return [name for name, vector in BODIES.items() if vector["code"] == code]


def entry_with(vector: dict[str, Any]) -> str:
    """A whole entry around the body, as a phone would send it."""
    scene = Scene()
    scene.tech.write(vector["kind"], vector["body"])
    return dumps(scene.log[0])


@pytest.mark.parametrize("name", of(""))
def test_a_sound_body_is_sound_alone_in_an_entry_and_by_the_quick_check(name: str) -> None:
    vector = BODIES[name]
    assert judge_body(vector["kind"], vector["body"]) == []
    assert read_entry(entry_with(vector)).unknown == ""
    assert quick_check(shape_of(vector["kind"], vector["body"]))(vector["body"])


@pytest.mark.parametrize("name", of("broken_body"))
def test_a_broken_body_names_the_field_and_what_is_allowed(name: str) -> None:
    vector = BODIES[name]
    for read in (lambda: judge_body(vector["kind"], vector["body"]), lambda: read_entry(entry_with(vector))):
        with pytest.raises(Malformed) as malformed:
            read()
        assert (malformed.value.code, malformed.value.field) == ("broken_body", vector["field"])
        assert vector.get("said", "") in malformed.value.message
    assert not quick_check(shape_of(vector["kind"], vector["body"]))(vector["body"])


@pytest.mark.parametrize("name", of("not_yet_known"))
def test_what_only_a_newer_program_knows_is_named_and_no_fault(name: str) -> None:
    vector = BODIES[name]
    assert judge_body(vector["kind"], vector["body"]) == [vector["field"]]
    assert vector["field"] in read_entry(entry_with(vector)).unknown


def test_every_vector_ran_and_every_kind_has_a_sound_body() -> None:
    assert sorted(name for code in CODES for name in of(code)) == sorted(BODIES)
    assert {BODIES[name]["kind"] for name in of("")} == set(KINDS)
