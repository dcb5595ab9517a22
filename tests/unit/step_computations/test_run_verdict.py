"""Verdicts on runs from a job's entries say what the shared vectors say, as those of the phone do."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bayleaf.domain.asks import HeatAsk, HeatSettings
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc
from bayleaf.domain.part import Sensor
from bayleaf.step_computations.run_verdict import RunVerdict, run_verdicts
from harness.played import frame_methods, played_fitting

FOLDER = Path(__file__).parents[2] / "vectors" / "verdict"
VECTORS = {path.stem: json.loads(path.read_text("utf-8")) for path in sorted(FOLDER.glob("*.json"))}
DIGEST = "d" * 64
STEP, ASK, ZONE = "rem-27", "run", "upper"
HOUR_MS = 3_600_000
OF = {"a": "bond", "b": "bond", "m": "metal", "n": "neighbour"}


def method_with(settings: dict[str, Any], sensors: set[str]) -> MethodDoc:
    """The removal with the vector's limits, and a zone with its sensors."""
    made = next(one for one in frame_methods().values() if one.id == "removal")
    step = made.step(STEP)
    assert step is not None
    asks = tuple(
        replace(ask, settings=HeatSettings(**{**settings, "release": tuple(settings["release"])}))
        if isinstance(ask, HeatAsk)
        else ask
        for ask in step.asks
    )
    placed = tuple(Sensor(id=one, name=one, of=of) for one, of in OF.items() if one in sensors)  # type: ignore[arg-type]
    zones = tuple(replace(zone, sensors=placed) if zone.id == ZONE else zone for zone in made.zones)
    steps = {**made.steps_by_id, STEP: replace(step, asks=asks)}
    return replace(made, zones=zones, steps_by_id=steps)


class Written:
    """Entries of one device, an hour between runs."""

    def __init__(self) -> None:
        self.entries: list[Entry] = []

    def run(self, run: dict[str, Any]) -> str:
        on = self._write(
            "heat",
            {
                "method": "removal", "digest": DIGEST, "step": STEP, "ask": ASK, "act": "on", "zone": ZONE,
                "purpose": run["purpose"], "pads": ["U1", "U2"], "plan": "",
            },
        )  # fmt: skip
        sure = {"run": on, "run_doubt": False, "typed_time": False}
        for row in run["readings"]:
            points = [[row["run_ms"], row["value"]]]
            self._write(
                "reading", {**sure, "sensor": row["sensor"], "unit": "C", "decimals": 0, "points": points}
            )
        acts = [*run["acts"], *([{"act": "abort", "pad": "", "run_ms": 1}] if run["aborted"] else [])]
        for act in acts:
            self._write("heat", {**sure, **act, "text": ""})
        return on

    def _write(self, kind: str, body: dict[str, Any]) -> str:
        at = len(self.entries) + 1
        name = f"{at:064x}"
        ms = HOUR_MS * at
        entry = Entry(1, "job", "device", at, "person", "own", (), ms, ms, "load", kind, body, "", name)
        self.entries.append(entry)
        return name


def judged(vector: dict[str, Any]) -> RunVerdict:
    runs = [*vector["earlier"], vector["run"]]
    sensors = {row["sensor"] for row in vector["run"]["readings"]}
    methods = {DIGEST: method_with(vector["settings"], sensors)}
    written = Written()
    for run in runs:
        written.run(run)
    state = fold(methods, written.entries)
    return run_verdicts(state, {one.hash: one for one in written.entries}, methods)[-1]


@pytest.mark.parametrize("name", VECTORS)
def test_the_verdict_from_the_entries_is_that_of_the_vector(name: str) -> None:
    vector = VECTORS[name]
    made = judged(vector)
    assert made.overall == vector["overall"]
    assert [(one.code, one.standing) for one in made.lines] == [
        (one["code"], one["standing"]) for one in vector["lines"]
    ]
    for line, told in zip(made.lines, vector["lines"], strict=True):
        step = 10**-line.figure.decimals
        assert abs(line.figure.value * step - told["figure"]) <= step
        limit = None if line.limit is None else line.limit.value * step
        assert limit == pytest.approx(told.get("limit"))


def test_a_run_without_readings_is_not_judged() -> None:
    vector = VECTORS["conforms"]
    made = judged({**vector, "run": {**vector["run"], "readings": []}})
    assert (made.overall, made.lines) == ("not_judged", ())


def test_an_aborted_run_inside_its_limits_conforms_with_a_deviation() -> None:
    vector = VECTORS["conforms"]
    made = judged({**vector, "run": {**vector["run"], "aborted": True}})
    assert (made.overall, made.aborted, made.over) == ("conforming_with_deviations", True, True)


def test_what_only_the_rest_of_the_run_can_settle_is_pending_while_it_lasts() -> None:
    vector = VECTORS["cure_short"]
    rows = [one for one in vector["run"]["readings"] if one["run_ms"] < HOUR_MS]
    made = judged({**vector, "run": {**vector["run"], "acts": [], "readings": rows}})
    assert (made.over, made.overall) == (False, "conforming")
    assert [one.code for one in made.lines if one.standing == "pending"] == [
        "soak", "release", "cooling", "cold",
    ]  # fmt: skip


def test_minutes_of_the_metal_in_an_aborted_run_count_too() -> None:
    vector = VECTORS["metal_too_hot"]
    earlier = [{**one, "aborted": True} for one in vector["earlier"]]
    made = judged({**vector, "earlier": earlier})
    minutes = next(one for one in made.lines if one.code == "metal_minutes")
    assert minutes.figure.value == 133  # 13.3 min: the vector's own sum
    assert len(made.earlier) == len(earlier)


def verdicts_of_the_demo() -> Iterator[RunVerdict]:
    job = played_fitting()
    methods = frame_methods()
    return iter(run_verdicts(job.state(), {one.hash: one for one in job.entries}, methods))


def test_the_demos_runs_are_judged_each_after_its_purpose() -> None:
    told = [(one.zone, one.purpose, one.over, one.overall) for one in verdicts_of_the_demo()]
    assert told == [
        ("upper", "removal", True, "conforming"),
        ("post", "removal", True, "conforming_with_deviations"),  # the breaker tripped
        ("joint", "cure", True, "conforming"),
    ]
