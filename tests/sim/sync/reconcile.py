"""Reconciling one job, as `web/src/sync/reconcile.ts`: until neither side lacks anything."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from bayleaf.canonical.digest import set_digest
from sim import plan
from sim.asking import Request, Talk
from sim.phone import Phone
from sim.phone_store import Intake
from sim.sync import door, exchange

ROUNDS_MAX = 40


def reconcile(phone: Phone, job: str) -> Talk[plan.Mismatch | None]:
    """Each says what the other lacks, until neither lacks anything; the mismatch that is left."""
    for _ in range(ROUNDS_MAX):
        ours = _hashes_of(phone, job)
        answer = yield from _ask(phone, job, ours)
        heads = exchange.signed_ones([{"job": job, **head} for head in answer["heads"]])
        pulled = [one["text"] for one in answer["entries"]]
        log = phone.store.settings.get("log", "")
        phone.store.take_in(Intake(pulled, log, phone.wall(), heads=heads, cards=answer["cards"]))
        yield from _lend_files(phone, answer)
        if plan.is_reconciled(answer):
            return _settle(phone, job, set_digest(ours), answer)
        yield from _fill_server(phone, job, answer["missing_here"])
    return plan.Mismatch(job, "set", set_digest(_hashes_of(phone, job)), "no end of reconciling")


def _hashes_of(phone: Phone, job: str) -> list[str]:
    return sorted(link.hash for link in phone.store.links(job))


def _ask(phone: Phone, job: str, hashes: Sequence[str]) -> Talk[Mapping[str, Any]]:
    words = {
        "protocol": plan.PROTOCOL,
        "log": phone.store.settings.get("log", ""),
        "job": job,
        "hashes": list(hashes),
        "digest": set_digest(hashes),
    }
    return (yield from door.json(phone, Request("POST", "/api/reconcile", words)))


def _lend_files(phone: Phone, answer: Mapping[str, Any]) -> Talk[None]:
    for digest in answer["methods_missing"]:
        text = phone.store.methods.get(digest)
        if text is not None:
            yield from door.ask(phone, Request("PUT", f"/api/methods/{digest}", content=text.encode()))
    exchange.resend_photos(phone, answer)


def _fill_server(phone: Phone, job: str, missing: Sequence[str]) -> Talk[None]:
    left = [phone.store.entries[found] for found in missing if found in phone.store.entries]
    while left:
        entries = plan.hand_over(left)
        sent = {one.hash for one in entries}
        heads = [head for head in phone.store.signed_heads.values() if head["job"] == job]
        devices = {one.device for one in entries} | {str(head["device"]) for head in heads}
        cards = [phone.store.cards[device] for device in sorted(devices) if device in phone.store.cards]
        yield from exchange.exchange(phone, [], exchange.HandOver(entries, heads, cards))
        left = [one for one in left if one.hash not in sent]


def _settle(phone: Phone, job: str, ours: str, answer: Mapping[str, Any]) -> plan.Mismatch | None:
    theirs = answer["set_digest"]
    if theirs == "":
        return None
    if job in phone.store.jobs:
        phone.store.jobs[job] = replace(phone.store.jobs[job], cursor=answer["cursor"])
    return None if theirs == ours else plan.Mismatch(job, "set", ours, theirs)
