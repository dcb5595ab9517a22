"""A demo whose one job is begun by its script and has the demo's heat plans pinned to it."""

from __future__ import annotations

import gzip
import json
from base64 import b64decode
from pathlib import Path
from typing import Any

from bayleaf.app import open_parts
from bayleaf.config import Config
from bayleaf.demo_heat import bring_in_zones, pin_plans
from bayleaf.demo_scenario import Scenario
from bayleaf.seed_folder import SEED_FOLDER
from browser.begun_demo import make_begun_demo


def make_planned_demo(data: Path, scenario: Scenario, at: str) -> None:
    """As `make_begun_demo`, with the plans."""
    make_begun_demo(data, scenario, at)
    parts = open_parts(Config(data=data))
    with parts.office.log.reading() as log:
        (job,) = [row.id for row in log.jobs()]
    pin_plans(parts.office, job, "", bring_in_zones(parts.office, ""))
    parts.close()


def upper_response() -> dict[str, Any]:
    """The response set of the shipped upper zone's plan."""
    told = json.loads((SEED_FOLDER / "plans" / "upper.json").read_text("utf-8"))
    document: dict[str, Any] = json.loads(gzip.decompress(b64decode(told["response"])))
    return document
