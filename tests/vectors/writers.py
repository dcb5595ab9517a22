"""Writes entries as devices do: chained, hashed, one count per device; for vectors and generated logs.

A step is named "document:step", so that the writer can fill in method id and digest.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from bayleaf.canonical.digest import NO_ENTRY, entry_hash
from vectors import methods

JOB = "10000000-0000-4000-8000-000000000001"
LOAD = "30000000-0000-4000-8000-000000000001"
FIRST_AT_MS = 1_760_000_000_000
Hashes = Sequence[str]


def person(number: int) -> str:
    """The UUID of an invented person."""
    return f"40000000-0000-4000-8000-{number:012d}"


def device(number: int) -> str:
    """The UUID of an invented device."""
    return f"20000000-0000-4000-8000-{number:012d}"


@dataclass
class Clock:
    """One wall clock for all writers; a second passes with each entry."""

    at_ms: int = FIRST_AT_MS

    def tick(self) -> int:
        self.at_ms += 1000
        return self.at_ms


@dataclass
class Writer:
    """A person at a device; `log` is where all writers of a scene leave their entries."""

    device: str
    by: str
    roles: list[str]
    clock: Clock
    log: list[dict[str, Any]]
    auth: str = "own"
    seq: int = 0
    prev: str = NO_ENTRY
    chain: list[str] = field(default_factory=list)

    def write(self, kind: str, body: dict[str, Any], **envelope: Any) -> str:
        """Appends an entry and returns its hash; `envelope` overrides members (`roles` for `as`)."""
        roles = envelope.pop("roles", self.roles)
        at_ms = self.clock.tick()
        entry = {
            "v": 1,
            "job": JOB,
            "device": self.device,
            "seq": self.seq + 1,
            "by": self.by,
            "auth": self.auth,
            "as": sorted(roles),
            "at_ms": at_ms,
            "mono_ms": at_ms - FIRST_AT_MS,
            "load": LOAD,
            "kind": kind,
            "body": body,
            "prev": self.prev,
            **envelope,
        }
        entry["hash"] = entry_hash(entry)
        self.log.append(entry)
        self.seq, self.prev = entry["seq"], entry["hash"]
        self.chain.append(entry["hash"])
        return self.prev

    def fork_back(self, entries: int) -> None:
        """Goes on as a phone restored from a backup would: as if its last entries had not been written."""
        self.seq -= entries
        del self.chain[len(self.chain) - entries :]
        self.prev = self.chain[-1] if self.chain else NO_ENTRY

    # -- the job's own registers and the office's kinds

    def open(self, order: str = "A-1", over: Hashes = (), **envelope: Any) -> str:
        body = {"order": order, "vin": "INVENTED0000000001", "vehicle": "invented saloon", "part": "bracket"}
        rest = {"side": "left", "invented": True, "over": sorted(over)}
        return self.write("open", {**body, **rest}, **envelope)

    def assign(self, who: str, on: bool = True, over: Hashes = (), **envelope: Any) -> str:
        return self.write("assign", {"person": who, "on": on, "over": sorted(over)}, **envelope)

    def place(self, place: str, over: Hashes = (), **envelope: Any) -> str:
        return self.write("place", {"place": place, "over": sorted(over)}, **envelope)

    def pin(self, *names: str, over: Hashes = (), **envelope: Any) -> str:
        digests = [methods.digest(name) for name in names]
        return self.write("pin", {"methods": digests, "over": sorted(over)}, **envelope)

    def close(self, reason: str = "finished", over: Hashes = (), **envelope: Any) -> str:
        return self.write("close", {"reason": reason, "over": sorted(over)}, **envelope)

    def reopen(self, reason: str = "a mark came late", over: Hashes = (), **envelope: Any) -> str:
        return self.write("reopen", {"reason": reason, "over": sorted(over)}, **envelope)

    def file(self, **envelope: Any) -> str:
        return self.write("file", {"heads": [], "reason": ""}, **envelope)

    def aside(self, *hashes: str, code: str = "unsigned", **envelope: Any) -> str:
        return self.write("aside", {"hashes": sorted(hashes), "code": code}, **envelope)

    def admit(self, *hashes: str, reason: str = "signed since", **envelope: Any) -> str:
        return self.write("admit", {"hashes": sorted(hashes), "reason": reason}, **envelope)

    def accept(self, code: str, at: Sequence[str], hashes: Hashes, **envelope: Any) -> str:
        body = {"code": code, "at": list(at), "hashes": sorted(hashes), "reason": "seen and agreed"}
        return self.write("accept", body, **envelope)

    def send_back(self, *hashes: str, **envelope: Any) -> str:
        return self.write("send_back", {"hashes": sorted(hashes), "remark": "again please"}, **envelope)

    # -- values of a step

    def tick(self, step: str, value: str = "done", ask: str = "", over: Hashes = (), **envelope: Any) -> str:
        reason = "" if value == "done" else "not on this car"
        body = {**_step(step), "ask": ask, "value": value, "reason": reason, "over": sorted(over)}
        return self.write("tick", body, **envelope)

    def text(self, step: str, ask: str, value: str, over: Hashes = (), **envelope: Any) -> str:
        body = {**_step(step), "ask": ask, "point": "", "value": value, "over": sorted(over)}
        return self.write("text", body, **envelope)

    def choice(self, step: str, ask: str, option: str, over: Hashes = (), **envelope: Any) -> str:
        body = {**_step(step), "ask": ask, "point": "", "option": option, "over": sorted(over)}
        return self.write("choice", body, **envelope)

    def reading(
        self, step: str, ask: str, value: int, point: str = "", over: Hashes = (), **envelope: Any
    ) -> str:
        scale = {"unit": envelope.pop("unit", "mm"), "decimals": envelope.pop("decimals", 1)}
        body = {**_step(step), "ask": ask, "point": point, "value": value, **scale, "over": sorted(over)}
        return self.write("reading", body, **envelope)

    def result(
        self, step: str, ask: str, inputs: Hashes, verdict: str = "inside", over: Hashes = (), **envelope: Any
    ) -> str:
        computation = envelope.pop("computation", "tally_reconciliation")
        made = {"computation": computation, "model": "tally-1", "inputs": sorted(inputs), "values": []}
        body = {**_step(step), "ask": ask, "point": "", **made, "verdict": verdict, "over": sorted(over)}
        return self.write("result", body, **envelope)

    # -- evidence, tally, heat

    def photo(self, step: str = "", slot: str = "", sha256: str = "a" * 64, **envelope: Any) -> str:
        size = {"bytes": 1000, "type": "image/jpeg", "width": 40, "height": 30}
        body = {"sha256": sha256, **size, "thumb": "b" * 64, **_step(step), "slot": slot}
        return self.write("photo", {**body, "position": "", "caption": ""}, **envelope)

    def lot(self, step: str, ask: str, material: str, expires_ms: int = 0, **envelope: Any) -> str:
        body = {**_step(step), "ask": ask, "material": material, "lot": "L7", "expires_ms": expires_ms}
        return self.write("lot", body, **envelope)

    def rivet(self, position: str, state: str, generation: int = 0, **envelope: Any) -> str:
        return self.write(
            "tally", {"position": position, "generation": generation, "state": state}, **envelope
        )

    def mark(
        self, position: str, mark: str, piece: str = "", lost: str = "", generation: int = 0, **envelope: Any
    ) -> str:
        body = {"position": position, "generation": generation, "mark": mark, "piece": piece, "lost": lost}
        return self.write("tally", body, **envelope)

    def heat_on(
        self,
        step: str,
        ask: str,
        zone: str = "upper",
        pads: Sequence[str] = ("U1", "U2"),
        purpose: str = "removal",
        **envelope: Any,
    ) -> str:
        about = {"zone": zone, "purpose": purpose, "pads": list(pads), "plan": ""}
        return self.write("heat", {"act": "on", **_step(step), "ask": ask, **about}, **envelope)

    def act(self, run: str, act: str, run_ms: int, pad: str = "", **envelope: Any) -> str:
        doubt = {"run_doubt": False, "typed_time": False}
        text = "as it was" if act in ("abort", "remark") else ""
        body = {"act": act, "run": run, "pad": pad, "run_ms": run_ms, **doubt, "text": text}
        return self.write("heat", body, **envelope)

    def heat_reading(self, run: str, sensor: str, *points: tuple[int, int], **envelope: Any) -> str:
        scale = {"unit": envelope.pop("unit", "C"), "decimals": envelope.pop("decimals", 0)}
        doubt = {"run_doubt": False, "typed_time": False}
        body = {"run": run, "sensor": sensor, **scale, "points": [list(p) for p in points], **doubt}
        return self.write("reading", body, **envelope)

    # -- words, signatures, strikes, clocks

    def note(self, text: str = "a remark", step: str = "", about: Hashes = (), **envelope: Any) -> str:
        return self.write("note", {"text": text, **_step(step), "about": sorted(about)}, **envelope)

    def deviation(
        self, step: str = "", about: Hashes = (), passes_hold: bool = False, **envelope: Any
    ) -> str:
        body = {"text": "as agreed", **_step(step), "about": sorted(about), "passes_hold": passes_hold}
        return self.write("deviation", body, **envelope)

    def countersign(self, step: str, ask: str, saw: Hashes, **envelope: Any) -> str:
        return self.write("countersign", {**_step(step), "ask": ask, "saw": sorted(saw)}, **envelope)

    def strike(self, target: str, reason: str = "a slip of the finger", **envelope: Any) -> str:
        return self.write("strike", {"target": target, "reason": reason}, **envelope)

    def clock_stepped(self, **envelope: Any) -> str:
        return self.write("clock", {"what": "stepped", "jump_ms": 3_600_000}, **envelope)

    def heard(self, run: str, moment: str = "soaked", **envelope: Any) -> str:
        return self.write("heard", {"run": run, "moment": moment, "silent_s": 4}, **envelope)

    def condition(self, condition: str, holds: bool = True, over: Hashes = (), **envelope: Any) -> str:
        body = {"condition": condition, "holds": holds, "over": sorted(over)}
        return self.write("condition", body, **envelope)

    def later(self, step: str, reason: str = "no gauge at the car", **envelope: Any) -> str:
        return self.write("later", {**_step(step), "reason": reason}, **envelope)


def _step(step: str) -> dict[str, str]:
    if not step:
        return {"method": "", "digest": "", "step": ""}
    name, _, step_id = step.partition(":")
    return {"method": methods.document(name)["id"], "digest": methods.digest(name), "step": step_id}
