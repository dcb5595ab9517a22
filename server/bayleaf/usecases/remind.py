"""Calls the devices that want it for what is due now, each for each moment once."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final

from bayleaf.door_ports import Device, DeviceState, Person
from bayleaf.ports import NIL, JobRow, ReadsLog
from bayleaf.push_ports import Answer, Calling, Fate, Letter, Subscription
from bayleaf.usecases.board import folded_job
from bayleaf.usecases.contact import contact_fault, contact_of
from bayleaf.usecases.due_calls import SHORT, Call, Waiting, calls_at, waiting_of
from bayleaf.usecases.office import Office

SIGN_TTL_S: Final = 3600
LEAST_TTL_S: Final = 60
KEPT_MS: Final = 30 * 24 * 3600 * 1000
MS_PER_S: Final = 1000
PATIENCE_S: Final = 60


@dataclass(frozen=True)
class Called:
    """A call that went out, and what became of it."""

    device: str
    call: Call
    answer: Answer


@dataclass
class Rounds:
    """What is kept from one round to the next; all of it can be made again."""

    waiting: dict[str, tuple[tuple[int, int], Waiting]] = field(default_factory=dict)
    not_before_ms: dict[str, int] = field(default_factory=dict)


def remind(office: Office, calling: Calling, rounds: Rounds) -> list[Called]:
    """One round. It sends nothing while nobody wants it, or the contact address is missing or reserved."""
    wanted = calling.subscriptions.all()
    contact = contact_of(calling.settings)
    if not wanted or contact_fault(contact):
        return []
    now_ms = office.clock.now_ms()
    calling.subscriptions.sweep(now_ms - KEPT_MS)
    devices = {device.id: device for device in office.devices.all()}
    people = {person.id: person for person in office.people.all()}
    waiting = _waiting(office, rounds)
    return [
        called
        for subscription in wanted
        for called in _round_of(
            Ring(calling, rounds, contact, now_ms), subscription, devices, people, waiting
        )
    ]


@dataclass(frozen=True)
class Ring:
    """One round's ways and time."""

    calling: Calling
    rounds: Rounds
    contact: str
    now_ms: int


def _round_of(
    ring: Ring,
    subscription: Subscription,
    devices: Mapping[str, Device],
    people: Mapping[str, Person],
    waiting: list[Waiting],
) -> Iterator[Called]:
    device = devices.get(subscription.device)
    if device is None or device.state is not DeviceState.PAIRED:
        ring.calling.subscriptions.forget(subscription.device)
        return
    if ring.rounds.not_before_ms.get(device.id, 0) > ring.now_ms:
        return
    calls = [
        call
        for one in waiting
        for call in calls_at(one, ring.now_ms)
        if is_for(call, one, subscription, device, people.get(device.person))
    ]
    sent = ring.calling.subscriptions.sent(device.id, [call.key for call in calls])
    for call in calls:
        if call.key not in sent:
            answer = send_one(ring, subscription, call)
            yield Called(device.id, call, answer)
            if answer.fate is not Fate.TAKEN:
                return  # what the next one would meet, too


def is_for(call: Call, waiting: Waiting, wants: Subscription, device: Device, person: Person | None) -> bool:
    """Heat runs call everybody on the job; a hold calls who may sign it. A shared device is anybody's."""
    if not (wants.runs if call.kind == "run" else wants.signs):
        return False
    if person is None:
        return device.person in ("", NIL)
    if call.kind == "run":
        return person.id in waiting.assigned
    holds = {*person.roles, *person.qualifications}
    of = {"technician" if one == "second_person" else one for one in call.of}
    on_it = person.id in waiting.assigned or "office" in person.roles
    return on_it and person.id not in call.wrote and bool(holds & of)


def send_one(ring: Ring, to: Subscription, call: Call) -> Answer:
    """Send, and note what became of it: taken and refused are settled, later is tried again."""
    left_s = (call.until_ms - ring.now_ms) // MS_PER_S if call.until_ms else SIGN_TTL_S
    letter = Letter(payload_of(call), ring.contact, call.key[:32], max(LEAST_TTL_S, left_s))
    answer = ring.calling.notifier.send(to, letter)
    kept = ring.calling.subscriptions
    match answer.fate:
        case Fate.GONE:
            kept.forget(to.device, to.endpoint)
        case Fate.LATER:
            wait_s = answer.retry_s or PATIENCE_S
            ring.rounds.not_before_ms[to.device] = ring.now_ms + wait_s * MS_PER_S
            kept.note_trouble(to.device, answer.cause, ring.now_ms)
        case Fate.TAKEN | Fate.REFUSED:
            kept.note_sent(to.device, call.key, ring.now_ms)
            if answer.cause or to.trouble:
                kept.note_trouble(to.device, answer.cause, ring.now_ms)
    return answer


def payload_of(call: Call) -> str:
    """What travels: ids and the moment. No name, order, vehicle or word; the phone has the words."""
    told = {
        "job": call.job[:SHORT],
        "kind": call.kind,
        "act": call.act,
        "moment": call.moment,
        "path": call.path,
    }
    return json.dumps(told, separators=(",", ":"))


def _waiting(office: Office, rounds: Rounds) -> list[Waiting]:
    """Of every open job; one whose log has not grown is not folded again."""
    methods = len(office.methods.digests())
    with office.log.reading() as log:
        jobs = list(log.open_jobs())
        found = {job.id: _kept(office, log, rounds, job, methods) for job in jobs}
    rounds.waiting = found
    return [waiting for _, waiting in found.values()]


def _kept(
    office: Office, log: ReadsLog, rounds: Rounds, job: JobRow, methods: int
) -> tuple[tuple[int, int], Waiting]:
    mark = (job.count, methods)
    kept = rounds.waiting.get(job.id)
    if kept is not None and kept[0] == mark:
        return kept
    return mark, waiting_of(job.id, folded_job(office, log, job.id), office.heat.response)
