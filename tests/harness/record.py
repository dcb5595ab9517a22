"""The record without a network: an office on real or in-memory adapters, and devices that write chains."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any
from uuid import UUID

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.disk_photos import DiskPhotos
from bayleaf.adapters.memory_doors import MemoryDevices, MemoryPeople
from bayleaf.adapters.memory_entry_log import MemoryEntryLog
from bayleaf.adapters.memory_heat import MemoryHeatPlans
from bayleaf.adapters.memory_photos import MemoryMethods, MemoryOfficeLog, MemoryPhotos
from bayleaf.adapters.memory_stock import MemoryStock
from bayleaf.adapters.p256_pens import P256Pens
from bayleaf.adapters.signatures import PrivateKey, ServerKeys
from bayleaf.adapters.sql_entry_log import SqlEntryLog
from bayleaf.adapters.sql_methods import SqlMethods
from bayleaf.adapters.sql_office_log import SqlOfficeLog
from bayleaf.adapters.tables import metadata
from bayleaf.canonical.digest import NO_ENTRY, entry_hash
from bayleaf.canonical.form import dumps
from bayleaf.door_ports import Device, DeviceState, Person
from bayleaf.photo_ports import PhotoStore
from bayleaf.ports import Caller, EntryLog, MethodStore, SignedHead
from bayleaf.usecases.begin_store import begin_store
from bayleaf.usecases.cards import DeviceCard, signed_card
from bayleaf.usecases.fates import Brought, FateOf, ShownCard
from bayleaf.usecases.office import Office
from bayleaf.usecases.receive_entries import receive_entries
from bayleaf.usecases.server_pen import Draft
from bayleaf.usecases.sync import SyncRequest, sync
from bayleaf.usecases.write_office_entry import open_job, write_office_entries
from harness.doors import NOON_MS, TurnedClock

METHOD = "a" * 64
OPENED: dict[str, Any] = {
    "order": "T-1",
    "vin": "INVENTED",
    "vehicle": "van",
    "part": "half",
    "side": "left",
    "invented": True,
    "over": [],
}
TICK: dict[str, Any] = {
    "method": "spine",
    "digest": METHOD,
    "step": "look",
    "ask": "",
    "value": "done",
    "reason": "",
    "over": [],
}


@dataclass
class CountedIds:
    """The port Ids: different ones, the same in every run."""

    space: int = 1
    given: int = 0

    def uuid(self) -> str:
        self.given += 1
        return str(UUID(int=(self.space << 64) | self.given, version=4))


@dataclass
class Writer:
    """A device with its key; it writes a chain per job and signs its newest entry."""

    device: str
    person: str
    roles: tuple[str, ...]
    key: PrivateKey = field(default_factory=PrivateKey.new)
    chains: dict[str, list[str]] = field(default_factory=dict)
    lasts: dict[str, str] = field(default_factory=dict)

    def write(self, job: str, kind: str = "tick", body: Mapping[str, Any] = TICK, **other: Any) -> str:
        """The text of the next entry; `other` replaces members of the envelope, `as_` its `as`."""
        chain = self.chains.setdefault(job, [])
        seq = len(chain) + 1
        entry: dict[str, Any] = {
            "v": 1, "job": job, "device": self.device, "seq": seq, "by": self.person, "auth": "own",
            "as": sorted(self.roles), "at_ms": NOON_MS + 1000 * seq, "mono_ms": 1000 * seq,
            "load": "00000000-0000-4000-8000-0000000010ad", "kind": kind, "body": dict(body),
            "prev": self.lasts.get(job, NO_ENTRY),
        }  # fmt: skip
        if "as_" in other:
            entry["as"] = other.pop("as_")
        entry |= other
        self.lasts[job] = entry_hash(entry)
        chain.append(dumps({**entry, "hash": self.lasts[job]}))
        return chain[-1]

    def head(self, job: str, seq: int = 0) -> SignedHead:
        """Signed for the newest entry, or for that one."""
        entry = json.loads(self.chains[job][seq - 1])
        unsigned = SignedHead(job, self.device, entry["seq"], entry["hash"], "")
        return replace(unsigned, signature=self.key.sign(unsigned.text))

    def caller(self) -> Caller:
        return Caller("device", self.device, self.person, self.roles)


@dataclass
class Record:
    """An office, with its people and their phones."""

    office: Office
    clock: TurnedClock
    seal: PrivateKey
    ids: CountedIds
    clerk: str = ""

    def person(self, name: str, *roles: str, qualifications: Sequence[str] = ()) -> str:
        person = Person(self.ids.uuid(), name, tuple(sorted(roles)), tuple(sorted(qualifications)))
        self.office.people.add(person, self.clock.now_ms())
        return person.id

    def phone(self, person: str, *roles: str) -> Writer:
        """A paired phone of that person."""
        writer = Writer(self.ids.uuid(), person, roles)
        card = self.card(writer)
        self.office.devices.put(
            Device(
                id=writer.device,
                public_key=writer.key.public_key,
                name="phone",
                person=person,
                state=DeviceState.PAIRED,
                card=card.text,
                card_signature=card.signature,
            )
        )
        return writer

    def card(self, writer: Writer) -> ShownCard:
        card = DeviceCard(writer.device, writer.key.public_key, "phone", writer.person, writer.roles, (), 1)
        signed = signed_card(card, self.seal)
        return ShownCard(signed.text, signed.signature)

    def job(self, *people: str) -> str:
        assigns = [Draft("assign", {"person": person, "on": True, "over": []}) for person in people]
        return open_job(self.office, self.clerk, [Draft("open", OPENED), *assigns])

    def write(self, job: str, kind: str, body: Mapping[str, Any]) -> str:
        return write_office_entries(self.office, job, self.clerk, [Draft(kind, body)])[0].hash

    def bring(self, device: Writer, texts: Sequence[str], heads: Sequence[SignedHead] = ()) -> list[FateOf]:
        return receive_entries(self.office, device.device, Brought(texts, heads))

    def said(self, device: Writer, texts: Sequence[str], heads: Sequence[SignedHead] = ()) -> list[str]:
        """Each fate in a word: taken, or its code."""
        return [fate.code or str(fate.fate) for fate in self.bring(device, texts, heads)]

    def sync(self, device: Writer, cursors: Mapping[str, int], **named: Any) -> dict[str, Any]:
        brought = Brought(named.pop("texts", ()), named.pop("heads", ()), named.pop("cards", ()))
        named.setdefault("log", self.name())
        return sync(self.office, device.caller(), SyncRequest(1, cursors=cursors, brought=brought, **named))

    def name(self) -> str:
        with self.office.log.reading() as log:
            return log.log()

    def kinds(self, job: str) -> list[str]:
        """What stands in the log, by number."""
        with self.office.log.reading() as log:
            return [entry.kind for entry in log.after(job, 0, 10_000)]

    def numbers(self, job: str) -> list[int]:
        with self.office.log.reading() as log:
            return [entry.number for entry in log.after(job, 0, 10_000)]


def record_in_memory(log: MemoryEntryLog | None = None) -> Record:
    """Nothing on disk."""
    return _record(log or MemoryEntryLog(), MemoryPhotos(), MemoryMethods(), MemoryOfficeLog())


def record_on_disk(folder: Path) -> Record:
    """SQLite and files, as they ship."""
    engine = open_engine(f"sqlite:///{folder / 'bayleaf.sqlite3'}")
    metadata.create_all(engine)
    photos = DiskPhotos(engine, folder)
    return _record(SqlEntryLog(engine), photos, SqlMethods(engine), SqlOfficeLog(engine))


def _record(log: EntryLog, photos: PhotoStore, methods: MethodStore, office_log: Any) -> Record:
    clock, seal, ids = TurnedClock(), PrivateKey.new(), CountedIds()
    office = Office(
        log=log,
        photos=photos,
        methods=methods,
        office_log=office_log,
        people=MemoryPeople(),
        devices=MemoryDevices(),
        keys=ServerKeys(b"a secret of this bench"),
        seal=seal,
        pens=P256Pens(),
        clock=clock,
        ids=ids,
        stock=MemoryStock(),
        heat=MemoryHeatPlans(),
    )
    begin_store(office)
    record = Record(office, clock, seal, ids)
    record.clerk = record.person("Ada Quill", "office")
    return record
