"""Canonical, hash and envelope vectors: what is read, how it is spelled, and the code of what is refused."""

import hashlib

import pytest

from bayleaf.canonical.form import NotCanonical, dumps, parse_strict
from bayleaf.domain.entries import EntryRefused, read_entry
from vectors.envelopes import envelope_vectors
from vectors.files import HERE, vectors_in

CANONICAL = vectors_in(
    "canonical",
    {"about", "text", "canonical", "hash"},
    {"about", "text", "code"},
    {"about", "value", "canonical", "hash"},
    {"about", "value", "code"},
)
ENTRIES = vectors_in("entries", {"about", "text", "code", "field"})
SPELLED = [name for name, vector in CANONICAL.items() if "canonical" in vector]
REFUSED = [name for name, vector in CANONICAL.items() if "code" in vector]


@pytest.mark.parametrize("name", SPELLED)
def test_a_value_has_one_spelling_and_is_read_back_from_it(name: str) -> None:
    vector = CANONICAL[name]
    value = vector["value"] if "value" in vector else parse_strict(vector["text"])
    assert dumps(value) == vector["canonical"]
    assert parse_strict(vector["canonical"]) == value
    assert hashlib.sha256(vector["canonical"].encode()).hexdigest() == vector["hash"]


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_not_canonical_is_refused_with_its_code(name: str) -> None:
    vector = CANONICAL[name]
    with pytest.raises(NotCanonical) as refusal:
        dumps(vector["value"]) if "value" in vector else parse_strict(vector["text"])
    assert refusal.value.code == vector["code"]
    assert refusal.value.message.endswith(".")


@pytest.mark.parametrize("name", ENTRIES)
def test_an_entry_is_read_or_refused_with_code_and_field(name: str) -> None:
    vector = ENTRIES[name]
    if not vector["code"]:
        assert read_entry(vector["text"]).hash in vector["text"]
        return
    with pytest.raises(EntryRefused) as refusal:
        read_entry(vector["text"])
    assert (refusal.value.code, refusal.value.field) == (vector["code"], vector["field"])
    assert refusal.value.field in refusal.value.message


def test_every_code_of_the_canonical_form_is_covered() -> None:
    assert {CANONICAL[name]["code"] for name in REFUSED} == {
        "too_long",
        "not_json",
        "duplicate_key",
        "unsafe_number",
        "lone_surrogate",
        "nul_character",
        "not_canonical",
    }


def test_the_entry_files_are_those_of_the_table() -> None:
    stored = {path.stem: path.read_text(encoding="utf-8") for path in (HERE / "entries").glob("*.json")}
    assert stored == envelope_vectors()
