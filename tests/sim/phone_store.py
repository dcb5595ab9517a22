"""The store of a simulated phone: the tables of `web/src/store`, and how an answer is taken in."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from bayleaf.canonical.digest import NO_ENTRY
from sim.plan import HeldLink, Link, Waiting

KEPT_AFTER_FILING_MS = 30 * 24 * 3_600_000


@dataclass(frozen=True)
class EntryRow(Waiting):
    """An entry's words as they came."""

    parsed: Mapping[str, Any]

    @property
    def kind(self) -> str:
        return str(self.parsed["kind"])


@dataclass(frozen=True)
class FateRow:
    """What the server said of an entry that it did not simply take."""

    hash: str
    job: str
    fate: str
    code: str


@dataclass(frozen=True)
class JobRow:
    job: str
    cursor: int
    gone: bool = False
    filed_heard_ms: int = 0
    let_go: bool = False


@dataclass(frozen=True)
class PhotoRow:
    """A photo of this phone; `where` its bytes are known to be."""

    sha256: str
    job: str
    where: str
    covered: bool = False
    upload_url: str = ""


@dataclass(frozen=True)
class Intake:
    """All that one answer of the server changes here."""

    pulled: Sequence[str]
    log: str
    now_ms: int
    fates: Sequence[FateRow] = ()
    cursors: Mapping[str, int] = field(default_factory=dict)
    gone: Sequence[str] = ()
    filed: Sequence[str] = ()
    heads: Sequence[Mapping[str, Any]] = ()
    heads_sent: Sequence[str] = ()
    cards: Sequence[Mapping[str, str]] = ()
    covered: Sequence[str] = ()


@dataclass
class PhoneStore:
    """What survives a kill. A backup of the phone is a copy of it."""

    entries: dict[str, EntryRow] = field(default_factory=dict)
    chains: dict[str, Link] = field(default_factory=dict)
    outbox: dict[str, Link] = field(default_factory=dict)
    fates: dict[str, FateRow] = field(default_factory=dict)
    heads_owed: dict[str, Link] = field(default_factory=dict)
    signed_heads: dict[str, Mapping[str, Any]] = field(default_factory=dict)
    cards: dict[str, Mapping[str, str]] = field(default_factory=dict)
    jobs: dict[str, JobRow] = field(default_factory=dict)
    photos: dict[str, PhotoRow] = field(default_factory=dict)
    photo_bytes: dict[str, bytes] = field(default_factory=dict)
    thumbs: dict[str, tuple[bytes, str]] = field(default_factory=dict)
    methods: dict[str, str] = field(default_factory=dict)
    reconciled: dict[str, bool] = field(default_factory=dict)
    settings: dict[str, Any] = field(default_factory=dict)

    def copy(self) -> PhoneStore:
        return PhoneStore(**{name: dict(held) for name, held in vars(self).items()})

    def links(self, job: str) -> list[HeldLink]:
        """Without refused ones: what the server may hold of the job."""
        return [
            HeldLink(row.device, row.seq, row.hash, row.hash in self.outbox) for row in self.entries_of(job)
        ]

    def entries_of(self, job: str) -> list[EntryRow]:
        return [row for row in self.entries.values() if row.job == job and not self.is_refused(row.hash)]

    def is_refused(self, found: str) -> bool:
        fate = self.fates.get(found)
        return fate is not None and fate.fate == "refused"

    def next_out(self, limit: int) -> list[Waiting]:
        """Oldest first within each job's chain."""
        rows = sorted(self.outbox.values(), key=lambda link: (link.job, link.seq))[:limit]
        return [self.entries[link.hash] for link in rows if link.hash in self.entries]

    def unsent(self) -> dict[str, int]:
        photos = sum(row.where == "phone" for row in self.photos.values())
        return {"entries": len(self.outbox), "photos": photos}

    def keep_own(self, row: EntryRow) -> None:
        """One append: the entry, its chain's head, and that it waits."""
        link = link_of(row)
        self.entries[row.hash] = row
        self.chains[row.job] = link
        self.outbox[row.hash] = link

    def take_in(self, intake: Intake) -> None:
        for fate in intake.fates:
            self._keep_fate(fate)
        self._keep_pulled([row_of(text) for text in intake.pulled])
        for sent in intake.heads_sent:
            self.heads_owed.pop(sent, None)
        self.signed_heads |= {head["hash"]: head for head in intake.heads}
        self.cards |= {json.loads(card["card"])["device"]: card for card in intake.cards}
        self._keep_jobs(intake)
        for sha256 in intake.covered:
            if sha256 in self.photos:
                self.photos[sha256] = replace(self.photos[sha256], covered=True)
        self.settings["log"] = intake.log

    def let_go(self, now_ms: int) -> None:
        """Covered photos of filed jobs; entries 30 days after filing, if nothing of the job waits."""
        filed = [row for row in self.jobs.values() if row.filed_heard_ms > 0]
        for photo in list(self.photos.values()):
            if photo.job in {row.job for row in filed} and photo.covered and photo.where == "office":
                self.photo_bytes.pop(photo.sha256, None)
        for row in filed:
            if not row.let_go and row.filed_heard_ms + KEPT_AFTER_FILING_MS < now_ms:
                self._drop_entries(row)

    def _drop_entries(self, row: JobRow) -> None:
        waits = any(link.job == row.job for link in self.outbox.values())
        if waits or any(fate.job == row.job and fate.fate == "refused" for fate in self.fates.values()):
            return
        self.entries = {key: one for key, one in self.entries.items() if one.job != row.job}
        self.signed_heads = {key: one for key, one in self.signed_heads.items() if one["job"] != row.job}
        self.jobs[row.job] = replace(row, let_go=True)

    def _keep_fate(self, fate: FateRow) -> None:
        self.outbox.pop(fate.hash, None)
        if fate.fate == "taken":
            self.fates.pop(fate.hash, None)
            return
        self.fates[fate.hash] = fate
        if fate.fate == "refused":
            self._owe_head_before(fate.hash)

    def _owe_head_before(self, refused: str) -> None:
        row = self.entries.get(refused)
        prev = NO_ENTRY if row is None else str(row.parsed["prev"])
        before = self.entries.get(prev)
        if before is not None and not self.is_refused(prev):
            self.heads_owed[before.hash] = link_of(before)

    def _keep_pulled(self, pulled: Iterable[EntryRow]) -> None:
        for row in pulled:
            if row.hash in self.entries:
                self.outbox.pop(row.hash, None)
            self.entries.setdefault(row.hash, row)
            if row.kind == "admit":
                for admitted in row.parsed["body"]["hashes"]:
                    self.fates.pop(admitted, None)

    def _keep_jobs(self, intake: Intake) -> None:
        moved = {json.loads(text)["job"] for text in intake.pulled}
        for job, cursor in intake.cursors.items():
            row = self.jobs.get(job, JobRow(job, 0))
            let_go = row.let_go and job not in moved
            self.jobs[job] = replace(row, cursor=cursor, gone=False, let_go=let_go)
        for job in intake.gone:
            if job in self.jobs:
                self.jobs[job] = replace(self.jobs[job], gone=True)
        for job in intake.filed:
            if job in self.jobs and self.jobs[job].filed_heard_ms == 0:
                self.jobs[job] = replace(self.jobs[job], filed_heard_ms=intake.now_ms)


def row_of(text: str) -> EntryRow:
    parsed = json.loads(text)
    return EntryRow(parsed["job"], parsed["device"], parsed["seq"], parsed["hash"], text, parsed)


def link_of(row: Link) -> Link:
    return Link(row.job, row.device, row.seq, row.hash)
