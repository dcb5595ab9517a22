"""What of a board's row follows from the card alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from bayleaf.domain.asks import HeatAsk, HeatSettings, PhotoAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.method import MethodDoc, StepDoc
from bayleaf.domain.state import CardState, RunState
from bayleaf.step_computations.forecast import cure_forecasts
from bayleaf.step_computations.record import Record
from bayleaf.step_computations.sheets import MaterialSheet
from bayleaf.stock_ports import Instrument
from bayleaf.usecases.board_waits import Place, free_of, holds_of, marks_of, next_of, places_of
from bayleaf.usecases.open_deviations import open_deviations
from bayleaf.usecases.overdue_instruments import overdue_instruments


@dataclass(frozen=True)
class Folded:
    """A job's entries by hash, its methods by digest, its card state, and each author's clock offset."""

    entries: Mapping[str, Entry]
    methods: Mapping[str, MethodDoc]
    state: CardState
    offsets: Mapping[str, int]


@dataclass(frozen=True)
class Registers:
    """What of the shop's registers a card is looked at with: sheets in use, and instruments."""

    sheets: Sequence[MaterialSheet] = ()
    instruments: Sequence[Instrument] = ()


def card_part(folded: Folded, registers: Registers) -> dict[str, object]:
    """The fields that the fold decides; forecasts reckon with the suppliers' sheets in use."""
    state = folded.state
    opened = _body(folded, state["job"]["open"])
    pinned = _pinned(folded)
    methods = [method for _, method in pinned]
    places = places_of(methods, state)
    record = Record(state, folded.entries, methods, registers.sheets)
    found: dict[str, object] = {
        "side": opened.get("side", "none"),
        "invented": bool(opened.get("invented", False)),
        "place": _body(folded, state["job"]["place"]).get("place", ""),
        "closed": state["job"]["closed"],
        "assigned": state["job"]["assigned"],
        "methods": [_method_row(digest, method) for digest, method in pinned],
        "steps_done": sum(1 for step in state["steps"] if step["done"]),
        "steps_total": len(state["steps"]),
        "stages": [len(stage.steps) for _, method in pinned for stage in method.stages],
        "marks": marks_of(places),
        "holds": list(holds_of(places, state, folded.entries)),
        "photos_wanted": _photos_wanted(places, state),
        "set_aside": len(state["aside"]),
        "findings": sum(1 for finding in state["findings"] if not finding["accepted"]),
        "deviations": len(state["deviations"]),
        "deviations_open": len(open_deviations(state, folded.entries.values())),
        "runs": [_run(folded, run) for run in state["runs"] if _is_running(run)],
        "instruments_overdue": len(list(overdue_instruments(record, registers.instruments))),
        "forecasts": _forecasts(record),
    }
    steps = {"next": next_of(places), "free": free_of(places)}
    return {**found, **{name: step for name, step in steps.items() if step is not None}}


def _pinned(folded: Folded) -> list[tuple[str, MethodDoc]]:
    digests = _body(folded, folded.state["job"]["pin"]).get("methods", [])
    return [(digest, folded.methods[digest]) for digest in digests if digest in folded.methods]


def _forecasts(record: Record) -> list[dict[str, object]]:
    """Of cures under way: when clamps may come off, and when the vehicle may go."""
    return [
        {"zone": one.zone, "handling_ms": one.handling_ms, "full_ms": one.full_ms}
        for one in cure_forecasts(record)
    ]


def _body(folded: Folded, entry_hash: str) -> Mapping[str, Any]:
    entry = folded.entries.get(entry_hash)
    return entry.body if entry is not None else {}


def _method_row(digest: str, method: MethodDoc) -> dict[str, object]:
    return {"digest": digest, "id": method.id, "title": method.title, "revision": method.revision}


def _photos_wanted(places: Sequence[Place], state: CardState) -> int:
    """Empty slots of steps that are not done as not applicable, where the photo is asked for at all."""
    filled = {(slot["method"], slot["step"], slot["slot"]) for slot in state["slots"] if slot["photos"]}
    asked = (
        (*place.key, ask.id)
        for place in places
        if place.state["done"] != "not_applicable"
        for ask in place.step.asks
        if isinstance(ask, PhotoAsk) and ask.id not in place.state["not_asked"]
    )
    return sum(1 for slot in asked if slot not in filled)


def _is_running(run: RunState) -> bool:
    return "cold" not in run["moments"]


def _run(folded: Folded, run: RunState) -> dict[str, object]:
    begun = folded.entries[run["run"]]
    method = next((one for one in folded.methods.values() if one.id == run["method"]), None)
    zone = method.zone(run["zone"]) if method is not None else None
    settings = _settings(method.step(run["step"]) if method is not None else None, run["ask"])
    return {
        "run": run["run"],
        "zone": zone.name if zone is not None else run["zone"],
        "purpose": run["purpose"],
        "on_ms": begun.at_ms + folded.offsets.get(begun.hash, 0),
        "moment": run["moments"][-1] if run["moments"] else "on",
        "moments": run["moments"],
        "aborted": run["aborted"],
        "soak_ms": run["soak_ms"],
        "soak_s": settings.soak_s if settings is not None else 0,
        "ramp_s": settings.ramp_s if settings is not None else 0,
        "pads": len(begun.body["pads"]),
        "pads_down": len({*run["turned_down"], *run["lifted"]}),
    }


def _settings(step: StepDoc | None, ask_id: str) -> HeatSettings | None:
    ask = step.ask(ask_id) if step is not None else None
    return ask.settings if isinstance(ask, HeatAsk) else None
