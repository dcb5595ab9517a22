"""Judges sound entries on arrival: taken, or set aside under a code. Roles are judged kindly."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from bayleaf.domain.kinds import WRITES, may_write
from bayleaf.door_ports import Device, DeviceState
from bayleaf.ports import NIL, ReadsLog
from bayleaf.usecases.office import Office
from bayleaf.wire.entries import ReadEntry

MENDABLE = ("unsigned", "not_yet_known")
OF_NOBODY = frozenset({"clock", "heard"})

Verdict = tuple[str, str]
TAKEN: Verdict = ("", "")


@dataclass
class Judge:
    """Judges the entries of one request; remembers what it asked of devices, people and jobs."""

    office: Office
    log: ReadsLog
    servers: frozenset[str]
    since_ever: bool = False
    _devices: dict[str, Device | None] = field(default_factory=dict)
    _verdicts: dict[tuple[str | int, ...], Verdict | None] = field(default_factory=dict)
    _people: dict[str, bool] = field(default_factory=dict)
    _held: dict[tuple[str, int], frozenset[str]] = field(default_factory=dict)
    _jobs: dict[tuple[str, int], frozenset[str]] = field(default_factory=dict)
    _since: dict[str, int] = field(default_factory=dict)
    _shells: dict[str, bool] = field(default_factory=dict)

    def device(self, device: str) -> Device | None:
        """The device, asked for once."""
        if device not in self._devices:
            self._devices[device] = self.office.devices.find(device)
        return self._devices[device]

    def is_server(self, device: str) -> bool:
        """Whether it is this server, or this server as it was before it was put back."""
        if device in self.servers:
            return True
        found = self.device(device)
        return found is not None and found.person == NIL and found.name == "office" and bool(found.card)

    def verdict(self, entry: ReadEntry, *, signed: bool) -> Verdict:
        """Code and sentence, both empty if the entry is taken. What only the office can mend comes first."""
        parsed = entry.parsed
        found = self._of_envelope(parsed)
        if found is not None:
            return found
        if not signed:
            said = f"No valid signed head of device {parsed['device']} covers its entry {parsed['seq']} yet."
            return "unsigned", said
        return ("not_yet_known", entry.unknown) if entry.unknown else TAKEN

    def _of_envelope(self, parsed: Mapping[str, Any]) -> Verdict | None:
        """Remembered: the entries of one push differ in little of this."""
        asked = (parsed["job"], parsed["device"], parsed["by"], parsed["auth"], parsed["kind"], parsed["v"])
        key = (*asked, *parsed["as"])
        if key not in self._verdicts or parsed["kind"] == "countersign":
            self._verdicts[key] = self._judged(parsed)
        return self._verdicts[key]

    def _judged(self, parsed: Mapping[str, Any]) -> Verdict | None:
        if self.is_server(parsed["device"]):
            return None
        return self._of_job(parsed) or self._of_device(parsed) or self._of_person(parsed)

    def _of_job(self, parsed: Mapping[str, Any]) -> Verdict | None:
        job, device = parsed["job"], self.device(parsed["device"])
        if job not in self._shells:
            row = self.log.job(job)
            self._shells[job] = row is None or row.shell
        if self._shells[job]:
            return "unknown_job", f"Nobody opened a job {job} here."
        if device is None or device.person == NIL or job in self._jobs_of(device):
            return None
        if "office" in self._held_by(device.person, self._since_ms(device.id)):
            return None
        return "foreign_job", "The person of this device was not on this job since it was last heard."

    def _of_device(self, parsed: Mapping[str, Any]) -> Verdict | None:
        device = self.device(parsed["device"])
        if device is not None and device.state is DeviceState.REVOKED:
            return "revoked_device", f"The office revoked the device {device.name}."
        return None

    def _of_person(self, parsed: Mapping[str, Any]) -> Verdict | None:
        by, device = parsed["by"], self.device(parsed["device"])
        if by == NIL:
            if parsed["kind"] in OF_NOBODY or parsed["v"] != 1:
                return None
            return "wrong_person", f"by: nobody may write clock and heard, found {parsed['kind']}."
        if device is None:
            return None
        if parsed["auth"] == "own" and by != device.person:
            return "wrong_person", "by: not the person of this device, and no PIN or choice is claimed."
        if not self._is_of_the_shop(by):
            return "wrong_person", "by: nobody of this shop."
        return self._of_role(parsed, self._held_by(by, self._since_ms(device.id)))

    def _of_role(self, parsed: Mapping[str, Any], held: frozenset[str]) -> Verdict | None:
        never_held = sorted(set(parsed["as"]) - held)
        if never_held:
            return "role", f"as: not held since this device was last heard: {', '.join(never_held)}."
        kind = parsed["kind"]
        if parsed["v"] != 1 or kind not in WRITES["office"]:
            return None
        if not may_write(held, kind):
            return "role", f"kind: {kind} is not for {', '.join(sorted(held)) or 'a person without a role'}."
        if kind == "countersign" and not held & {"technician", "office"}:
            return self._of_demand(parsed)
        return None

    def _of_demand(self, parsed: Mapping[str, Any]) -> Verdict | None:
        """A photographer countersigns only where the step asks for what they are."""
        demand = demand_of(self.office, parsed["body"])
        if demand is None or demand in parsed["as"]:
            return None
        return "role", f"kind: this countersign is for {demand or 'somebody else'}."

    def _is_of_the_shop(self, person: str) -> bool:
        if person not in self._people:
            self._people[person] = self.office.people.find(person) is not None
        return self._people[person]

    def _held_by(self, person: str, since_ms: int) -> frozenset[str]:
        key = (person, since_ms)
        if key not in self._held:
            self._held[key] = self.office.people.held_since(person, since_ms)
        return self._held[key]

    def _jobs_of(self, device: Device) -> frozenset[str]:
        key = (device.person, self._since_ms(device.id))
        if key not in self._jobs:
            self._jobs[key] = frozenset(self.log.jobs_of(*key))
        return self._jobs[key]

    def _since_ms(self, device: str) -> int:
        if device not in self._since:
            self._since[device] = 0 if self.since_ever else self.log.settled_ms(device)
        return self._since[device]


def demand_of(office: Office, body: Mapping[str, Any]) -> str | None:
    """What a countersign's step demands; None where the method, step or ask is not here to say."""
    text = office.methods.texts([body["digest"]]).get(body["digest"])
    if text is None:
        return None
    steps = [step for stage in json.loads(text)["stages"] for step in stage["steps"]]
    step = next((step for step in steps if step["id"] == body["step"]), None)
    if step is None:
        return None
    if not body["ask"]:
        return str(step["hold_countersign"])
    ask = next((ask for ask in step["asks"] if ask["id"] == body["ask"]), None)
    return str(ask.get("of", "")) if ask is not None else None
