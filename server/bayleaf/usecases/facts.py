"""What lists and doors need to know of entries that were just taken, kept beside the log.

All of it repeats what the entries say and could be computed again from them.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace
from typing import Any

from bayleaf.domain.entries import entry_of
from bayleaf.domain.fold.log import read_log
from bayleaf.domain.fold.registers import shown_of, standing_values
from bayleaf.ports import LoggedEntry, Span, WritesLog
from bayleaf.usecases.admissions import note_admissions

KINDS = frozenset({"open", "assign", "aside", "admit", "strike"})
WHO_IS_ON_IT = frozenset({"assign", "strike", "aside", "admit"})


def note_facts(log: WritesLog, job: str, entries: Sequence[LoggedEntry], now_ms: int) -> None:
    """Note what these entries say. Not for entries that are set aside: they say nothing until admitted."""
    told = list(_bodies(entries, KINDS))
    for entry, body in told:
        _note(log, job, entry, body)
    note_admissions(log, job, told)
    if _touches_assignments(log, job, told):
        _note_assignments(log, job, now_ms)


def note_late(log: WritesLog, job: str, now_ms: int) -> None:
    """A filed job has got entries that its dossier does not hold, whatever their fate."""
    row = log.job(job)
    if row is not None and row.filed_ms is not None:
        log.mark_late(job, now_ms)


def note_photos(log: WritesLog, job: str, entries: Sequence[LoggedEntry]) -> None:
    """Note which bytes the photo entries name, set aside or not: what is set aside is kept whole."""
    named = [(body["sha256"], body["thumb"]) for _, body in _bodies(entries, {"photo"})]
    if named:
        log.name_photos(job, named)


def _bodies(entries: Sequence[LoggedEntry], kinds: AbstractSet[str]) -> Iterator[tuple[LoggedEntry, Any]]:
    """Bodies of these kinds; what another form of envelope means by a kind is not known."""
    for entry in entries:
        if entry.kind in kinds:
            parsed = json.loads(entry.text)
            if parsed["v"] == 1:
                yield entry, parsed["body"]


def _note(log: WritesLog, job: str, entry: LoggedEntry, body: Any) -> None:
    match entry.kind:
        case "aside":
            log.mark_aside(job, body["hashes"], body["code"])
        case "admit":
            log.mark_admitted(job, body["hashes"])
            admitted = log.by_hashes(job, body["hashes"])
            note_facts(log, job, [one for one in admitted if one.kind != "admit"], entry.received_ms)
        case "open":
            _note_open(log, job, entry, body)
        case _:
            pass


def _note_open(log: WritesLog, job: str, entry: LoggedEntry, body: Any) -> None:
    row = log.job(job)
    if row is None:
        return
    named = {name: body[name] for name in ("order", "vin", "vehicle", "part")}
    log.put_job(replace(row, **named, made_ms=row.made_ms or entry.received_ms))


def _touches_assignments(log: WritesLog, job: str, told: Sequence[tuple[LoggedEntry, Any]]) -> bool:
    """A strike, an aside or an admit matters only if it names an assignment or what names one."""
    if any(entry.kind == "assign" for entry, _ in told):
        return True
    named = {body.get("target", "") for entry, body in told if entry.kind == "strike"}
    named |= {one for entry, body in told if entry.kind in ("aside", "admit") for one in body["hashes"]}
    return any(one.kind in WHO_IS_ON_IT for one in log.by_hashes(job, named - {""}))


def _note_assignments(log: WritesLog, job: str, now_ms: int) -> None:
    """Spans by the server's clock: closed for whom the register now shows off, begun for whom it shows on."""
    entries = [entry_of(json.loads(entry.text)) for entry in log.of_kinds(job, WHO_IS_ON_IT)]
    on = set()
    for key, standing in standing_values(read_log(entries)).items():
        shown = shown_of(standing)
        if key[0] == "assign" and shown is not None and shown.body["on"]:
            on.add(key[4])
    spans = [
        replace(span, until_ms=now_ms) if span.until_ms is None and span.person not in on else span
        for span in log.spans(job)
    ]
    begun = on - {span.person for span in spans if span.until_ms is None}
    fresh = [Span(person, now_ms, None) for person in sorted(begun)]
    log.put_spans(job, [*[span for span in spans if (span.person, span.from_ms) not in _keys(fresh)], *fresh])


def _keys(spans: Sequence[Span]) -> set[tuple[str, int]]:
    return {(span.person, span.from_ms) for span in spans}
