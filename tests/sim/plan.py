"""The plan of a sync as a phone has it: `web/src/core/sync_plan.ts`, rule for rule and name for name."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from typing import Any

from bayleaf.canonical.digest import set_digest, text_hash

PROTOCOL = 1
BATCH_ENTRIES_MAX = 500
BATCH_CHARACTERS_MAX = 1_500_000

Seen = Mapping[str, Any]
"""What the server says of one job: cursor, more, heads, and perhaps set_digest and state_digest."""


@dataclass(frozen=True)
class Link:
    """An entry's place in its chain."""

    job: str
    device: str
    seq: int
    hash: str


@dataclass(frozen=True)
class Waiting(Link):
    """An entry with its text, to be sent."""

    text: str


@dataclass(frozen=True)
class HeldLink:
    """An entry as the plan sees it: `waiting` until the server acknowledged it."""

    device: str
    seq: int
    hash: str
    waiting: bool


@dataclass(frozen=True)
class JobHeld:
    """What this phone holds of one job; `cursor` is the one before this round trip."""

    job: str
    links: Sequence[HeldLink]
    cursor: int
    let_go: bool


@dataclass(frozen=True)
class Mismatch:
    """What is told to the office's log; it stops nobody."""

    job: str
    what: str
    ours: str
    theirs: str


@dataclass(frozen=True)
class Step:
    """`reconcile` (job, key), `report` (report, key) or `compare_state` (job and both digests)."""

    step: str
    job: str
    key: str = ""
    report: Mismatch | None = None
    set_digest: str = ""
    state_digest: str = ""


@dataclass(frozen=True)
class LogPair:
    """`changed`: another store answers than the one this phone heard last."""

    now: str
    changed: bool


def batch_of(waiting: Sequence[Waiting]) -> Sequence[Waiting]:
    characters = 0
    for index, one in enumerate(waiting[:BATCH_ENTRIES_MAX]):
        characters += len(one.text)
        if index > 0 and characters > BATCH_CHARACTERS_MAX:
            return waiting[:index]
    return waiting[:BATCH_ENTRIES_MAX]


def heads_to_sign(batch: Iterable[Link], owed: Iterable[Link], device: str) -> list[Link]:
    newest: dict[str, Link] = {}
    for link in batch:
        if link.device != device:
            continue
        known = newest.get(link.job)
        if known is None or known.seq < link.seq:
            newest[link.job] = link
    heads = [*newest.values(), *(one for one in owed if one.device == device)]
    return list({head.hash: head for head in heads}.values())


def step_for(held: JobHeld, seen: Seen, log: LogPair, done: AbstractSet[str]) -> Step | None:
    if held.let_go:
        return None
    ours = set_digest(link.hash for link in held.links)
    theirs = seen.get("set_digest", "")
    if log.changed:
        return _reconcile_once(held.job, log.now, ours, _behind_name(seen), done)
    if seen["more"]:
        return None
    if _is_behind(held, seen):
        return _reconcile_once(held.job, log.now, ours, _behind_name(seen), done)
    if theirs == "" or any(link.waiting for link in held.links):
        return None
    if theirs != ours:
        return _reconcile_or_report(held.job, log.now, ours, theirs, done)
    if "state_digest" not in seen:
        return None
    return Step("compare_state", held.job, set_digest=ours, state_digest=seen["state_digest"])


def log_pair(known: str, now: str) -> LogPair:
    return LogPair(now, known not in ("", now))


def _is_behind(held: JobHeld, seen: Seen) -> bool:
    if seen["cursor"] < held.cursor:
        return True
    theirs = {head["device"]: head for head in seen["heads"]}
    known = {link.hash for link in held.links}
    return any(
        _is_short(theirs.get(device), seq, count, known)
        for device, (seq, count) in _heard_chains(held.links).items()
    )


def _is_short(theirs: Seen | None, seq: int, count: int, known: AbstractSet[str]) -> bool:
    if theirs is None or theirs["seq"] < seq:
        return True
    if theirs["seq"] == seq and theirs["hash"] not in known:
        return True
    return bool(theirs.get("count", count) < count)


def _heard_chains(links: Iterable[HeldLink]) -> dict[str, tuple[int, int]]:
    chains: dict[str, tuple[int, int]] = {}
    for link in links:
        if not link.waiting:
            seq, count = chains.get(link.device, (0, 0))
            chains[link.device] = (max(link.seq, seq), count + 1)
    return chains


def _behind_name(seen: Seen) -> str:
    heads = sorted(
        f"{head['device']} {head['seq']} {head['hash']} {head.get('count', 0)}" for head in seen["heads"]
    )
    return text_hash("\n".join([f"cursor {seen['cursor']}", *heads]))


def _reconcile_once(job: str, log: str, ours: str, theirs: str, done: AbstractSet[str]) -> Step | None:
    key = reconcile_key(job, log, ours, theirs)
    return None if key in done else Step("reconcile", job, key)


def _reconcile_or_report(job: str, log: str, ours: str, theirs: str, done: AbstractSet[str]) -> Step | None:
    first = _reconcile_once(job, log, ours, theirs, done)
    return first if first is not None else report_once(Mismatch(job, "set", ours, theirs), done)


def reconcile_key(job: str, log: str, ours: str, theirs: str) -> str:
    return f"reconcile {job} {log} {ours} {theirs}"


def report_once(report: Mismatch, done: AbstractSet[str]) -> Step | None:
    key = f"report {report.what} {report.job} {report.ours} {report.theirs}"
    return None if key in done else Step("report", report.job, key, report)


def is_reconciled(lacks: Mapping[str, Any]) -> bool:
    return not lacks["missing_here"] and not lacks["entries"]


def hand_over(texts: Iterable[Waiting]) -> Sequence[Waiting]:
    return batch_of(sorted(texts, key=lambda one: (one.device, one.seq)))
