"""All that the use cases of the record need of the outside, in one hand."""

from __future__ import annotations

from dataclasses import dataclass, field

from bayleaf.door_ports import Devices, Keys, People, Seal
from bayleaf.heat_ports import HeatPlans
from bayleaf.paper_ports import NoPapers, PaperStore
from bayleaf.photo_ports import PhotoStore
from bayleaf.ports import Clock, EntryLog, Ids, MethodStore, OfficeLog, Pens
from bayleaf.readings_ports import NoReadings, ReadingStore
from bayleaf.stock_ports import Stock
from bayleaf.time_zone_ports import NoTimeZone, TimeZones
from bayleaf.usecases.digests import Digests


@dataclass(frozen=True)
class Office:
    """The adapters that app.py, a command or a test chose."""

    log: EntryLog
    photos: PhotoStore
    methods: MethodStore
    office_log: OfficeLog
    people: People
    devices: Devices
    keys: Keys
    seal: Seal
    pens: Pens
    clock: Clock
    ids: Ids
    stock: Stock
    heat: HeatPlans
    papers: PaperStore = field(default_factory=NoPapers)
    readings: ReadingStore = field(default_factory=NoReadings)
    time_zones: TimeZones = field(default_factory=NoTimeZone)
    digests: Digests = field(default_factory=Digests)
