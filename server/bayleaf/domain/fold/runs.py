"""Heat runs: each `on` is a run, named by its hash; acts and run readings name it.

Runs belong to the job, whatever revision they were begun under. Moments are acts, never computed, but for
`lifted`, which is that every pad of the `on` has been lifted. An act or reading whose run is absent,
struck or set aside is kept and named in a finding.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from bayleaf.domain.asks import HeatAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Finding, finding
from bayleaf.domain.fold.log import Log
from bayleaf.domain.fold.soak import MS_PER_S, NO_SOAK, Soak, read_soak
from bayleaf.domain.kinds import is_run_reading
from bayleaf.domain.method import MOMENTS, MethodDoc
from bayleaf.domain.part import Sensor
from bayleaf.domain.state import RunState


@dataclass(frozen=True, slots=True)
class HeatRun:
    """One heat run: its `on`, its acts and readings in order, and what follows from them."""

    on: Entry
    acts: tuple[Entry, ...]
    readings: tuple[Entry, ...]
    turned_down: list[str]
    lifted: list[str]
    moments: list[str]
    aborted: bool
    ask: HeatAsk | None
    soak: Soak

    def has(self, moment: str) -> bool:
        """Whether the moment was reached in this run."""
        return moment in self.moments

    def is_at(self, method_id: str, step_id: str, ask_id: str | None = None) -> bool:
        """Whether the run was begun at that step, and at that ask where one is given."""
        body = self.on.body
        at_step = body["method"] == method_id and body["step"] == step_id
        return at_step and ask_id in (None, body["ask"])


Runs = Mapping[str, HeatRun]


def read_runs(log: Log, held: Mapping[str, MethodDoc]) -> dict[str, HeatRun]:
    """Every unstruck run, by the hash of its `on`."""
    acts, readings = _of_runs(log)
    return {
        entry.hash: _run(entry, acts.get(entry.hash, []), readings.get(entry.hash, []), held)
        for entry in log.of("heat")
        if entry.body["act"] == "on"
    }


def _of_runs(log: Log) -> tuple[dict[str, list[Entry]], dict[str, list[Entry]]]:
    acts = (entry for entry in log.of("heat") if entry.body["act"] != "on")
    return _by_run(acts, _act_ms), _by_run(filter(is_run_reading, log.of("reading")), _first_ms)


def _by_run(entries: Iterable[Entry], ms_of: Callable[[Entry], int]) -> dict[str, list[Entry]]:
    by_run: defaultdict[str, list[Entry]] = defaultdict(list)
    for entry in sorted(entries, key=lambda entry: (ms_of(entry), entry.hash)):
        by_run[entry.body["run"]].append(entry)
    return dict(by_run)


def _act_ms(entry: Entry) -> int:
    return int(entry.body["run_ms"])


def _first_ms(entry: Entry) -> int:
    return int(next((run_ms for run_ms, _ in entry.body["points"]), 0))


def _run(
    on: Entry, acts: Sequence[Entry], readings: Sequence[Entry], held: Mapping[str, MethodDoc]
) -> HeatRun:
    done = {entry.body["act"] for entry in acts}
    lifted = _pads(acts, "lift")
    all_lifted = bool(on.body["pads"]) and set(on.body["pads"]) <= set(lifted)
    reached = done | {"on"} | ({"lifted"} if all_lifted else set())
    ask, sensors = _settings(on, held)
    return HeatRun(
        on=on,
        acts=tuple(acts),
        readings=tuple(readings),
        turned_down=_pads(acts, "turn_down"),
        lifted=lifted,
        moments=[moment for moment in MOMENTS if moment in reached],
        aborted="abort" in done,
        ask=ask,
        soak=read_soak(readings, sensors, ask.settings) if ask and sensors else NO_SOAK,
    )


def _pads(acts: Iterable[Entry], act: str) -> list[str]:
    return sorted({entry.body["pad"] for entry in acts if entry.body["act"] == act})


def _settings(on: Entry, held: Mapping[str, MethodDoc]) -> tuple[HeatAsk | None, tuple[Sensor, ...]]:
    """The ask that the run was begun for, and the sensors of its zone, in the document named by the `on`."""
    method = held.get(on.body["digest"])
    step = method.step(on.body["step"]) if method else None
    ask = step.ask(on.body["ask"]) if step else None
    zone = method.zone(on.body["zone"]) if method else None
    return (ask if isinstance(ask, HeatAsk) else None), (zone.sensors if zone else ())


def run_states(runs: Runs) -> list[RunState]:
    """The runs, sorted by hash."""
    return [_state(runs[key]) for key in sorted(runs)]


def _state(run: HeatRun) -> RunState:
    body = run.on.body
    state: RunState = {
        "run": run.on.hash,
        "method": body["method"],
        "step": body["step"],
        "ask": body["ask"],
        "zone": body["zone"],
        "purpose": body["purpose"],
        "acts": [entry.hash for entry in run.acts],
        "readings": [entry.hash for entry in run.readings],
        "turned_down": run.turned_down,
        "lifted": run.lifted,
        "moments": run.moments,
        "aborted": run.aborted,
        "off": run.has("off"),
        "soak_ms": run.soak.soak_ms,
        "soak_counts_to_ms": run.soak.counts_to_ms,
        "peaks": [{"sensor": sensor, "value": value} for sensor, value in run.soak.peaks],
    }
    if run.soak.peak:
        state["peak"], state["peak_sensor"] = run.soak.peak
    return state


def run_findings(runs: Runs, log: Log) -> Iterator[Finding]:
    """Two unaborted runs of one zone, soaks too short, maxima passed, acts and readings of no run."""
    by_zone: defaultdict[tuple[str, str], list[str]] = defaultdict(list)
    for run in runs.values():
        if not run.aborted:
            by_zone[(run.on.body["method"], run.on.body["zone"])].append(run.on.hash)
        yield from _verdict(run)
    for zone, hashes in by_zone.items():
        if len(hashes) > 1:
            yield finding("two_runs", zone, hashes)
    yield from _orphans(runs, log)


def _verdict(run: HeatRun) -> Iterator[Finding]:
    if run.soak.over_maximum:
        yield finding("over_maximum", [run.on.hash], (entry.hash for entry in run.soak.over_maximum))
    if run.ask is None or run.aborted or not (run.has("soaked") or run.has("off")):
        return
    if run.soak.soak_ms < run.ask.settings.soak_s * MS_PER_S:
        yield finding("soak_short", [run.on.hash], [run.on.hash])


def _orphans(runs: Runs, log: Log) -> Iterator[Finding]:
    naming: defaultdict[str, list[str]] = defaultdict(list)
    for by_run in _of_runs(log):
        for run, entries in by_run.items():
            naming[run].extend(entry.hash for entry in entries)
    for run in naming.keys() - runs.keys():
        yield finding("run_unknown", [run], naming[run])
