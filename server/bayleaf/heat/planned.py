"""Plans a zone and packs all that is kept of it: sentence, figures for steps, answer, response set, field."""

from __future__ import annotations

import gzip
import json
from typing import Any, TypedDict

from bayleaf.heat.field import field_of
from bayleaf.heat.plan import Tick, plan_of
from bayleaf.heat.plan_json import answer_sentence, plan_json
from bayleaf.heat.response import packed
from bayleaf.heat.response_plan import figures_of, response_of
from bayleaf.heat.zone import Zone


class PlannedZone(TypedDict):
    """`answer` and `figures` are JSON, `response` and `field` gzipped JSON."""

    sentence: str
    figures: str
    answer: str
    response: bytes
    field: bytes


def planned_of(zone: Zone, tick: Tick | None = None) -> PlannedZone:
    """The same bytes every time for the same zone and model."""
    plan = plan_of(zone, tick)
    return PlannedZone(
        sentence=answer_sentence(plan),
        figures=_compact(figures_of(plan)),
        answer=_compact(plan_json(plan)),
        response=packed(response_of(plan)),
        field=gzip.compress(_compact(field_of(plan)).encode(), 9, mtime=0),
    )


def _compact(document: dict[str, Any]) -> str:
    return json.dumps(document, separators=(",", ":"), ensure_ascii=False)
