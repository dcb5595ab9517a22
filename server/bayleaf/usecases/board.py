"""The board: one row a job, from its fold and from what the server knows beside it."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from bayleaf.domain.entries import Entry, read_entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc, methods_of
from bayleaf.domain.state import CardState
from bayleaf.door_ports import Device, DeviceState, Person
from bayleaf.ports import JobRow, LoggedEntry, ReadsLog
from bayleaf.usecases.board_rows import Folded, Registers, card_part
from bayleaf.usecases.office import Office
from bayleaf.usecases.sheets import sheets_in_use

PAGE = 2_000
KEPT_ROWS = 5_000


Mark = tuple[int, int, str]


@dataclass(frozen=True)
class Shelf:
    """What every row looks things up in; `registers` are read only where a row is made anew."""

    people: Mapping[str, Person]
    devices: tuple[Device, ...]
    methods: int
    stock: str
    registers: Callable[[], Registers]


@dataclass(frozen=True)
class Kept:
    """What was made of a job's log as it was then: no entries, so that many jobs can be kept."""

    mark: Mark
    part: Mapping[str, object]
    authors: frozenset[str]
    assigned: frozenset[str]


class Board:
    """Makes the rows of the jobs that are not filed, and keeps what it folded until a job's log has grown."""

    def __init__(self) -> None:
        self._kept: dict[str, Kept] = {}

    def rows(self, office: Office) -> list[dict[str, object]]:
        """Open and closed jobs by their order. It reads nothing of a filed job, however many there are."""
        people = {one.id: one for one in office.people.all()}
        devices, methods = tuple(office.devices.all()), len(office.methods.digests())
        registers = cache(lambda: Registers(sheets_in_use(office.stock), tuple(office.stock.instruments())))
        shelf = Shelf(people, devices, methods, office.stock.version(), registers)
        with office.log.reading() as log:
            rows = [self._row(office, log, job, shelf) for job in log.open_jobs()]
        return sorted(rows, key=lambda row: str(row["order"]))

    def _row(self, office: Office, log: ReadsLog, job: JobRow, shelf: Shelf) -> dict[str, object]:
        kept = self._kept_of(office, log, job, shelf)
        photos = {photo for photo, _ in log.photos_named(job.id)}
        return {
            "job": job.id,
            "order": job.order,
            "vin": job.vin,
            "vehicle": job.vehicle,
            "part": job.part,
            "filed": False,
            "opened_ms": job.made_ms,
            "count": job.count,
            **kept.part,
            "photos_not_here": len(photos - office.photos.held(photos)),
            "refused": len(log.refused_of(job.id)),
            "devices": list(_devices(kept, shelf)),
        }

    def _kept_of(self, office: Office, log: ReadsLog, job: JobRow, shelf: Shelf) -> Kept:
        mark = (job.count, shelf.methods, shelf.stock)
        kept = self._kept.pop(job.id, None)
        if kept is None or kept.mark != mark:
            kept = _kept(folded_job(office, log, job.id), mark, shelf.registers())
        self._kept[job.id] = kept
        if len(self._kept) > KEPT_ROWS:
            del self._kept[next(iter(self._kept))]  # the one that was asked for longest ago
        return kept


def _kept(folded: Folded, mark: Mark, registers: Registers) -> Kept:
    authors = frozenset(one.device for one in folded.entries.values())
    return Kept(mark, card_part(folded, registers), authors, frozenset(folded.state["job"]["assigned"]))


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


def _devices(kept: Kept, shelf: Shelf) -> Iterable[dict[str, object]]:
    """Paired devices of assigned people, and of authors."""
    for device in shelf.devices:
        ours = device.id in kept.authors or device.person in kept.assigned
        if device.state is DeviceState.PAIRED and ours:
            person = shelf.people.get(device.person)
            yield {
                "device": device.id,
                "name": device.name,
                "person": person.name if person is not None else "",
                "last_heard_ms": device.last_heard_ms,
                "holds_entries": device.holds_entries,
                "holds_photos": device.holds_photos,
            }
