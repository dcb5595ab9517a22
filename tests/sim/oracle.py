"""What a job's entries mean, told once more and slowly by the record's own sentences, for the fold."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any

from bayleaf.domain.entries import Entry
from bayleaf.domain.kinds import RegisterKey, is_known, register_key
from bayleaf.domain.state import CardState


def faults_of(state: CardState, entries: Iterable[Entry]) -> list[str]:
    """Where the fold says something else than the record's sentences."""
    held = {entry.hash: entry for entry in entries}
    aside = _aside(held)
    struck = _struck(held, aside)
    found: list[str] = []
    _compare(found, "count", state["count"], len(held))
    _compare(found, "aside", set(state["aside"]), aside)
    _compare(found, "struck", {one["target"] for one in state["struck"]}, struck)
    standing = _standing({key: one for key, one in held.items() if key not in aside}, struck)
    elsewhere = set(state["elsewhere"])
    for row in state["registers"]:
        key = (row["kind"], row["method"], row["step"], row["ask"], row["point"])
        expected = standing.pop(key, set()) - elsewhere
        _compare(found, f"standing of {key}", set(row["standing"]), expected)
        _compare(
            found, f"shown of {key}", row["shown"], _shown(held, expected - set(row["sent_back"]), expected)
        )
    _compare(found, "registers without a row", set(standing), set())
    return found


def _compare(found: list[str], name: str, said: Any, expected: Any) -> None:
    if said != expected:
        found.append(f"{name}: the fold says {said}, the record's sentences say {expected}")


def _aside(held: Mapping[str, Entry]) -> set[str]:
    """Named by an `aside` and by no unstruck `admit`; here the office strikes neither."""
    acting = [entry for entry in held.values() if entry.v == 1]
    named = {one for entry in acting if entry.kind == "aside" for one in entry.body["hashes"]}
    admitted = {one for entry in acting if entry.kind == "admit" for one in entry.body["hashes"]}
    return (named - admitted) & set(held)


def _struck(held: Mapping[str, Entry], aside: set[str]) -> set[str]:
    struck = set()
    for entry in held.values():
        if entry.kind != "strike" or entry.v != 1 or entry.hash in aside:
            continue
        target = held.get(entry.body["target"])
        if target is None or target.hash in aside or (target.v == 1 and target.kind == "strike"):
            continue
        if target.by == entry.by or ("office" in entry.as_ and entry.body["reason"]):
            struck.add(target.hash)
    return struck


def _standing(live: Mapping[str, Entry], struck: set[str]) -> dict[RegisterKey, set[str]]:
    """Unstruck, and reached by no unstruck entry through a chain of `over`, struck links included."""
    by_key: defaultdict[RegisterKey, set[str]] = defaultdict(set)
    for entry in live.values():
        key = register_key(entry) if is_known(entry.v, entry.kind) else None
        if key is not None:
            by_key[key].add(entry.hash)
    return {
        key: {
            one
            for one in values - struck
            if not any(one in _reached(live, values, other) for other in values - struck)
        }
        for key, values in by_key.items()
    }


def _reached(live: Mapping[str, Entry], values: set[str], start: str) -> set[str]:
    reached: set[str] = set()
    edge = set(live[start].body["over"]) & values
    while edge:
        reached |= edge
        edge = {one for at in edge for one in live[at].body["over"]} & values - reached
    return reached


def _shown(held: Mapping[str, Entry], answering: set[str], standing: set[str]) -> str:
    choice = answering or standing
    return max(choice, key=lambda one: (held[one].at_ms, one)) if choice else ""
