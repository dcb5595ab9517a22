"""A technician at work: their paired phone, the chain that it writes, and a job."""

from __future__ import annotations

from dataclasses import dataclass

from harness.pictures import TusClient
from harness.record import Writer
from harness.server import Bench, Phone


@dataclass
class Shop:
    """A technician at work."""

    server: Bench
    phone: Phone
    writer: Writer
    job: str

    def tus(self) -> TusClient:
        return TusClient(self.phone.client, self.job)


def writer_of(server: Bench, phone: Phone, role: str) -> Writer:
    return Writer(phone.device, server.people[role], (role,), phone.key)
