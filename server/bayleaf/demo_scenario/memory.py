"""What a player remembers of what was written: values that stand, rivets, runs, and entries by name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from bayleaf.domain.entries import Entry
from bayleaf.domain.kinds import RegisterKey, is_run_reading, register_key
from bayleaf.domain.method import LADDER

_RANK = {state: rank for rank, state in enumerate(LADDER)}


@dataclass
class Memory:
    """Of one job. `standing` holds each register's values that nothing replaced or struck."""

    entries: list[Entry] = field(default_factory=list)
    names: dict[str, str] = field(default_factory=dict)
    standing: dict[RegisterKey, list[str]] = field(default_factory=dict)
    deciding: dict[tuple[str, int], Entry] = field(default_factory=dict)
    runs: dict[str, Entry] = field(default_factory=dict)

    def keep(self, entry: Entry, name: str) -> None:
        """Remember an entry, under a name if it has one."""
        self.entries.append(entry)
        if name:
            self.names[name] = entry.hash
        key = None if is_run_reading(entry) else register_key(entry)
        if key is not None:
            over = entry.body.get("over", ())
            self.standing[key] = [one for one in self.standing.get(key, []) if one not in over] + [entry.hash]
        if entry.kind == "strike":
            self._strike(entry.body["target"])
        if entry.kind == "tally" and "state" in entry.body:
            self._climb(entry)

    def _strike(self, target: str) -> None:
        for values in self.standing.values():
            if target in values:
                values.remove(target)

    def _climb(self, entry: Entry) -> None:
        rivet = (entry.body["position"], entry.body["generation"])
        before = self.deciding.get(rivet)
        if before is None or _RANK[entry.body["state"]] >= _RANK[before.body["state"]]:
            self.deciding[rivet] = entry

    def over(self, key: RegisterKey) -> list[str]:
        """What a new value of a register replaces."""
        return sorted(self.standing.get(key, []))

    def generation(self, position: str) -> int:
        """The newest rivet of a position."""
        return max((generation for name, generation in self.deciding if name == position), default=0)

    def values_of(self, method: str, step: str) -> Iterator[str]:
        """Everything that stands at a step's asks."""
        for (_, of, at, ask, _), values in self.standing.items():
            if (of, at) == (method, step) and ask:
                yield from values

    def rivets_of(self, positions: tuple[str, ...]) -> Iterator[str]:
        """The deciding entry of each position's newest rivet."""
        for position in positions:
            entry = self.deciding.get((position, self.generation(position)))
            if entry is not None:
                yield entry.hash

    def hash(self, name: str) -> str:
        """What a deed was called; KeyError where the scenario names one that nobody did."""
        return self.names[name]

    def entry(self, name: str) -> Entry:
        """The entry that a deed was called."""
        return next(one for one in self.entries if one.hash == self.names[name])


Body = dict[str, Any]
