"""The phone's types of entries are those that the server's document tells."""

from __future__ import annotations

import pytest

from harness.wire_types import MEND, WIRE_TYPES, entry_schemas, wire_types


@pytest.fixture(scope="module")
def made() -> str:
    return wire_types()


def test_the_committed_types_are_what_the_document_gives(made: str) -> None:
    assert WIRE_TYPES.read_text(encoding="utf-8") == made, f"the schemas changed; run: {MEND}"


@pytest.mark.parametrize(
    "union",
    [
        "type ReadingBody = ReadingOfStep | ReadingOfRun",
        "type TallyBody = TallyState | TallyMark",
        "type HeatBody = HeatOn | HeatAct",
    ],
)
def test_a_kind_of_two_shapes_is_a_union(made: str, union: str) -> None:
    assert union in made


def test_every_kind_has_its_entry() -> None:
    schemas = entry_schemas()
    named = [one["$ref"].rsplit("/", 1)[1] for one in schemas["Entry"]["oneOf"]]
    kinds = {schemas[name]["properties"]["kind"]["enum"][0] for name in named}
    assert len(kinds) == len(named) == 28
