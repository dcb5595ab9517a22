"""The chains of one job in one request: which entries valid heads cover, old ones included."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from bayleaf.ports import SignedHead, WritesLog
from bayleaf.usecases.coverage import walk
from bayleaf.usecases.judge import Judge, Verdict
from bayleaf.usecases.office import Office
from bayleaf.wire.entries import ReadEntry


@dataclass(frozen=True)
class Brings:
    """What a request brings for one job: entries that are new here, and heads."""

    job: str
    fresh: Sequence[ReadEntry]
    heads: Sequence[SignedHead]


class Chains:
    """Verifies each head once, and walks each chain once."""

    def __init__(self, office: Office, log: WritesLog, judge: Judge, brings: Brings) -> None:
        self.job = brings.job
        self._judge = judge
        self.mended: set[str] = set()
        self._log = log
        self._signed: set[str] = set()
        self._passed: defaultdict[str, set[str]] = defaultdict(set)
        new: defaultdict[str, dict[str, str]] = defaultdict(dict)
        for one in brings.fresh:
            new[one.parsed["device"]][one.hash] = one.parsed["prev"]
        stored = log.heads(self.job)
        self._heads = self._valid(office, brings.heads, {(head.device, head.hash) for head in stored})
        for device in sorted(set(new) | {head.device for head in self._heads}):
            roots = [head.hash for head in (*stored, *self._heads) if head.device == device]
            self._walk(device, new[device], roots)

    def signs(self, found: str) -> bool:
        """Whether a valid head covers this new entry."""
        return found in self._signed

    def by_server(self, entry: ReadEntry) -> bool:
        """Whether this server wrote it, now or before it was put back."""
        return self._judge.is_server(entry.parsed["device"]) and self.signs(entry.hash)

    def verdict(self, entry: ReadEntry) -> Verdict:
        """Taken, or why it is set aside."""
        return self._judge.verdict(entry, signed=self.signs(entry.hash))

    def keep(self, now_ms: int) -> None:
        """Store the new heads and what they cover, and drop those that they make needless."""
        self._log.sign(self.job, sorted(self.mended))
        self._log.put_heads(self._heads, now_ms)
        for device, hashes in self._passed.items():
            if hashes:
                self._log.drop_heads(self.job, device, hashes)

    def _valid(
        self, office: Office, heads: Sequence[SignedHead], known: AbstractSet[tuple[str, str]]
    ) -> list[SignedHead]:
        keys = {device: own.public_key for device, own in self._log.own_devices().items()}
        valid = {}
        for head in heads:
            found = self._judge.device(head.device)
            key = keys.get(head.device) or (found.public_key if found is not None else "")
            fresh = (head.device, head.hash) not in known
            if fresh and key and office.keys.verifies(key, head.text, head.signature):
                valid[(head.device, head.hash)] = head
        return list(valid.values())

    def _walk(self, device: str, new: dict[str, str], roots: Sequence[str]) -> None:
        old = {entry.hash: entry.prev for entry in self._log.unsigned(self.job, device)}
        prevs = {**old, **new}
        covered = walk(prevs, roots)
        bare = set(new) - covered.covered
        if bare:
            behind = self._log.signed_after(self.job, device, bare)
            more = walk(prevs, behind)
            self._signed |= more.covered & set(new)
            self.mended |= more.covered & set(old)
        self._signed |= covered.covered & set(new)
        self.mended |= covered.covered & set(old)
        self._passed[device] = set(covered.passed) & set(roots)
