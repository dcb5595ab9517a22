"""A simulated phone: it appends, and syncs by the rules of `web/src/sync`, one request at a time."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from bayleaf.adapters.signatures import PrivateKey
from bayleaf.canonical.digest import NO_ENTRY, entry_hash, set_digest
from bayleaf.canonical.form import dumps
from sim import plan, state_digest
from sim.asking import Answer, NoAnswer, Refused, Request, Talk
from sim.phone_store import EntryRow, FateRow, Intake, JobRow, PhotoRow, PhoneStore, link_of, row_of

EXCHANGES_MAX = 2_000
ROUNDS_MAX = 40
CHUNK_BYTES = 40
Head = Mapping[str, Any]
Card = Mapping[str, str]


@dataclass(frozen=True)
class HandOver:
    """Entries of others, or acknowledged ones of our own, that a server put back lacks."""

    entries: Sequence[plan.Waiting] = ()
    heads: Sequence[Head] = ()
    cards: Sequence[Card] = ()


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

    # -- store/append.ts

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

    # -- sync/round.ts

    def run_round(self) -> Talk[None]:
        """Exchange until nothing waits and no more comes, then bundle and photos."""
        reports: list[plan.Mismatch] = []
        bundle = ""
        for _ in range(EXCHANGES_MAX):
            before = self._standing()
            answer = yield from self.exchange(reports)
            bundle = answer["bundle"]
            reports = yield from self._act(before, answer)
            if not reports and not self._goes_on(before, answer):
                break
        if self.store.settings.get("bundle_due") is not False:
            yield from self._fetch_bundle(bundle)
        self.store.let_go(self.wall())
        yield from self._send_photos()

    def _standing(self) -> tuple[str, dict[str, int], int]:
        cursors = {row.job: row.cursor for row in self.store.jobs.values()}
        return self.store.settings.get("log", ""), cursors, len(self.store.outbox)

    def _goes_on(self, before: tuple[str, dict[str, int], int], answer: Mapping[str, Any]) -> bool:
        _, cursors, waiting = before
        answered = {seen["job"] for seen in answer["jobs"]}
        if any(job not in cursors and job not in answered for job in answer["new_jobs"]):
            return True
        if any(seen["more"] for seen in answer["jobs"]) or self.store.heads_owed:
            return True
        return 0 < len(self.store.outbox) < waiting

    def _act(
        self, before: tuple[str, dict[str, int], int], answer: Mapping[str, Any]
    ) -> Talk[list[plan.Mismatch]]:
        log = plan.log_pair(before[0], answer["log"])
        done = frozenset(self.store.reconciled)
        seen_of = {seen["job"]: seen for seen in answer["jobs"]} | self._gone_seen(before[1], answer)
        reports: list[plan.Mismatch] = []
        for held in self._held_jobs(before[1], seen_of, everything=log.changed):
            nothing = {"job": held.job, "cursor": 0, "more": False, "heads": []}
            step = plan.step_for(held, seen_of.get(held.job, nothing), log, done)
            if step is None:
                continue
            if step.step == "reconcile":
                left = yield from self.reconcile(step.job)
                reports += [left] if left is not None else []
            if step.report is not None:
                reports.append(step.report)
            if step.step == "compare_state":
                reports += self._compared(step, done)
            else:
                self.store.reconciled[step.key] = True
        if log.changed:
            self.store.settings["log"] = answer["log"]
        self.reports_made += reports
        return reports

    def _gone_seen(self, cursors: Mapping[str, int], answer: Mapping[str, Any]) -> dict[str, plan.Seen]:
        """Of a job that is gone only the heads are told: enough to see that the server lost what it had."""
        gone = {one["job"]: one["heads"] for one in answer["gone_heads"]}
        return {
            job: {"job": job, "cursor": cursors.get(job, 0), "more": False, "heads": heads}
            for job, heads in gone.items()
        }

    def _held_jobs(
        self, cursors: Mapping[str, int], answered: Mapping[str, Any], *, everything: bool
    ) -> list[plan.JobHeld]:
        wanted = [
            row
            for row in sorted(self.store.jobs.values(), key=lambda row: row.job)
            if not row.let_go and (everything or row.job in answered)
        ]
        return [
            plan.JobHeld(row.job, self.store.links(row.job), cursors.get(row.job, 0), row.let_go)
            for row in wanted
        ]

    def _compared(self, step: plan.Step, done: frozenset[str]) -> list[plan.Mismatch]:
        same = f"same {step.job} {step.set_digest} {step.state_digest}"
        if same in done:
            return []
        ours = self.state_digest_of(step.job)
        if ours == "":
            return []
        report = None
        if ours != step.state_digest:
            report = plan.report_once(plan.Mismatch(step.job, "state", ours, step.state_digest), done)
        self.store.reconciled[same if report is None else report.key] = True
        return [report.report] if report is not None and report.report is not None else []

    def state_digest_of(self, job: str) -> str:
        return state_digest.of(self.store.methods, [row.text for row in self.store.entries_of(job)])

    # -- sync/exchange.ts

    def exchange(
        self, reports: Sequence[plan.Mismatch], extra: HandOver = HandOver()
    ) -> Talk[Mapping[str, Any]]:
        """One round trip: push what waits, take in what came, in one durable step."""
        self.exchanges += 1
        store = self.store
        waiting = {one.hash: one for one in (*extra.entries, *store.next_out(500))}
        batch = plan.batch_of(list(waiting.values()))
        own = self._signed(batch)
        request = self._request_of(batch, [*own, *extra.heads], reports, extra.cards)
        answer = yield from self._json(Request("POST", "/api/sync", request))
        if store.settings.get("bundle_heard") != answer["bundle"]:
            store.settings["bundle_due"] = True
        self._keep(request, batch, own, answer)
        self._resend_photos(answer)
        return answer

    def _signed(self, batch: Sequence[plan.Waiting]) -> list[Head]:
        if self.forgets_heads:
            self.forgets_heads = False
            return []
        owed = list(self.store.heads_owed.values())
        return [self.signed_head(link) for link in plan.heads_to_sign(batch, owed, self.device)]

    def _request_of(
        self,
        batch: Sequence[plan.Waiting],
        heads: Sequence[Head],
        reports: Sequence[plan.Mismatch],
        cards: Sequence[Card],
    ) -> dict[str, Any]:
        return {
            "protocol": plan.PROTOCOL,
            "log": self.store.settings.get("log", ""),
            "cursors": {row.job: row.cursor for row in self.store.jobs.values()},
            "entries": [one.text for one in batch],
            "heads": list({head["hash"]: dict(head) for head in heads}.values()),
            "cards": [dict(card) for card in cards],
            "clock": {"load": self.load, "at_ms": self.wall(), "mono_ms": self.now_ms},
            "holds": self.store.unsent(),
            "reports": [vars(report) for report in reports],
        }

    def _keep(
        self,
        request: Mapping[str, Any],
        batch: Sequence[plan.Waiting],
        own: Sequence[Head],
        answer: Mapping[str, Any],
    ) -> None:
        heads = [{"job": seen["job"], **head} for seen in answer["jobs"] for head in seen["heads"]]
        self.store.take_in(
            Intake(
                pulled=[one["text"] for seen in answer["jobs"] for one in seen["entries"]],
                log=answer["log"] if request["log"] == "" else request["log"],
                now_ms=self.wall(),
                fates=[self._fate_to_keep(words, batch) for words in answer["fates"]],
                cursors=self._cursors_of(request, answer),
                gone=answer["gone_jobs"],
                filed=answer["filed_jobs"],
                heads=[*own, *signed_ones(heads)],
                heads_sent=[head["hash"] for head in own],
                cards=answer["cards"],
                covered=answer["covered_photos"],
            )
        )

    def _cursors_of(self, request: Mapping[str, Any], answer: Mapping[str, Any]) -> dict[str, int]:
        """After a changed log the cursors of old stand until each job is reconciled."""
        known = request["cursors"]
        fresh = {job: 0 for job in answer["new_jobs"] if job not in known}
        if request["log"] not in ("", answer["log"]):
            return fresh
        moved = {seen["job"]: seen["cursor"] for seen in answer["jobs"]}
        return fresh | {job: cursor for job, cursor in moved.items() if cursor >= known.get(job, 0)}

    def _fate_to_keep(self, words: Mapping[str, Any], batch: Sequence[plan.Waiting]) -> FateRow:
        sent = batch[words["index"]]
        foreign = words["fate"] == "set_aside" and sent.device != self.device
        return FateRow(sent.hash, sent.job, "taken" if foreign else words["fate"], words["code"])

    # -- sync/reconcile.ts

    def reconcile(self, job: str) -> Talk[plan.Mismatch | None]:
        """Each says what the other lacks, until neither lacks anything; the mismatch that is left."""
        for _ in range(ROUNDS_MAX):
            ours = self._hashes_of(job)
            answer = yield from self._ask(job, ours)
            heads = signed_ones([{"job": job, **head} for head in answer["heads"]])
            pulled = [one["text"] for one in answer["entries"]]
            log = self.store.settings.get("log", "")
            self.store.take_in(Intake(pulled, log, self.wall(), heads=heads, cards=answer["cards"]))
            yield from self._lend_files(answer)
            if plan.is_reconciled(answer):
                return self._settle(job, set_digest(ours), answer)
            yield from self._fill_server(job, answer["missing_here"])
        return plan.Mismatch(job, "set", set_digest(self._hashes_of(job)), "no end of reconciling")

    def _hashes_of(self, job: str) -> list[str]:
        return sorted(link.hash for link in self.store.links(job))

    def _ask(self, job: str, hashes: Sequence[str]) -> Talk[Mapping[str, Any]]:
        words = {
            "protocol": plan.PROTOCOL,
            "log": self.store.settings.get("log", ""),
            "job": job,
            "hashes": list(hashes),
            "digest": set_digest(hashes),
        }
        return (yield from self._json(Request("POST", "/api/reconcile", words)))

    def _lend_files(self, answer: Mapping[str, Any]) -> Talk[None]:
        for digest in answer["methods_missing"]:
            text = self.store.methods.get(digest)
            if text is not None:
                yield from self.ask(Request("PUT", f"/api/methods/{digest}", content=text.encode()))
        self._resend_photos(answer)

    def _resend_photos(self, answer: Mapping[str, Any]) -> None:
        """What the office lacks and this phone holds goes again with the next upload."""
        for thumb in answer["thumbs_missing"]:
            if thumb in self.store.thumbs:
                self.store.thumbs[thumb] = (self.store.thumbs[thumb][0], "phone")
        for sha256 in answer["photos_missing"]:
            row = self.store.photos.get(sha256)
            if row is not None and row.where == "office" and sha256 in self.store.photo_bytes:
                self._mark_photo(sha256, "phone")

    def _fill_server(self, job: str, missing: Sequence[str]) -> Talk[None]:
        left = [self.store.entries[found] for found in missing if found in self.store.entries]
        while left:
            entries = plan.hand_over(left)
            sent = {one.hash for one in entries}
            devices = {one.device for one in entries}
            heads = [
                head
                for head in self.store.signed_heads.values()
                if head["job"] == job and head["device"] in devices
            ]
            cards = [self.store.cards[device] for device in sorted(devices) if device in self.store.cards]
            yield from self.exchange([], HandOver(entries, heads, cards))
            left = [one for one in left if one.hash not in sent]

    def _settle(self, job: str, ours: str, answer: Mapping[str, Any]) -> plan.Mismatch | None:
        theirs = answer["set_digest"]
        if theirs == "":
            return None
        if job in self.store.jobs:
            self.store.jobs[job] = replace(self.store.jobs[job], cursor=answer["cursor"])
        return None if theirs == ours else plan.Mismatch(job, "set", ours, theirs)

    # -- sync/bundle.ts, sync/photo_upload.ts

    def _fetch_bundle(self, name: str) -> Talk[None]:
        answer = yield from self.ask(Request("GET", "/api/bundle"))
        self.store.methods |= answer.json["methods"]
        self.store.settings["bundle_heard"] = name
        self.store.settings["bundle_due"] = False

    def _send_photos(self) -> Talk[None]:
        for thumb, (content, where) in list(self.store.thumbs.items()):
            if where == "phone":
                yield from self.ask(Request("PUT", f"/api/thumbs/{thumb}", content=content))
                self.store.thumbs[thumb] = (content, "office")
        refused: Refused | None = None
        for row in [row for row in self.store.photos.values() if row.where == "phone"]:
            if row.sha256 not in self.store.photo_bytes:
                continue
            try:
                yield from self._upload(row, self.store.photo_bytes[row.sha256])
                self._mark_photo(row.sha256, "office")
            except Refused as said:
                refused = refused or said
        if refused is not None:
            raise refused

    def _upload(self, row: PhotoRow, content: bytes) -> Talk[None]:
        """As the tus client does: go on where the server says it is, else begin anew."""
        url, offset = row.upload_url, 0
        if url:
            head = yield from self._resumed(url)
            url, offset = (url, head.headers["Upload-Offset"]) if head is not None else ("", 0)
        if not url:
            told = {"sha256": row.sha256, "type": "image/png", "job": row.job, "length": len(content)}
            begun = yield from self.ask(Request("POST", "/api/photos", headers=told))
            url, offset = begun.headers["Location"], begun.headers["Upload-Offset"]
            self.store.photos[row.sha256] = replace(row, upload_url=url)
        while offset < len(content):
            piece = content[offset : offset + CHUNK_BYTES]
            patched = yield from self.ask(Request("PATCH", url, content=piece, headers={"offset": offset}))
            offset = patched.headers["Upload-Offset"]

    def _resumed(self, url: str) -> Talk[Answer | None]:
        try:
            return (yield from self.ask(Request("HEAD", url)))
        except Refused as said:
            if said.status == 404:
                return None
            raise

    def _mark_photo(self, sha256: str, where: str) -> None:
        self.store.photos[sha256] = replace(self.store.photos[sha256], where=where, upload_url="")

    # -- sync/door.ts

    def _json(self, request: Request) -> Talk[Mapping[str, Any]]:
        answer = yield from self.ask(request)
        body: Mapping[str, Any] = answer.json
        return body

    def ask(self, request: Request) -> Talk[Answer]:
        """The answer of a request that went well; a lost login is renewed once by the device's key."""
        first = yield replace(request, token=self.token)
        if first.status != 401:
            return _settled(first)
        yield from self._renew()
        return _settled((yield replace(request, token=self.token)))

    def _renew(self) -> Talk[None]:
        asked = yield Request("POST", "/api/door/challenge", {"device": self.device})
        nonce = _settled(asked).json["nonce"]
        proof = {
            "device": self.device,
            "nonce": nonce,
            "signature": self.key.sign(f"bayleaf-door-1\n{self.device}\n{nonce}"),
            "card": self.card["card"],
            "card_signature": self.card["signature"],
        }
        renewed = yield Request("POST", "/api/door/renew", proof)
        self.token = _settled(renewed).json["token"]

    # -- sync/hand_in.ts

    def hand_in(self) -> bytes:
        """The unsent records as one file for the office."""
        entries = [self.store.entries[found] for found in self.store.outbox]
        owed = list(self.store.heads_owed.values())
        photos = [
            row
            for row in self.store.photos.values()
            if row.where == "phone" and row.sha256 in self.store.photo_bytes
        ]
        blobs = [self.store.photo_bytes[row.sha256] for row in photos]
        thumbs = [(thumb, found) for thumb, (found, where) in self.store.thumbs.items() if where == "phone"]
        refused = [fate for fate in self.store.fates.values() if fate.fate == "refused"]
        words = {
            "device": self.device,
            "made_ms": self.wall(),
            "cards": [dict(self.card)],
            "heads": [dict(self.signed_head(one)) for one in plan.heads_to_sign(entries, owed, self.device)],
            "entries": [row.text for row in entries],
            "refused": [
                {"text": self.store.entries[fate.hash].text, "code": fate.code}
                for fate in refused
                if fate.hash in self.store.entries
            ],
            "photos": [
                {"sha256": row.sha256, "type": "image/png", "job": row.job, "bytes": len(blob)}
                for row, blob in zip(photos, blobs, strict=True)
            ],
            "thumbs": [{"sha256": thumb, "bytes": len(found)} for thumb, found in thumbs],
        }
        text = f"bayleaf-handin-1\n{dumps(words)}\n".encode()
        return b"".join([text, *blobs, *(found for _, found in thumbs)])


def signed_ones(heads: Sequence[Mapping[str, Any]]) -> list[Head]:
    """Without those that carry no signature: they are no proof to hand on."""
    names = ("job", "device", "seq", "hash", "signature")
    return [{name: head[name] for name in names} for head in heads if head["signature"]]


def _settled(answer: Answer) -> Answer:
    if answer.status < 400:
        return answer
    if answer.status >= 500:
        raise NoAnswer(f"the server answered {answer.status}")
    raise Refused(answer.status, answer.json["code"])


__all__ = ["EntryRow", "JobRow", "Phone", "link_of"]
