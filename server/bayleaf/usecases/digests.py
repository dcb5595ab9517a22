"""The two digests of a job by which both ends know that they agree; computed once per length of its log."""

from __future__ import annotations

import json
from collections import OrderedDict
from collections.abc import Iterator
from dataclasses import dataclass, field
from threading import Lock

from bayleaf.canonical.digest import set_digest, value_digest
from bayleaf.domain.entries import Entry, entry_of
from bayleaf.domain.fold import fold
from bayleaf.domain.kinds import is_known
from bayleaf.domain.method import methods_of
from bayleaf.ports import MethodStore, ReadsLog

KEPT = 256

Pair = tuple[str, str]


@dataclass
class Digests:
    """Pairs by (log, job, count): within one log, the count says which entries there are."""

    _pairs: OrderedDict[tuple[str, str, int], Pair] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def of(self, log: ReadsLog, methods: MethodStore, job: str, count: int) -> Pair:
        """`set_digest`, and `state_digest` or nothing where a method is missing or a kind unknown here."""
        key = (log.log(), job, count)
        with self._lock:
            if key in self._pairs:
                self._pairs.move_to_end(key)
                return self._pairs[key]
        pair = (set_digest(log.hashes(job)), state_digest(log, methods, job))
        with self._lock:
            self._pairs[key] = pair
            while len(self._pairs) > KEPT:
                self._pairs.popitem(last=False)
        return pair


def state_digest(log: ReadsLog, methods: MethodStore, job: str) -> str:
    """Of the whole card state; empty where this server cannot know it.

    Which revisions are held decides what the fold shows elsewhere, so all that any entry names must be here.
    """
    entries = [entry_of(json.loads(entry.text)) for entry in log.after(job, 0, 10**9)]
    wanted = sorted({digest for entry in entries for digest in _named(entry)})
    held = methods.texts(wanted)
    if len(held) < len(wanted):
        return ""
    state = fold(methods_of({digest: json.loads(text) for digest, text in held.items()}), entries)
    return "" if state["unknown"] else value_digest(state)


def _named(entry: Entry) -> Iterator[str]:
    """The methods that a pin names, or under which a record was made."""
    if is_known(entry.v, entry.kind):
        yield from entry.body.get("methods", ())
        yield from filter(None, [entry.body.get("digest", "")])
