"""A demo whose one job is the whole frame half, removal and fitting, untouched."""

from __future__ import annotations

import json
import time
from pathlib import Path

from bayleaf import demo_plan as plan
from bayleaf.app import open_parts
from bayleaf.config import Config
from bayleaf.demo import NOTE, NOTE_FORM
from bayleaf.demo_making import FRAME_FILE, Making, add_people
from bayleaf.demo_pens import TurnedClock

ORDER = plan.UNTOUCHED.order


def make_frame_demo(data: Path, upto: str = "rem-01") -> None:
    """People, both methods and the job, played up to a step; `bayleaf demo` finds it there and serves it."""
    data.mkdir(parents=True)
    now_ms = time.time_ns() // 1_000_000
    clock = TurnedClock(now_ms)
    making = Making(open_parts(Config(data=data), clock), clock, now_ms, lambda _line: None)
    add_people(making)
    making.open(plan.UNTOUCHED, making.method(FRAME_FILE))
    making.parts.close()
    told = {"form": NOTE_FORM, "people": making.people, "jobs": [ORDER]}
    (data / NOTE).write_text(json.dumps(told), encoding="utf-8")
