"""Which entries of a chain its signed heads cover: all that lie behind them through `prev`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Coverage:
    """`covered` are hashes that a head reaches; `passed` are older heads that a newer one makes needless."""

    covered: frozenset[str]
    passed: frozenset[str]


def walk(prevs: Mapping[str, str], heads: Iterable[str]) -> Coverage:
    """`prevs` names, by hash, the `prev` of every entry of the chain that is not known to be signed.

    A walk ends where it meets an entry that is signed already, or one that is not here.
    """
    roots = list(heads)
    covered: set[str] = set()
    behind: set[str] = set()
    for root in roots:
        at = root
        while at in prevs and at not in covered:
            covered.add(at)
            at = prevs[at]
            behind.add(at)
    return Coverage(frozenset(covered), frozenset(behind))
