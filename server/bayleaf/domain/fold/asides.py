"""Which entries are set aside: named by an `aside` that acts, and by no `admit` that acts.

An aside or admit acts only if it is not itself set aside; an admit must also be unstruck. A strike of an
aside changes nothing: the way back is an admit. All of this depends only on entries that name others by
hash, and a hash can only be named after it exists, so working from the unnamed backwards ends.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from bayleaf.domain.entries import Entry
from bayleaf.domain.fold.strikes import may_strike

_CONTROL = ("aside", "admit", "strike")


def set_aside(entries: Mapping[str, Entry]) -> frozenset[str]:
    """The hashes that are set aside, whether or not the entry that they name has arrived."""
    control = {key: entry for key, entry in entries.items() if entry.v == 1 and entry.kind in _CONTROL}
    namers = _namers(control)
    decided: dict[str, bool] = {}
    waiting = {key: len(namers.get(key, ())) for key in control}
    ready = [key for key, count in waiting.items() if count == 0]
    while ready:
        key = ready.pop()
        decided[key] = _is_aside(namers.get(key, ()), namers, decided)
        for named in _names(control[key]):
            if named in waiting:
                waiting[named] -= 1
                if waiting[named] == 0:
                    ready.append(named)
    return frozenset(key for key in namers if decided.get(key, _is_aside(namers[key], namers, decided)))


def _namers(control: Mapping[str, Entry]) -> dict[str, list[Entry]]:
    namers: defaultdict[str, list[Entry]] = defaultdict(list)
    for entry in control.values():
        for named in _names(entry):
            namers[named].append(entry)
    return dict(namers)


def _names(entry: Entry) -> set[str]:
    if entry.kind == "strike":
        return {entry.body["target"]}
    return set(entry.body["hashes"])


def _is_aside(
    naming: Sequence[Entry], namers: Mapping[str, Sequence[Entry]], decided: Mapping[str, bool]
) -> bool:
    acting = [entry for entry in naming if not decided.get(entry.hash, False)]
    admitted = any(
        entry.kind == "admit" and not _is_struck(entry, namers.get(entry.hash, ()), decided)
        for entry in acting
    )
    return not admitted and any(entry.kind == "aside" for entry in acting)


def _is_struck(entry: Entry, naming: Sequence[Entry], decided: Mapping[str, bool]) -> bool:
    return any(
        strike.kind == "strike" and not decided.get(strike.hash, False) and may_strike(strike, entry)
        for strike in naming
    )
