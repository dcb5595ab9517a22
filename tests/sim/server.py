"""The simulated server: the real use cases and wire shapes, behind a door that answers like the real one."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from marshmallow import Schema

from bayleaf.adapters.memory_heat import MemoryHeatPlans
from bayleaf.adapters.memory_stock import MemoryStock
from bayleaf.adapters.p256_pens import P256Pens
from bayleaf.adapters.signatures import PrivateKey, ServerKeys
from bayleaf.door_ports import Device, DeviceState, Doors
from bayleaf.http.reading import load
from bayleaf.http.refusals import STATUS_OF
from bayleaf.http.sync_shapes import ReconcileAsked, SyncAsked
from bayleaf.photo_ports import Upload
from bayleaf.ports import NIL, Caller, SignedHead
from bayleaf.usecases import receive_photo, renewal
from bayleaf.usecases import reconcile as reconciling
from bayleaf.usecases import sync as syncing
from bayleaf.usecases.begin_store import begin_store
from bayleaf.usecases.bundle_version import bundle_version
from bayleaf.usecases.fates import Brought, DeviceClock, ShownCard
from bayleaf.usecases.file_job import Filing
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sessions import device_of_token
from bayleaf.usecases.take_back_files import take_back_method
from sim.asking import Answer, Request
from sim.seeded import Seeded, SimClock
from sim.stores import Disk, ServerDied, SimRegister


@cache
def _shape(kind: type[Schema]) -> Schema:
    return kind()


@dataclass
class Server:
    """One process over one disk. `faults` are answers that would have been 5xx."""

    clock: SimClock
    seeded: Seeded
    disk: Disk
    seal: PrivateKey
    keys: ServerKeys = field(default_factory=lambda: ServerKeys(b"a secret of this simulation"))
    faults: list[BaseException] = field(default_factory=list)
    office: Office = field(init=False)

    def __post_init__(self) -> None:
        self.start()

    def start(self) -> None:
        """A new process: what was only in memory is gone."""
        disk = self.disk
        disk.log.start()
        self.office = Office(
            log=disk.log, photos=disk.photos, methods=disk.methods, office_log=disk.office_log,
            people=disk.people, devices=disk.devices, keys=self.keys, seal=self.seal, pens=P256Pens(),
            clock=self.clock, ids=self.seeded, stock=MemoryStock(), heat=MemoryHeatPlans(),
        )  # fmt: skip
        begin_store(self.office)

    @property
    def doors(self) -> Doors:
        """As far as a renewal asks for them; nobody types codes or passwords here."""
        unused: Any = None
        return Doors(
            people=self.disk.people, devices=self.disk.devices, codes=unused, sessions=self.disk.sessions,
            attempts=unused, seal=self.seal, keys=self.keys, passwords=unused, chance=self.seeded,
        )  # fmt: skip

    @property
    def filing(self) -> Filing:
        return Filing(self.disk.filed, SimRegister(self.disk))

    def handle(self, request: Request) -> Answer:
        """ServerDied passes through: there is no answer then."""
        try:
            return self._routed(request)
        except Refusal as refusal:
            return Answer(int(STATUS_OF.get(refusal.code, 400)), {"code": refusal.code})
        except ServerDied:
            raise
        except Exception as fault:  # noqa: BLE001  (as Flask does: a bug is answered 500)
            self.faults.append(fault)
            return Answer(500, {"code": "fault"})

    def _routed(self, request: Request) -> Answer:
        method, path = request.method, request.path
        if path.startswith("/api/door/"):
            return self._door(path, json.loads(json.dumps(request.json)))
        caller = self._caller(request.token)
        if (method, path) in _JSON_ROUTES:
            asked = json.loads(json.dumps(request.json))
            answer = _JSON_ROUTES[(method, path)](self.office, caller, asked)
            return Answer(200, json.loads(json.dumps(answer)))
        if path == "/api/bundle":
            return Answer(
                200, {"version": bundle_version(self.office, (), ()), "methods": self._method_texts()}
            )
        return self._bytes(caller, request)

    def _door(self, path: str, asked: Mapping[str, Any]) -> Answer:
        now_ms = self.clock.now_ms()
        if path.endswith("challenge"):
            return Answer(200, {"nonce": renewal.challenge(self.doors, asked["device"], now_ms)})
        _, opened = renewal.renew(self.doors, renewal.Renewal(**asked), now_ms)
        return Answer(200, {"token": opened.token})

    def _caller(self, token: str) -> Caller:
        device = device_of_token(self.doors, token, self.clock.now_ms())
        if device is None:
            raise Refusal("no_login", "Nobody is signed in here.")
        if device.state is DeviceState.REVOKED:
            raise Refusal("revoked_device", "The office has revoked this device.")
        return caller_of(device)

    def _method_texts(self) -> Mapping[str, str]:
        return self.office.methods.texts(self.office.methods.digests())

    def _bytes(self, caller: Caller, request: Request) -> Answer:
        name = request.path.rsplit("/", 1)[-1]
        match (request.method, request.path.split("/")[2]):
            case ("PUT", "methods"):
                take_back_method(self.office, name, request.content)
                return Answer(204)
            case ("PUT", "thumbs"):
                receive_photo.put_thumb(self.office, name, request.content)
                return Answer(204)
            case ("POST", "photos"):
                told = request.headers
                claimed = Upload("", told["sha256"], told["length"], told["type"], told["job"], "", 0)
                return _tus(201, receive_photo.begin_upload(self.office, caller, claimed))
            case ("HEAD", "photos"):
                return _tus(200, receive_photo.upload_progress(self.office, caller, name))
            case ("PATCH", "photos"):
                at, piece = request.headers["offset"], [request.content]
                return _tus(204, receive_photo.add_to_upload(self.office, caller, name, at, piece))
            case _:
                raise Refusal("not_found", f"No route {request.method} {request.path}.")


def caller_of(device: Device) -> Caller:
    return Caller("device", device.id, device.person or NIL)


def _tus(status: int, progress: receive_photo.Progress) -> Answer:
    told = {"Location": f"/api/photos/{progress.id}", "Upload-Offset": progress.offset}
    return Answer(status, headers=told)


def _sync(office: Office, caller: Caller, words: Mapping[str, Any]) -> Mapping[str, Any]:
    """As `bayleaf/http/sync.py` reads the request."""
    asked: Any = load(_shape(SyncAsked), words)
    brought = Brought(
        texts=asked["entries"],
        heads=[SignedHead(**head) for head in asked["heads"]],
        cards=[ShownCard(card["card"], card["signature"]) for card in asked["cards"]],
        clock=DeviceClock(**asked["clock"]),
    )
    reports = [(one["job"], f"{one['what']}: {one['ours']} {one['theirs']}") for one in asked["reports"]]
    asking = syncing.SyncRequest(
        protocol=asked["protocol"], log=asked.get("log", ""), cursors=asked["cursors"], brought=brought,
        holds_entries=asked["holds"]["entries"], holds_photos=asked["holds"]["photos"], reports=reports,
    )  # fmt: skip
    return syncing.sync(office, caller, asking)


def _reconcile(office: Office, caller: Caller, words: Mapping[str, Any]) -> Mapping[str, Any]:
    asked: Any = load(_shape(ReconcileAsked), words)
    asking = reconciling.ReconcileRequest(asked["log"], asked["job"], asked["hashes"], asked["digest"])
    return reconciling.reconcile(office, caller, asking)


_JSON_ROUTES: Mapping[tuple[str, str], Callable[[Office, Caller, Mapping[str, Any]], Mapping[str, Any]]] = {
    ("POST", "/api/sync"): _sync,
    ("POST", "/api/reconcile"): _reconcile,
}
