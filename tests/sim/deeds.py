"""What people of a simulated shop write, on a phone or in the office: kinds with their bodies, by chance."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from bayleaf.domain.kinds import is_known, register_key
from sim import state_digest
from sim.phone import Phone
from sim.phone_store import EntryRow
from vectors import methods

PNG = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR" + (4).to_bytes(4) + (3).to_bytes(4)
Body = dict[str, Any]
Held = Sequence[EntryRow]
STATES = ("in_place", "mandrel_out", "head_off", "shank_out")


def tips(held: Iterable[str], kind: str, body: Mapping[str, Any]) -> list[str]:
    """The values of this register that no value held here replaces."""
    probe = state_digest.entry(_probe(kind, body))
    known = [entry for entry in map(state_digest.entry, held) if is_known(entry.v, entry.kind)]
    mine = [entry for entry in known if register_key(entry) == register_key(probe)]
    named = {over for entry in mine for over in entry.body["over"]}
    return sorted(entry.hash for entry in mine if entry.hash not in named)


def _probe(kind: str, body: Mapping[str, Any]) -> str:
    import json

    blank = dict.fromkeys(("job", "device", "by", "auth", "load", "prev", "hash"), "")
    numbers = dict.fromkeys(("seq", "at_ms", "mono_ms"), 0)
    return json.dumps({"v": 1, "as": [], **blank, **numbers, "kind": kind, "body": {**body, "over": []}})


def step_of(name: str, step: str) -> Body:
    return {"method": methods.document(name)["id"], "digest": methods.digest(name), "step": step}


def _with_over(chance: random.Random, held: Held, kind: str, body: Body) -> Body:
    """Mostly over what stands; now and then over nothing, as from a phone that knew of nothing."""
    over = tips([row.text for row in held], kind, body) if chance.random() < 0.85 else []
    return {**body, "over": over}


def _one(chance: random.Random, held: Held) -> str:
    return chance.choice(held).hash if held else "e" * 64


def _revision(chance: random.Random, phone: Phone) -> str:
    held = [name for name in ("values", "values_2") if methods.digest(name) in phone.store.methods]
    return chance.choice(held or ["values"])


def tick(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    step = chance.choice(["wipe", "measure"])
    body = {**step_of(_revision(chance, phone), step), "ask": "", "value": "done", "reason": ""}
    return phone.append(job, "tick", _with_over(chance, held, "tick", body))


def text(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    about = {**step_of(_revision(chance, phone), "measure"), "ask": "words", "point": ""}
    body = {**about, "value": f"word {chance.randint(1, 99)}"}
    return phone.append(job, "text", _with_over(chance, held, "text", body))


def reading(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    about = {**step_of(_revision(chance, phone), "measure"), "ask": "gap", "point": "", "unit": "mm"}
    body = {**about, "value": chance.randint(3, 25), "decimals": 1}
    return phone.append(job, "reading", _with_over(chance, held, "reading", body))


def rivet(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    where = {"position": chance.choice(["H1", "H2"]), "generation": 0}
    if chance.random() < 0.25:
        return phone.append(job, "tally", {**where, "mark": "lost", "piece": "shank", "lost": ""})
    return phone.append(job, "tally", {**where, "state": chance.choice(STATES)})


def lot(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    material = chance.choice(["paste_x", "paste_y"])
    about = {**step_of("evidence", "glue"), "ask": "paste", "material": material}
    return phone.append(job, "lot", {**about, "lot": "L7", "expires_ms": 0})


def look(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    body = {"condition": chance.choice(["pads_hot", "braced"]), "holds": chance.random() < 0.7}
    return phone.append(job, "condition", _with_over(chance, held, "condition", body))


def later(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    about = step_of(_revision(chance, phone), chance.choice(["wipe", "measure"]))
    return phone.append(job, "later", {**about, "reason": "the bay is full"})


def note(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    nowhere = {"method": "", "digest": "", "step": ""}
    words = {"text": f"note {chance.randint(1, 999)}", "about": sorted({_one(chance, held)})}
    return phone.append(job, "note", {**nowhere, **words})


def deviation(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    about = {**step_of("values", "measure"), "about": sorted({_one(chance, held)})}
    return phone.append(job, "deviation", {**about, "text": "as agreed", "passes_hold": True})


def countersign(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    saw = sorted({_one(chance, held), _one(chance, held)})
    return phone.append(job, "countersign", {**step_of("rivets", "take_out"), "ask": "sign", "saw": saw})


def heat(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    runs = [row for row in held if row.kind == "heat" and row.parsed["body"].get("act") == "on"]
    if not runs or chance.random() < 0.3:
        about = {**step_of("heat", "warm"), "ask": "run", "zone": "upper", "purpose": "removal"}
        return phone.append(job, "heat", {**about, "act": "on", "pads": ["U1", "U2"], "plan": ""})
    act = {"act": chance.choice(["soaked", "workable", "off", "cold"]), "run": _one(chance, runs)}
    when = {"run_ms": chance.randint(0, 9) * 20_000, "run_doubt": False, "typed_time": False}
    return phone.append(job, "heat", {**act, **when, "pad": "", "text": ""})


def strike(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    """Mostly one's own; now and then another's, or a strike: both without effect."""
    own = [row for row in held if row.parsed["by"] == phone.person]
    target = _one(chance, own if own and chance.random() < 0.8 else held)
    return phone.append(job, "strike", {"target": target, "reason": "a slip"})


def photo(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    content = PNG + chance.randbytes(chance.randint(8, 90))
    sha256, thumb = phone.keep_photo(job, content, PNG + chance.randbytes(6))
    size = {"sha256": sha256, "bytes": len(content), "type": "image/png", "width": 4, "height": 3}
    where = {**step_of("evidence", "show"), "slot": chance.choice(["before", "after"])}
    return phone.append(job, "photo", {**size, "thumb": thumb, **where, "position": "", "caption": ""})


def clock(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    body = {"what": "stepped", "jump_ms": 3_600_000}
    return phone.append(job, "clock", body, by="00000000-0000-0000-0000-000000000000", as_=[])


def not_yet_known(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    """A newer phone than the server: another kind, form or field."""
    body = {**step_of("values", "wipe"), "ask": "", "value": "done", "reason": "", "over": []}
    match chance.randint(0, 2):
        case 0:
            return phone.append(job, "weather", {"rain": True})
        case 1:
            return phone.append(job, "tick", body, v=2)
        case _:
            return phone.append(job, "tick", {**body, "mood": "good"})


def broken(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    """A body that breaks the schema of its kind: refused, and the chain goes on."""
    return phone.append(
        job, "tick", {**step_of("values", "wipe"), "ask": "", "value": "perhaps", "reason": "", "over": []}
    )


def as_another(chance: random.Random, phone: Phone, job: str, held: Held) -> EntryRow:
    """A role that was never held, or a kind of the office."""
    if chance.random() < 0.5:
        return phone.append(job, "place", {"place": "bay", "over": []})
    body = {**step_of("values", "wipe"), "ask": "", "value": "done", "reason": "", "over": []}
    return phone.append(job, "tick", body, as_=["office"])


Deed = Callable[[random.Random, Phone, str, Held], EntryRow]
OF_TECHNICIANS: tuple[Deed, ...] = (
    tick, tick, text, text, reading, rivet, lot, look, later, note, deviation, countersign, heat, strike,
    photo, clock,
)  # fmt: skip
OF_PHOTOGRAPHERS: tuple[Deed, ...] = (photo, photo, note, strike, countersign)


def office_draft(chance: random.Random, people: Sequence[str], held: Held) -> tuple[str, Body]:
    """Something that the office writes about a job."""
    texts = [row.text for row in held]
    answers = [row for row in held if row.kind in ("tick", "text", "lot", "photo") and row.parsed["v"] == 1]
    strikable = [row for row in held if row.kind not in ("aside", "admit", "strike")]
    match chance.randint(0, 8):
        case 0 | 1:
            return "place", {"place": f"bay {chance.randint(1, 9)}", "over": tips(texts, "place", {})}
        case 2 | 3:
            who = {"person": chance.choice(people), "on": chance.random() < 0.7}
            return "assign", {**who, "over": tips(texts, "assign", who)}
        case 4 if strikable:
            return "strike", {"target": _one(chance, strikable), "reason": "seen at the car"}
        case 5 if answers:
            return "send_back", {"hashes": [_one(chance, answers)], "remark": "again please"}
        case 6:
            return chance.choice(["close", "reopen"]), {"reason": "so", "over": tips(texts, "close", {})}
        case 7:
            accepted = {"code": "fork", "at": [], "hashes": [], "reason": "seen"}
            return "accept", accepted
        case _:
            nowhere = {"method": "", "digest": "", "step": "", "about": []}
            return "note", {"text": f"office {chance.randint(1, 999)}", **nowhere}
