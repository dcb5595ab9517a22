"""The board: one row a job, from its fold and from what the server knows beside it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from bayleaf.domain.entries import Entry, read_entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc, methods_of
from bayleaf.domain.state import CardState
from bayleaf.door_ports import Device, DeviceState, Person
from bayleaf.ports import JobRow, LoggedEntry, ReadsLog
from bayleaf.usecases.board_rows import Folded, card_part
from bayleaf.usecases.office import Office

PAGE = 2_000
KEPT_FOLDS = 200


@dataclass(frozen=True)
class Shelf:
    """What every row looks things up in."""

    people: Mapping[str, Person]
    devices: tuple[Device, ...]


class Board:
    """Makes the rows, and keeps a job's fold until its log has grown."""

    def __init__(self) -> None:
        self._folds: dict[str, tuple[tuple[int, int], Folded]] = {}

    def rows(self, office: Office, *, filed: bool) -> list[dict[str, object]]:
        """Open and closed jobs, the newest first; the filed ones too if asked for."""
        shelf = Shelf({one.id: one for one in office.people.all()}, tuple(office.devices.all()))
        with office.log.reading() as log:
            wanted = [job for job in log.jobs() if filed or job.filed_ms is None]
            rows = [self._row(office, log, job, shelf) for job in wanted]
        return sorted(rows, key=lambda row: str(row["order"]))

    def _row(self, office: Office, log: ReadsLog, job: JobRow, shelf: Shelf) -> dict[str, object]:
        folded = self._folded(office, log, job)
        photos = {photo for photo, _ in log.photos_named(job.id)}
        return {
            "job": job.id,
            "order": job.order,
            "vin": job.vin,
            "vehicle": job.vehicle,
            "part": job.part,
            "filed": job.filed_ms is not None,
            "opened_ms": job.made_ms,
            "count": job.count,
            **card_part(folded),
            "photos_not_here": len(photos - office.photos.held(photos)),
            "refused": len(log.refused_of(job.id)),
            "devices": list(_devices(folded, shelf)),
        }

    def _folded(self, office: Office, log: ReadsLog, job: JobRow) -> Folded:
        mark = (job.count, len(office.methods.digests()))
        kept = self._folds.get(job.id)
        if kept is not None and kept[0] == mark:
            return kept[1]
        folded = folded_job(office, log, job.id)
        if len(self._folds) >= KEPT_FOLDS:
            self._folds.clear()
        self._folds[job.id] = (mark, folded)
        return folded


def folded_job(office: Office, log: ReadsLog, job: str) -> Folded:
    """A job's entries, the methods that they name, and what they add up to."""
    logged = list(_all(log, job))
    entries = {one.hash: read_entry(one.text) for one in logged}
    methods = _methods(office, entries.values())
    state: CardState = fold(methods, entries.values())
    offsets = {one.hash: one.offset_ms or 0 for one in logged}
    return Folded(entries, methods, state, offsets)


def _all(log: ReadsLog, job: str) -> Iterable[LoggedEntry]:
    number = 0
    while page := log.after(job, number, PAGE):
        yield from page
        number = page[-1].number


def _methods(office: Office, entries: Iterable[Entry]) -> dict[str, MethodDoc]:
    """Those that are pinned, and those that entries were made under: the fold compares their steps."""
    wanted = {digest for one in entries for digest in _digests(one.body)}
    texts = office.methods.texts(sorted(wanted))
    return methods_of({digest: json.loads(text) for digest, text in texts.items()})


def _digests(body: Mapping[str, Any]) -> Iterable[str]:
    pinned = body.get("methods", ())
    named = [*(pinned if isinstance(pinned, list) else ()), body.get("digest", "")]
    return (digest for digest in named if isinstance(digest, str) and digest)


def _devices(folded: Folded, shelf: Shelf) -> Iterable[dict[str, object]]:
    """Paired devices of assigned people, and of authors."""
    authors = {one.device for one in folded.entries.values()}
    assigned = set(folded.state["job"]["assigned"])
    for device in shelf.devices:
        if device.state is DeviceState.PAIRED and (device.id in authors or device.person in assigned):
            person = shelf.people.get(device.person)
            yield {
                "device": device.id,
                "name": device.name,
                "person": person.name if person is not None else "",
                "last_heard_ms": device.last_heard_ms,
                "holds_entries": device.holds_entries,
                "holds_photos": device.holds_photos,
            }
