"""Deeds as drafts of entries: kind and body of each, and what it is to be called."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from bayleaf.demo_scenario import bodies, rivets
from bayleaf.demo_scenario.bodies import DAY_MS, Body
from bayleaf.demo_scenario.deeds import (
    Accepted,
    Agreed,
    Answer,
    Climbed,
    Closed,
    Deed,
    Deviation,
    Logged,
    Looked,
    Lot,
    Mark,
    Moved,
    Note,
    Photo,
    PutOff,
    ReadByHand,
    RunAct,
    SentBack,
    Sign,
    Strike,
    SwitchedOn,
    WorkedOut,
)
from bayleaf.demo_scenario.heat_logs import MINUTE_MS, series
from bayleaf.demo_scenario.results import worked_out
from bayleaf.demo_scenario.stage import Stage
from bayleaf.domain.asks import ComputeAsk, HeatAsk, LotAsk, TallyAsk


class Draft(NamedTuple):
    """An entry to be written; `run` is the name of the run that it begins."""

    kind: str
    body: Body
    name: str = ""
    run: str = ""


def drafts_of(stage: Stage, deed: Deed, at_ms: int) -> Iterator[Draft]:
    """The drafts of a deed, in the order of writing."""
    match deed:
        case Answer() | Lot() | Photo() | Sign() | WorkedOut() | Climbed() | Mark():
            yield from _at_an_ask(stage, deed, at_ms)
        case SwitchedOn() | RunAct() | Logged() | ReadByHand():
            yield from _of_a_run(stage, deed)
        case _:
            yield from _beside(stage, deed)


def _at_an_ask(stage: Stage, deed: Deed, at_ms: int) -> Iterator[Draft]:
    match deed:
        case Answer():
            yield _answered(stage.at(deed.step), deed)
        case Lot():
            yield _lot(stage, deed, at_ms)
        case Photo():
            shot = stage.shot(stage.method.id, stage.step.id, deed.shows or deed.slot)
            yield Draft("photo", bodies.photo_body(stage.place, deed.slot, shot, deed.caption), deed.name)
        case Sign():
            yield _signed(stage.at(deed.step), deed)
        case WorkedOut():
            yield _computed(stage.at(deed.step), deed, at_ms)
        case Climbed():
            for body in rivets.climbs(stage, deed):
                yield Draft("tally", body)
        case Mark():
            lost = stage.memory.hash(deed.lost) if deed.lost else ""
            body = bodies.mark_body(deed.position, deed.generation, deed.mark, deed.piece, lost)
            yield Draft("tally", body, deed.name)


def _answered(stage: Stage, deed: Answer) -> Draft:
    ask = stage.ask(deed.ask) if deed.ask else None
    over = [] if deed.unheard else stage.memory.over(bodies.value_key(stage.place, ask, deed))
    body = bodies.value_body(stage.place, ask, deed, over)
    return Draft(bodies.kind_of(ask), body, deed.name)


def _lot(stage: Stage, deed: Lot, at_ms: int) -> Draft:
    material = deed.material or stage.ask_of(deed.ask, LotAsk).of
    body = {"ask": deed.ask, "material": material, "lot": deed.lot, "expires_ms": at_ms + deed.days * DAY_MS}
    return Draft("lot", {**stage.place, **body}, deed.name or f"{stage.step.id}.{deed.ask}")


def _signed(stage: Stage, deed: Sign) -> Draft:
    memory = stage.memory
    if deed.ask:
        groups = [ask.group for ask in stage.step.asks if isinstance(ask, TallyAsk)]
        positions = tuple(one for group in groups for one in stage.method.group_positions(group))
        saw = {*memory.values_of(stage.method.id, stage.step.id), *memory.rivets_of(positions)}
    else:
        saw = {memory.hash(name) for name in deed.saw}
    return Draft("countersign", {**stage.place, "ask": deed.ask, "saw": sorted(saw)}, deed.name)


def _computed(stage: Stage, deed: WorkedOut, at_ms: int) -> Draft:
    ask = stage.ask_of(deed.ask, ComputeAsk)
    over = stage.memory.over(("result", stage.method.id, stage.step.id, ask.id, ""))
    result = worked_out(stage, ask, at_ms)
    body = {**stage.place, "ask": ask.id, "point": "", "over": over, **result}
    return Draft("result", body, deed.name)


def _of_a_run(stage: Stage, deed: Deed) -> Iterator[Draft]:
    match deed:
        case SwitchedOn():
            yield Draft("heat", _on(stage, deed), deed.name, deed.run)
        case RunAct():
            run, run_ms = stage.memory.runs[deed.run].hash, round(deed.minute * MINUTE_MS)
            body = bodies.act_body(run, deed.act, deed.pad, run_ms, deed.text, typed=deed.typed)
            yield Draft("heat", body, deed.name)
        case Logged():
            run = stage.memory.runs[deed.run].hash
            for sensor, points in series(stage.scenario.runs[deed.run], deed.first, deed.last):
                yield Draft("reading", bodies.run_reading_body(run, sensor, points))
        case ReadByHand():
            run, points = stage.memory.runs[deed.run].hash, [[deed.minute * MINUTE_MS, deed.value]]
            body = bodies.run_reading_body(run, deed.sensor, points, typed=deed.typed)
            yield Draft("reading", body, deed.name)


def _on(stage: Stage, deed: SwitchedOn) -> Body:
    ask = stage.ask_of(deed.ask, HeatAsk)
    zone = stage.method.zone(ask.zone)
    pads = [pad.id for pad in zone.pads] if zone else []
    sets = [one.sha256 for one in stage.plans if (one.method, one.zone) == (stage.method.id, ask.zone)]
    what = {"ask": ask.id, "act": "on", "zone": ask.zone, "purpose": ask.purpose, "pads": pads}
    what["plan"] = sets[0] if sets else ""
    return {**stage.place, **what}


def _beside(stage: Stage, deed: Deed) -> Iterator[Draft]:
    memory = stage.memory
    match deed:
        case Moved():
            first = memory.entry(deed.photo)
            there = {**first.body, **stage.at(deed.step).place, "slot": deed.slot}
            yield Draft("photo", there, deed.name or f"{deed.step}.{deed.slot}")
            yield Draft("strike", {"target": first.hash, "reason": deed.reason})
        case Deviation():
            about = sorted(memory.hash(name) for name in deed.about)
            body = {**stage.place, "text": deed.text, "about": about, "passes_hold": deed.passes_hold}
            yield Draft("deviation", body, deed.name)
        case Strike():
            yield Draft("strike", {"target": memory.hash(deed.target), "reason": deed.reason}, deed.name)
        case Note():
            yield Draft("note", {**stage.place, "text": deed.text, "about": []}, deed.name)
        case Looked():
            over = memory.over(("condition", "", "", "", deed.condition))
            body = {"condition": deed.condition, "holds": deed.holds, "over": over}
            yield Draft("condition", body, deed.name)
        case PutOff():
            yield Draft("later", {**stage.place, "reason": deed.reason}, deed.name)
        case _:
            yield from _at_the_desk(stage, deed)


def _at_the_desk(stage: Stage, deed: Deed) -> Iterator[Draft]:
    match deed:
        case SentBack():
            hashes = sorted(stage.memory.hash(name) for name in deed.about)
            yield Draft("send_back", {"hashes": hashes, "remark": deed.remark}, deed.name)
        case Accepted():
            for found in stage.state()["findings"]:
                here = not deed.where or list(deed.where) == found["at"]
                if found["code"] == deed.code and here and not found["accepted"]:
                    what = {"code": found["code"], "at": found["at"], "hashes": found["hashes"]}
                    yield Draft("accept", {**what, "reason": deed.reason})
        case Agreed():
            yield Draft("accept", _agreed(stage, deed), deed.name)
        case Closed():
            over = stage.memory.over(("life", "", "", "", ""))
            yield Draft("close", {"reason": deed.reason, "over": over}, deed.name)
        case _:
            raise LookupError(f"{type(deed).__name__}: nobody knows how this is done")


def _agreed(stage: Stage, deed: Agreed) -> Body:
    """A deviation is no finding, so it is accepted under a name of its own."""
    deviation = stage.memory.entry(deed.deviation)
    at = [deviation.body["method"], deviation.body["step"]]
    return {"code": "deviation", "at": at, "hashes": [deviation.hash], "reason": deed.reason}
