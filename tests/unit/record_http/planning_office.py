"""An office that hands in heat zones and has them planned at once."""

from __future__ import annotations

import gzip
import json
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from bayleaf.heat.model import MODEL_ID
from bayleaf.heat_ports import NotPlanned, Planned
from bayleaf.usecases.plan_heat import plan_next
from harness.at_work import Shop
from unit.heat.zones import joint

FIGURES = {"model": MODEL_ID, "workable_s": 540}


@dataclass
class Prompt:
    """A planner that answers at once, and tells what it is asked."""

    model: str = MODEL_ID
    asked: list[str] = field(default_factory=list)
    meanwhile: Callable[[], object] = lambda: None

    def plan(self, text: str, told: Callable[[str, int], None], stop: Callable[[], bool]) -> Planned:
        self.asked.append(text)
        told("family", 600)
        self.meanwhile()
        if stop():
            raise NotPlanned("stopped", stopped=True)
        answer = json.dumps({"sentence": "Workable in 9 min."})
        return Planned(
            "Workable in 9 min.", json.dumps(FIGURES), answer, b"gzipped set", gzip.compress(b"{}")
        )


def zone_named(name: str) -> dict[str, Any]:
    return joint(id=name.replace(" ", "-"))


def added(shop: Shop, name: str) -> str:
    answer = shop.server.office().post("/api/heat/zones", json={"document": zone_named(name)})
    assert answer.status_code == 201, answer.text
    return str(answer.get_json()["digest"])


def work(shop: Shop, planner: Prompt) -> None:
    office = shop.server.parts.office
    plan_next(office.heat, planner, office.clock)


def planned(shop: Shop, name: str) -> str:
    digest = added(shop, name)
    shop.server.office().post("/api/heat/plans", json={"zone": digest})
    work(shop, Prompt())
    return digest


def listed(shop: Shop, digest: str) -> dict[str, Any]:
    rows = shop.server.office().get("/api/heat/zones").get_json()["zones"]
    return next(row for row in rows if row["digest"] == digest)
