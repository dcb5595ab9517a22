"""A simulated phone: its store, its key, its clocks, and how it appends; `sim.sync` is how it syncs."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from bayleaf.adapters.signatures import PrivateKey
from bayleaf.canonical.digest import NO_ENTRY, entry_hash
from bayleaf.canonical.form import dumps
from sim import plan, state_digest
from sim.phone_store import EntryRow, PhoneStore, PhotoRow, row_of

Head = Mapping[str, Any]
Card = Mapping[str, str]


@dataclass
class Phone:
    """`wall_ms` is how far its wall clock is off; a kill ends a round and begins another page load."""

    name: str
    device: str
    person: str
    roles: tuple[str, ...]
    key: PrivateKey
    card: Card
    token: str = ""
    store: PhoneStore = field(default_factory=PhoneStore)
    load: str = "00000000-0000-4000-8000-0000000010ad"
    now_ms: int = 0
    wall_ms: int = 0
    state: str = "paired"
    forgets_heads: bool = False
    exchanges: int = 0
    reports_made: list[plan.Mismatch] = field(default_factory=list)

    def append(self, job: str, kind: str, body: Mapping[str, Any], **envelope: Any) -> EntryRow:
        """One entry, durable when this returns; `envelope` replaces members (`as_` its `as`)."""
        head = self.store.chains.get(job)
        entry: dict[str, Any] = {
            "v": 1, "job": job, "device": self.device, "seq": head.seq + 1 if head else 1,
            "by": self.person, "auth": "own", "as": sorted(self.roles),
            "at_ms": self.wall(), "mono_ms": self.now_ms, "load": self.load, "kind": kind,
            "body": body, "prev": head.hash if head else NO_ENTRY,
        }  # fmt: skip
        entry["as"] = envelope.pop("as_", entry["as"])
        entry |= envelope
        row = row_of(dumps({**entry, "hash": entry_hash(entry)}))
        self.store.keep_own(row)
        return row

    def keep_photo(self, job: str, content: bytes, thumb: bytes) -> tuple[str, str]:
        """Bytes first, then (by the caller) the entry that names them."""
        sha256, thumb_hash = (hashlib.sha256(found).hexdigest() for found in (content, thumb))
        self.store.photo_bytes[sha256] = content
        self.store.photos.setdefault(sha256, PhotoRow(sha256, job, "phone"))
        self.store.thumbs.setdefault(thumb_hash, (thumb, "phone"))
        return sha256, thumb_hash

    def wall(self) -> int:
        return self.now_ms + self.wall_ms

    def signed_head(self, link: plan.Link) -> Head:
        text = f"bayleaf-head-1\n{link.job}\n{link.device}\n{link.seq}\n{link.hash}"
        named = {"job": link.job, "device": link.device, "seq": link.seq, "hash": link.hash}
        return {**named, "signature": self.key.sign(text)}

    def state_digest_of(self, job: str) -> str:
        return state_digest.of(self.store.methods, [row.text for row in self.store.entries_of(job)])

    def mark_photo(self, sha256: str, where: str) -> None:
        self.store.photos[sha256] = replace(self.store.photos[sha256], where=where, upload_url="")
