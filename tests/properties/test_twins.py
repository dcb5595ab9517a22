"""Both folds, over generated logs: the same bytes in any order of arrival, the same bytes on both sides."""

import functools
import json
import os
import random
import subprocess
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from bayleaf.canonical.form import dumps
from bayleaf.domain.entries import Entry, entry_of
from bayleaf.domain.findings import CODES
from bayleaf.domain.fold import fold
from bayleaf.domain.kinds import is_kind
from bayleaf.domain.method import methods_of
from bayleaf.wire.entries import judge_body
from harness.node import NODE_ENV, node_binary
from properties.job import ALL_METHODS
from properties.logs import LEAST_ENTRIES, job_log
from vectors import methods

ROOT = Path(__file__).parents[2]
RUNNER = ROOT / "web" / "test" / "twin_runner.ts"
LOGS = int(os.environ.get("BAYLEAF_TWIN_LOGS", "2000"))
FIRST_SEED = int(os.environ.get("BAYLEAF_TWIN_SEED", "1"))
DOCUMENTS = methods.documents(ALL_METHODS)
HELD = methods_of(DOCUMENTS)
OF_ROWS = {"steps": ("not_asked", "later"), "runs": ("peaks",), "lots": ("marked",), "conditions": ("asked",)}


@functools.cache
def _logs() -> list[list[dict[str, Any]]]:
    return [job_log(FIRST_SEED + number) for number in range(LOGS)]


@functools.cache
def _states() -> list[str]:
    return [_state([entry_of(entry) for entry in log]) for log in _logs()]


def _state(entries: list[Entry]) -> str:
    return dumps(fold(HELD, entries))


def _arrivals(log: list[dict[str, Any]], chance: random.Random) -> list[Entry]:
    """The entries as batches of devices that came and went bring them: in part again, and in any order."""
    batches = [log[start : start + 7] for start in range(0, len(log), 7)]
    batches += chance.sample(batches, len(batches) // 2)
    chance.shuffle(batches)
    return [entry_of(entry) for batch in batches for entry in chance.sample(batch, len(batch))]


def test_the_fold_is_the_same_in_any_order_with_duplicates_in_any_batches() -> None:
    for number, (log, state) in enumerate(zip(_logs(), _states(), strict=True)):
        assert _state(_arrivals(log, random.Random(number))) == state, f"seed {FIRST_SEED + number}"


def test_the_twin_folds_to_the_same_bytes(tmp_path: Path) -> None:
    file = tmp_path / "logs.ndjson"
    lines = [json.dumps({"entries": _late_first(log, number)}) for number, log in enumerate(_logs())]
    file.write_text("\n".join([json.dumps({"methods_are": DOCUMENTS}), *lines]), encoding="utf-8")
    twins = _twin(file)
    assert len(twins) == LOGS
    for number, (twin, state) in enumerate(zip(twins, _states(), strict=True)):
        if twin != state:
            difference = _first_difference(json.loads(twin), json.loads(state))
            pytest.fail(f"seed {FIRST_SEED + number}: {difference}")


def _twin(file: Path) -> list[str]:
    command = [str(node_binary()), str(RUNNER), str(file)]
    ran = subprocess.run(command, capture_output=True, text=True, env=NODE_ENV, check=False)
    assert ran.returncode == 0, ran.stderr[-2000:]
    return ran.stdout.splitlines()


def _late_first(log: list[dict[str, Any]], number: int) -> list[dict[str, Any]]:
    """Another order than the Python side folded."""
    return random.Random(-number - 1).sample(log, len(log))


def _first_difference(twin: Any, state: Any, where: str = "") -> str:
    if isinstance(twin, dict) and isinstance(state, dict):
        for key in sorted(twin.keys() | state.keys()):
            if twin.get(key) != state.get(key):
                return _first_difference(twin.get(key), state.get(key), f"{where}/{key}")
    if isinstance(twin, list) and isinstance(state, list) and len(twin) == len(state):
        for index, (one, other) in enumerate(zip(twin, state, strict=True)):
            if one != other:
                return _first_difference(one, other, f"{where}/{index}")
    return f"at {where}: the twin has {json.dumps(twin)[:900]}, this fold {json.dumps(state)[:900]}"


def test_the_logs_are_of_the_kind_that_the_promise_is_about() -> None:
    """Three devices or more, thirty entries or more, and in many of them whatever could set folds apart."""
    having: Counter[str] = Counter()
    codes: Counter[str] = Counter()
    for log, text in zip(_logs(), _states(), strict=True):
        assert len({entry["device"] for entry in log}) >= 3
        assert len(log) >= LEAST_ENTRIES
        state = json.loads(text)
        codes.update({finding["code"] for finding in state["findings"]})
        having.update(part for part in ("aside", "unknown", "struck", "elsewhere", "runs") if state[part])
        having.update({"soaked"} if any(run["soak_ms"] for run in state["runs"]) else ())
        having.update({"accepted"} if any(finding["accepted"] for finding in state["findings"]) else ())
        having.update(_filled(state))
        having.update({f"hold {step['hold']}" for step in state["steps"]})
        having.update({f"why {sign['why']}" for sign in state["countersigns"]})
    least = LOGS // 200
    assert {code for code, times in codes.items() if times < least} == set(), codes
    assert {part for part, times in having.items() if times < least} == set(), having
    assert set(codes) == set(CODES)
    assert {f"{row} {member}" for row, members in OF_ROWS.items() for member in members} <= set(having)


def _filled(state: dict[str, Any]) -> set[str]:
    """Which members of rows have something in them."""
    return {
        f"{rows} {member}"
        for rows, members in OF_ROWS.items()
        for member in members
        if any(row[member] for row in state[rows])
    }


def test_every_generated_body_is_one_that_the_server_takes() -> None:
    for log in _logs()[:200]:
        for entry in log:
            if is_kind(entry["kind"]):
                assert judge_body(entry["kind"], entry["body"]) == []
