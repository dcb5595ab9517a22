"""The heat run that a logger's readings belong to: its clock, its sensors, what is known of it."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass

from bayleaf.domain.asks import HeatAsk, HeatSettings
from bayleaf.domain.entries import Entry, read_entry
from bayleaf.domain.method import method_of
from bayleaf.domain.part import Zone
from bayleaf.ports import LoggedEntry
from bayleaf.usecases.dossier_gathering import folded
from bayleaf.usecases.job_reading import whole_log
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal

Reading = tuple[str, int, int]


@dataclass(frozen=True)
class RunAt:
    """A run as the log of its job stood at `count`; `on_ms` is its switch-on by the server's clock.

    `known` are its readings as (sensor, run_ms, value), in the scale of its settings.
    """

    job: str
    run: str
    on: Entry
    on_ms: int
    zone: Zone
    settings: HeatSettings
    known: frozenset[Reading]
    count: int


def run_at(office: Office, job: str, run: str) -> RunAt:
    """Refusals: unknown_job; unknown_run where the job has no such run, or its method is not here."""
    logged = whole_log(office, job)
    entries = {one.hash: read_entry(one.text) for one in logged}
    state, texts = folded(office, list(entries.values()))
    found = next((one for one in state["runs"] if one["run"] == run), None)
    on = entries.get(run)
    if found is None or on is None:
        said = "This job has no heat run of this hash, or the run was struck."
        raise Refusal("unknown_run", said, "run")
    zone, settings = _of_method(on, texts.get(on.body["digest"], ""))
    readings = [entries[one] for one in found["readings"] if one in entries]
    known = frozenset(one for entry in readings for one in readings_in(entry, settings))
    return RunAt(job, run, on, _on_ms(logged, on), zone, settings, known, len(logged))


def readings_in(entry: Entry, settings: HeatSettings) -> list[Reading]:
    """Those of a run reading, if it is in the run's scale."""
    body = entry.body
    if (body["unit"], body["decimals"]) != (settings.sensors_unit, settings.decimals):
        return []
    return [(body["sensor"], int(run_ms), int(value)) for run_ms, value in body["points"]]


def _of_method(on: Entry, text: str) -> tuple[Zone, HeatSettings]:
    method = method_of(json.loads(text)) if text else None
    step = method.step(on.body["step"]) if method else None
    ask = step.ask(on.body["ask"]) if step else None
    zone = method.zone(on.body["zone"]) if method else None
    if zone is None or not isinstance(ask, HeatAsk):
        said = "The method that this run was begun under is not here, so its sensors are not known."
        raise Refusal("unknown_run", said, "run")
    return zone, ask.settings


def _on_ms(logged: Sequence[LoggedEntry], on: Entry) -> int:
    offset = next((one.offset_ms for one in logged if one.hash == on.hash), None)
    return on.at_ms + (offset or 0)
