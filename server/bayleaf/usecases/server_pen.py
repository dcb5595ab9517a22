"""The server's own hand: its entries get seq, prev, hash and signature inside the append transaction."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from bayleaf.canonical.digest import NO_ENTRY, text_hash
from bayleaf.canonical.form import MAX_BYTES, dumps
from bayleaf.ports import NIL, LoggedEntry, ServerDevice, SignedHead, WritesLog
from bayleaf.usecases.cards import DeviceCard, signed_card
from bayleaf.usecases.facts import note_facts, note_late, note_photos
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal

SERVER_NAME = "office"
AT_ONCE = 500  # hashes in one `aside` or `admit`, so that its text stays within what an entry may be


class Draft(NamedTuple):
    """What is to be written; the envelope is the server's."""

    kind: str
    body: Mapping[str, Any]


@dataclass(frozen=True)
class Author:
    """For whom it writes; nobody where it acts by itself."""

    person: str = NIL
    roles: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Chained:
    """Where the next entry hangs."""

    job: str
    device: str
    seq: int
    prev: str


def write(
    office: Office, log: WritesLog, job: str, drafts: Sequence[Draft], author: Author
) -> list[LoggedEntry]:
    """Append the drafts as entries of the server's device, signed; the caller holds the job's lock."""
    if not drafts:
        return []
    device = log.own_device()
    seq, prev = log.tip(job, device.id) or (0, NO_ENTRY)
    entries: list[LoggedEntry] = []
    for at, draft in enumerate(drafts, seq + 1):
        entry = _entry(office, _Chained(job, device.id, at, prev), draft, author)
        entries.append(entry)
        prev = entry.hash
    first = log.append(job, entries)
    _sign(office, log, device, entries[-1])
    numbered = [entry._replace(number=number) for number, entry in enumerate(entries, first)]
    now_ms = office.clock.now_ms()
    note_late(log, job, now_ms)
    note_photos(log, job, numbered)
    note_facts(log, job, numbered, now_ms)
    return numbered


def set_aside(office: Office, log: WritesLog, job: str, code: str, hashes: Sequence[str]) -> None:
    """Write `aside` for these entries."""
    drafts = [Draft("aside", {"hashes": some, "code": code}) for some in _portions(hashes)]
    write(office, log, job, drafts, Author())


def admit(office: Office, log: WritesLog, job: str, reason: str, hashes: Sequence[str]) -> None:
    """Write `admit` for these entries."""
    drafts = [Draft("admit", {"hashes": some, "reason": reason}) for some in _portions(hashes)]
    write(office, log, job, drafts, Author())


def new_device(office: Office) -> ServerDevice:
    """The server as a device with a new id and key, its card signed by the seal."""
    public_key, private_pem = office.pens.make()
    device = office.ids.uuid()
    now_ms = office.clock.now_ms()
    card = DeviceCard(device, public_key, SERVER_NAME, NIL, ("office",), (), now_ms)
    signed = signed_card(card, office.seal)
    return ServerDevice(device, public_key, private_pem, signed.text, signed.signature)


def _entry(office: Office, chained: _Chained, draft: Draft, author: Author) -> LoggedEntry:
    kind, body = draft
    job, device, seq, prev = chained.job, chained.device, chained.seq, chained.prev
    now_ms = office.clock.now_ms()
    envelope: dict[str, Any] = {
        "v": 1,
        "job": job,
        "device": device,
        "seq": seq,
        "by": author.person,
        "auth": "own",
        "as": sorted(set(author.roles)),
        "at_ms": now_ms,
        "mono_ms": office.clock.mono_ms(),
        "load": office.clock.load,
        "kind": kind,
        "body": body,
        "prev": prev,
    }
    found = text_hash(dumps(envelope))
    text = dumps({**envelope, "hash": found})
    if len(text.encode()) > MAX_BYTES:
        said = (
            f"body: the entry would have {len(text.encode())} bytes, allowed are {MAX_BYTES}; say it in two."
        )
        raise Refusal("too_long", said, "body")
    return LoggedEntry(found, job, 0, device, seq, prev, kind, text, now_ms, 0, device, signed=True)


def _sign(office: Office, log: WritesLog, device: ServerDevice, newest: LoggedEntry) -> None:
    unsigned = SignedHead(newest.job, device.id, newest.seq, newest.hash, "")
    head = replace(unsigned, signature=office.pens.sign(device.private_pem, unsigned.text))
    older = [one.hash for one in log.heads(newest.job) if one.device == device.id and one.seq < newest.seq]
    log.drop_heads(newest.job, device.id, older)
    log.put_heads([head], newest.received_ms)


def _portions(hashes: Sequence[str]) -> list[list[str]]:
    ordered = sorted(set(hashes))
    return [ordered[start : start + AT_ONCE] for start in range(0, len(ordered), AT_ONCE)]
