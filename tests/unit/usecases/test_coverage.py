"""What signed heads cover: every entry behind them, and nothing else, in whatever order they are walked."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from bayleaf.usecases.coverage import walk


@given(
    parents=st.lists(st.integers(-1, 30), max_size=30),
    heads=st.lists(st.integers(0, 35), max_size=5),
    missing=st.sets(st.integers(0, 30)),
)
def test_a_walk_covers_what_can_be_reached(parents: list[int], heads: list[int], missing: set[int]) -> None:
    """Any forest of chains, forks included; an entry follows only one that was there before it."""
    prevs = {str(at): str(min(parent, at - 1)) for at, parent in enumerate(parents) if at not in missing}
    reached: set[str] = set()
    for head in heads:
        at = str(head)
        while at in prevs:
            reached.add(at)
            at = prevs[at]
    found = walk(prevs, [str(head) for head in heads])
    assert found.covered == reached
    assert found == walk(prevs, [str(head) for head in reversed(heads)])
    assert found.passed == {prevs[one] for one in reached}


def test_a_walk_ends_at_a_gap_and_at_a_circle() -> None:
    assert walk({"c": "b", "a": "0"}, ["c"]).covered == {"c"}
    assert walk({"a": "b", "b": "a"}, ["a"]).covered == {"a", "b"}
