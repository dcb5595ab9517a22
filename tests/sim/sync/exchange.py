"""One round trip of a simulated phone, as `web/src/sync/exchange.ts`: push, and take in what came."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sim import plan
from sim.asking import Request, Talk
from sim.phone import Card, Head, Phone
from sim.phone_store import FateRow, Intake
from sim.sync import door


@dataclass(frozen=True)
class HandOver:
    """Entries of others, or acknowledged ones of our own, that a server put back lacks."""

    entries: Sequence[plan.Waiting] = ()
    heads: Sequence[Head] = ()
    cards: Sequence[Card] = ()


NOTHING_TO_HAND_OVER = HandOver()


def exchange(
    phone: Phone, reports: Sequence[plan.Mismatch], extra: HandOver = NOTHING_TO_HAND_OVER
) -> Talk[Mapping[str, Any]]:
    """One round trip: push what waits, take in what came, in one durable step."""
    phone.exchanges += 1
    store = phone.store
    waiting = {one.hash: one for one in (*extra.entries, *store.next_out(500))}
    batch = plan.batch_of(list(waiting.values()))
    own = _signed(phone, batch)
    request = _request_of(phone, batch, [*own, *extra.heads], reports, extra.cards)
    answer = yield from door.json(phone, Request("POST", "/api/sync", request))
    if store.settings.get("bundle_heard") != answer["bundle"]:
        store.settings["bundle_due"] = True
    _keep(phone, request, batch, own, answer)
    resend_photos(phone, answer)
    return answer


def _signed(phone: Phone, batch: Sequence[plan.Waiting]) -> list[Head]:
    if phone.forgets_heads:
        phone.forgets_heads = False
        return []
    owed = list(phone.store.heads_owed.values())
    return [phone.signed_head(link) for link in plan.heads_to_sign(batch, owed, phone.device)]


def _request_of(
    phone: Phone,
    batch: Sequence[plan.Waiting],
    heads: Sequence[Head],
    reports: Sequence[plan.Mismatch],
    cards: Sequence[Card],
) -> dict[str, Any]:
    return {
        "protocol": plan.PROTOCOL,
        "log": phone.store.settings.get("log", ""),
        "cursors": {row.job: row.cursor for row in phone.store.jobs.values()},
        "entries": [one.text for one in batch],
        "heads": list({head["hash"]: dict(head) for head in heads}.values()),
        "cards": [dict(card) for card in cards],
        "clock": {"load": phone.load, "at_ms": phone.wall(), "mono_ms": phone.now_ms},
        "holds": phone.store.unsent(),
        "reports": [vars(report) for report in reports],
    }


def _keep(
    phone: Phone,
    request: Mapping[str, Any],
    batch: Sequence[plan.Waiting],
    own: Sequence[Head],
    answer: Mapping[str, Any],
) -> None:
    heads = [{"job": seen["job"], **head} for seen in answer["jobs"] for head in seen["heads"]]
    phone.store.take_in(
        Intake(
            pulled=[one["text"] for seen in answer["jobs"] for one in seen["entries"]],
            log=answer["log"] if request["log"] == "" else request["log"],
            now_ms=phone.wall(),
            fates=[_fate_to_keep(phone, words, batch) for words in answer["fates"]],
            cursors=_cursors_of(phone, request, answer),
            gone=answer["gone_jobs"],
            filed=answer["filed_jobs"],
            heads=[*own, *signed_ones(heads)],
            heads_sent=[head["hash"] for head in own],
            cards=answer["cards"],
            covered=answer["covered_photos"],
        )
    )


def _cursors_of(phone: Phone, request: Mapping[str, Any], answer: Mapping[str, Any]) -> dict[str, int]:
    """After a changed log the cursors of old stand until each job is reconciled."""
    known = request["cursors"]
    fresh = {job: 0 for job in answer["new_jobs"] if job not in known}
    if request["log"] not in ("", answer["log"]):
        return fresh
    moved = {seen["job"]: seen["cursor"] for seen in answer["jobs"]}
    return fresh | {job: cursor for job, cursor in moved.items() if cursor >= known.get(job, 0)}


def _fate_to_keep(phone: Phone, words: Mapping[str, Any], batch: Sequence[plan.Waiting]) -> FateRow:
    sent = batch[words["index"]]
    foreign = words["fate"] == "set_aside" and sent.device != phone.device
    return FateRow(sent.hash, sent.job, "taken" if foreign else words["fate"], words["code"])


def resend_photos(phone: Phone, answer: Mapping[str, Any]) -> None:
    """What the office lacks and this phone holds goes again with the next upload."""
    for thumb in answer["thumbs_missing"]:
        if thumb in phone.store.thumbs:
            phone.store.thumbs[thumb] = (phone.store.thumbs[thumb][0], "phone")
    for sha256 in answer["photos_missing"]:
        row = phone.store.photos.get(sha256)
        if row is not None and row.where == "office" and sha256 in phone.store.photo_bytes:
            phone.mark_photo(sha256, "phone")


def signed_ones(heads: Sequence[Mapping[str, Any]]) -> list[Head]:
    """Without those that carry no signature: they are no proof to hand on."""
    names = ("job", "device", "seq", "hash", "signature")
    return [{name: head[name] for name in names} for head in heads if head["signature"]]
