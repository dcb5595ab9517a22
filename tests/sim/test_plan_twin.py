"""The plan that simulated phones follow is the phone's own: both are asked the same, and say the same."""

from __future__ import annotations

import json
import random
import subprocess
from pathlib import Path
from typing import Any

from bayleaf.canonical.digest import set_digest
from bayleaf.canonical.form import dumps
from harness.node import NODE_ENV, node_binary
from sim import plan

RUNNER = Path(__file__).parents[2] / "web" / "test" / "plan_runner.ts"
CASES = 2_000
JOB, DEVICES = "j", ("d1", "d2", "d3")


def test_simulated_phones_plan_as_the_phone_does(tmp_path: Path) -> None:
    chance = random.Random(3)
    cases = [_step_case(chance) if chance.random() < 0.8 else _batch_case(chance) for _ in range(CASES)]
    file = tmp_path / "cases.ndjson"
    file.write_text("\n".join(json.dumps(case) for case in cases), encoding="utf-8")
    command = [str(node_binary()), str(RUNNER), str(file)]
    ran = subprocess.run(command, capture_output=True, text=True, env=NODE_ENV, check=False)
    assert ran.returncode == 0, ran.stderr
    theirs = ran.stdout.splitlines()
    ours = [dumps(_planned(case)) for case in cases]
    assert len({one[:20] for one in ours}) >= 4, "the cases come to every kind of step"
    assert theirs == ours


def _link(chance: random.Random) -> dict[str, Any]:
    device, seq = chance.choice(DEVICES), chance.randint(1, 4)
    return {"device": device, "seq": seq, "hash": f"{device} {seq}", "waiting": chance.random() < 0.1}


def _step_case(chance: random.Random) -> dict[str, Any]:
    links = list({one["hash"]: one for one in (_link(chance) for _ in range(chance.randint(0, 6)))}.values())
    ours = set_digest(str(one["hash"]) for one in links)
    heads = [_head(chance, device, links) for device in DEVICES if chance.random() < 0.9]
    told = {"cursor": chance.choice([2, 3, 3]), "more": chance.random() < 0.2, "heads": heads}
    digests = {"set_digest": chance.choice([ours, ours, "other"]), "state_digest": "state"}
    seen = {"job": JOB, **told, **(digests if chance.random() < 0.8 else {})}
    held = {"job": JOB, "links": links, "cursor": 3, "letGo": chance.random() < 0.05}
    log = {"now": "log", "changed": chance.random() < 0.2}
    step = plan.step_for(_held(held), seen, plan.LogPair("log", log["changed"] is True), frozenset())
    return {
        "held": held,
        "seen": seen,
        "log": log,
        "done": [step.key] if step and chance.random() < 0.4 else [],
    }


def _head(chance: random.Random, device: str, links: list[dict[str, Any]]) -> dict[str, Any]:
    """Mostly as far as the phone holds the chain; now and then shorter, or with a hole."""
    mine = [one for one in links if one["device"] == device]
    seq = max((int(one["seq"]) for one in mine), default=1) - (chance.random() < 0.1)
    count = {"count": len(mine) - (chance.random() < 0.1)} if chance.random() < 0.8 else {}
    found = f"{device} {seq}" if chance.random() < 0.95 else "another"
    return {"device": device, "seq": max(1, seq), "hash": found, **count}


def _batch_case(chance: random.Random) -> dict[str, Any]:
    links = {one["hash"]: one for one in (_link(chance) for _ in range(8))}.values()
    batch = [
        {"job": chance.choice(["j", "k"]), **one, "text": "x" * chance.randint(1, 400_000)} for one in links
    ]
    owed = [{"job": "j", **_link(chance), "text": ""}]
    return {"batch": batch, "owed": owed, "device": "d1"}


def _held(held: dict[str, Any]) -> plan.JobHeld:
    links = [plan.HeldLink(**one) for one in held["links"]]
    return plan.JobHeld(held["job"], links, held["cursor"], held["letGo"])


def _waiting(one: dict[str, Any]) -> plan.Waiting:
    return plan.Waiting(one["job"], one["device"], one["seq"], one["hash"], one["text"])


def _planned(case: dict[str, Any]) -> Any:
    if "batch" in case:
        batch, owed = ([_waiting(one) for one in case[name]] for name in ("batch", "owed"))
        heads = plan.heads_to_sign(batch, owed, case["device"])
        return {"heads": [one.hash for one in heads], "over": [one.hash for one in plan.hand_over(batch)]}
    log = plan.LogPair(**case["log"])
    step = plan.step_for(_held(case["held"]), case["seen"], log, frozenset(case["done"]))
    return _words(step) if step is not None else {}


def _words(step: plan.Step) -> dict[str, Any]:
    match step.step:
        case "reconcile":
            return {"step": step.step, "job": step.job, "key": step.key}
        case "report":
            return {"step": step.step, "report": dict(vars(step.report)), "key": step.key}
        case _:
            digests = {"set_digest": step.set_digest, "state_digest": step.state_digest}
            return {"step": step.step, "job": step.job, **digests}
