"""Generated answers to asks: bodies by kind, some of them wrong, stale, outside or in another scale."""

from collections.abc import Callable
from typing import Any

from properties.job import Job, Logged
from vectors import methods
from vectors.writers import FIRST_AT_MS, Writer, person

Made = tuple[str, dict[str, Any]]  # kind and the rest of the body


def write_answer(job: Job, writer: Writer) -> None:
    """Answers one ask, or ticks the step itself."""
    name, step = job.chance.choice(job.steps())
    at = {"method": methods.document(name)["id"], "digest": methods.digest(name), "step": step["id"]}
    ask = job.chance.choice([*step["asks"], {"id": "", "kind": "tick"}])
    if ask["kind"] == "tally":
        return
    kind, rest = _ASKS[ask["kind"]](job, writer, ask)
    body = {**at, "ask": ask["id"], **rest}
    if kind in ("tick", "text", "choice", "reading", "result"):
        body["over"] = over(job, writer, kind, body)
    if kind == "photo":
        body["slot"] = body.pop("ask")
    writer.write(kind, body, **(_handed_over(job) if kind == "countersign" else job.envelope()))


def _handed_over(job: Job) -> dict[str, Any]:
    """Who signs has often been handed the phone."""
    if job.chance.random() < 0.5:
        return job.envelope()
    return {"by": person(7), "auth": job.chance.choice(["pin", "picked"]), "roles": ["foreman", "technician"]}


def over(job: Job, writer: Writer, kind: str, like: dict[str, Any]) -> list[str]:
    """Values that the device holds at that key, mostly; sometimes none, sometimes any other."""
    luck = job.chance.random()
    if luck < 0.3:
        return []
    if luck < 0.35:
        return job.some_of(job.seen(writer, kind, "text", "tick"))
    keys = ("method", "step", "ask", "point", "condition")
    same = [e for e in job.seen(writer, kind) if all(e["body"].get(k) == like.get(k) for k in keys)]
    return job.some_of(same[-3:])


def _tick(job: Job, _writer: Writer, _ask: Logged) -> Made:
    value = job.chance.choice(["done", "done", "not_applicable"])
    return "tick", {"value": value, "reason": "" if value == "done" else "none here"}


def _text(job: Job, _writer: Writer, _ask: Logged) -> Made:
    return "text", {"point": "", "value": job.chance.choice(["fine", "\u00e9t\u00e9", "\U0001f529"])}


def _choice(job: Job, _writer: Writer, ask: Logged) -> Made:
    return "choice", {"point": "", "option": job.chance.choice(ask["options"])["id"]}


def _reading(job: Job, _writer: Writer, ask: Logged) -> Made:
    point = job.chance.choice([point["id"] for point in ask["points"]] or [""])
    decimals = 2 if job.chance.random() < 0.1 else ask["decimals"]
    value = job.chance.randint(0, 30)
    return "reading", {"point": point, "value": value, "unit": ask["unit"], "decimals": decimals}


def _lot(job: Job, _writer: Writer, _ask: Logged) -> Made:
    expires_ms = job.chance.choice([0, FIRST_AT_MS, FIRST_AT_MS + 10**9])
    return "lot", {
        "material": job.chance.choice(["paste_x", "paste_y"]),
        "lot": "L7",
        "expires_ms": expires_ms,
    }


def _photo(job: Job, _writer: Writer, _ask: Logged) -> Made:
    size = {"bytes": 9, "type": "image/png", "width": 1, "height": 1, "thumb": "b" * 64}
    return "photo", {"sha256": job.chance.choice("abc") * 64, **size, "position": "", "caption": ""}


def _compute(job: Job, writer: Writer, ask: Logged) -> Made:
    """What rests on the last states, all marks and the named answers that the device holds.

    Stale if it heard too little, or now and then used less.
    """
    tally = [e for e in job.seen(writer, "tally") if e["body"]["position"] in ("H1", "H2")]
    inputs = sorted({e["hash"] for e in tally})
    if job.chance.random() < 0.7:
        inputs = sorted({_last_of(tally, e) for e in tally})
    if ask["computation"] != "tally_reconciliation":
        inputs = []
    inputs = sorted({*inputs, *_named(job, writer, ask)})
    made = {"computation": ask["computation"], "model": "tally-1", "inputs": inputs, "values": []}
    return "result", {"point": "", **made, "verdict": job.chance.choice(["inside", "outside"])}


def _named(job: Job, writer: Writer, ask: Logged) -> list[str]:
    """The newest value at each point of the answers that the ask names, as far as the device holds them."""
    named = {(ref["step"], ref["ask"]) for one in ask.get("inputs", ()) for ref in one.get("from", ())}
    values = job.seen(writer, "reading") if named else []
    newest = {
        (body["step"], body["ask"], body["point"]): str(entry["hash"])
        for entry in values
        if "step" in (body := entry["body"]) and (body["step"], body["ask"]) in named
    }
    return [value for value in newest.values() if job.chance.random() < 0.95]


def _last_of(tally: list[Logged], entry: Logged) -> str:
    """A mark itself, or the last state of its position and generation."""
    if "mark" in entry["body"]:
        return str(entry["hash"])
    keys = ("position", "generation")
    states = [e for e in tally if "state" in e["body"]]
    return str([e for e in states if all(e["body"][k] == entry["body"][k] for k in keys)][-1]["hash"])


def _heat_run(job: Job, _writer: Writer, ask: Logged) -> Made:
    pads = job.chance.choice([["U1", "U2"], ["U1"], []])
    return "heat", {"act": "on", "zone": ask["zone"], "purpose": ask["purpose"], "pads": pads, "plan": ""}


def _countersign(job: Job, writer: Writer, _ask: Logged) -> Made:
    """Most have looked at the newest and sign for all that others wrote; some for their own, or little."""
    if job.chance.random() < 0.6:
        job.heard[writer.device] = len(job.log)
    held = job.seen(writer, "reading", "text", "choice", "tick", "tally", "result")
    if job.chance.random() < 0.8:
        held = [e for e in held if e["by"] != writer.by]
    return "countersign", {"saw": sorted({e["hash"] for e in held[-job.chance.choice([5, 40]) :]})}


_ASKS: dict[str, Callable[[Job, Writer, Logged], Made]] = {
    "tick": _tick,
    "text": _text,
    "choice": _choice,
    "reading": _reading,
    "lot": _lot,
    "photo": _photo,
    "compute": _compute,
    "heat_run": _heat_run,
    "countersign": _countersign,
}
