"""Asks the phone's own code, run by Node, what it makes of a job."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

from bayleaf.domain.entries import Entry
from bayleaf.ports import LoggedEntry
from bayleaf.step_computations.sheets import MaterialSheet
from harness.node import NODE_ENV, node_binary
from harness.played import parsed

RUNNER = Path(__file__).parents[2] / "web" / "test" / "played_runner.ts"
FOLD = RUNNER.with_name("twin_runner.ts")
OFFICE = RUNNER.with_name("office_runner.ts")


def on_the_phone(
    methods: Mapping[str, Any],
    entries: Sequence[Entry],
    folder: Path,
    sheets: Sequence[MaterialSheet] = (),
) -> dict[str, Any]:
    """The canonical card state, and each result as the phone works it out from the entries before it."""
    file = folder / "played.json"
    document = {
        "methods": dict(methods),
        "entries": [parsed(entry) for entry in entries],
        "sheets": [asdict(one) for one in sheets],
    }
    file.write_text(json.dumps(document), encoding="utf-8")
    found: dict[str, Any] = json.loads(_run(RUNNER, file))
    return found


def folded_on_the_phone(
    methods: Mapping[str, Any], logs: Sequence[Sequence[Entry]], folder: Path
) -> list[str]:
    """The canonical card state of each log."""
    file = folder / "logs.ndjson"
    lines = [json.dumps({"entries": [parsed(entry) for entry in log]}) for log in logs]
    file.write_text("\n".join([json.dumps({"methods_are": dict(methods)}), *lines]), encoding="utf-8")
    return _run(FOLD, file).splitlines()


def told_by_the_office(
    methods: Mapping[str, Any], logged: Sequence[LoggedEntry], folder: Path
) -> dict[str, dict[str, str]]:
    """What the office's page says beside its entries, by hash: `before_holds`, `late`, `out_of_order`."""
    file = folder / "logged.json"
    items = [
        {"entry": json.loads(one.text), "received_ms": one.received_ms, "offset_ms": one.offset_ms or 0}
        for one in logged
    ]
    file.write_text(json.dumps({"methods": dict(methods), "items": items}), encoding="utf-8")
    found: dict[str, dict[str, str]] = json.loads(_run(OFFICE, file))
    return found


def _run(runner: Path, file: Path) -> str:
    command = [str(node_binary()), str(runner), str(file)]
    ran = subprocess.run(command, capture_output=True, text=True, env=NODE_ENV, check=False)
    assert ran.returncode == 0, ran.stderr[-2000:]
    return ran.stdout
