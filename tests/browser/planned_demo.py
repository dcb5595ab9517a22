"""A demo whose one job is begun by its script and has a heat plan pinned to its upper zone.

The plan is the shipped zone's, planned before and written out for the screens' tests: nobody waits here.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bayleaf.app import open_parts
from bayleaf.config import Config
from bayleaf.demo_scenario import Scenario
from bayleaf.heat.model import MODEL_ID
from bayleaf.heat.response import packed
from bayleaf.heat_ports import Planned
from bayleaf.seed_folder import SEED_FOLDER
from bayleaf.usecases.heat_plans import Place, ask_plan, pin_plan
from bayleaf.usecases.heat_zones import add_zone
from bayleaf.usecases.office import Office
from bayleaf.usecases.plan_heat import plan_next
from browser.begun_demo import make_begun_demo

RESPONSE = Path(__file__).parents[2] / "web" / "test" / "ui" / "fixtures" / "upper_response.json"
PINNED_TO = ("removal", "upper")


def upper_response() -> dict[str, Any]:
    """The response set of the shipped upper zone's plan."""
    document: dict[str, Any] = json.loads(RESPONSE.read_text("utf-8"))
    return document


@dataclass
class PlannedBefore:
    """The port Planner, for the one zone that was planned before."""

    response: dict[str, Any]
    model: str = MODEL_ID

    def plan(self, text: str, told: Callable[[str, int], None], stop: Callable[[], bool]) -> Planned:
        """Whatever is asked."""
        del text, stop
        told("family", 1000)
        answer = self.response["answer"]
        figures = {"model": MODEL_ID, "ambient_C": self.response["ambient_dC"] / 10, **answer}
        return Planned(
            answer["sentence"], json.dumps(figures), json.dumps(answer), packed(self.response), packed({})
        )


def make_planned_demo(data: Path, scenario: Scenario, at: str) -> None:
    """As `make_begun_demo`, with the plan."""
    make_begun_demo(data, scenario, at)
    parts = open_parts(Config(data=data))
    pin_upper(parts.office)
    parts.close()


def pin_upper(office: Office) -> None:
    """To the shop's one job that is not filed."""
    text = (SEED_FOLDER / "zones" / "upper.yaml").read_text("utf-8")
    zone = add_zone(office, text, "")
    ask_plan(office, zone.digest)
    plan_next(office.heat, PlannedBefore(upper_response()), office.clock)
    with office.log.reading() as log:
        (job,) = [row.id for row in log.jobs()]
    pin_plan(office, Place(job, *PINNED_TO), zone.digest, "")
