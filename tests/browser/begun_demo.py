"""A demo whose one job is the frame half, begun by its script: the phone takes it up where that ends."""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Mapping
from pathlib import Path

from bayleaf import demo_plan as plan
from bayleaf.app import open_parts
from bayleaf.config import Config
from bayleaf.demo import NOTE, NOTE_FORM
from bayleaf.demo_making import EVERY, FRAME_FILE, Making, add_people, past_phones
from bayleaf.demo_pens import ShopPens, TurnedClock
from bayleaf.demo_scenario import WHOLE_JOB, Scenario
from bayleaf.demo_scenario.deeds import Step
from bayleaf.demo_scenario.player import Player, ms_of
from bayleaf.domain.entries import read_entry
from bayleaf.domain.method import methods_of
from browser.demo_server import DemoServer

ORDER = plan.UNTOUCHED.order
NOTHING: Mapping[str, Step] = {}


def script_before(step: str, *more: Step, other: Mapping[str, Step] = NOTHING) -> Scenario:
    """The script up to a step, some of its steps done otherwise, and then some more."""
    ids = [one.id for one in WHOLE_JOB.steps]
    done = [other.get(one.id, one) for one in WHOLE_JOB.steps[: ids.index(step)]]
    return Scenario((*done, *more), WHOLE_JOB.runs)


def make_begun_demo(data: Path, scenario: Scenario, at: str) -> None:
    """The job as it stands when the script's day and time are now; `bayleaf demo` finds it and serves it."""
    data.mkdir(parents=True)
    now_ms = time.time_ns() // 1_000_000
    begins_ms = now_ms - ms_of(at)
    clock = TurnedClock(begins_ms)
    making = Making(open_parts(Config(data=data), clock), clock, now_ms, lambda _line: None)
    add_people(making)
    _play(making, scenario, begins_ms)
    making.parts.close()
    told = {"form": NOTE_FORM, "people": making.people, "jobs": [ORDER]}
    (data / NOTE).write_text(json.dumps(told), encoding="utf-8")


def _play(making: Making, scenario: Scenario, begins_ms: int) -> None:
    office, digests = making.parts.office, making.method(FRAME_FILE)
    texts = office.methods.texts(digests)
    docs = methods_of({one: json.loads(texts[one]) for one in digests})
    job = making.open(plan.UNTOUCHED, digests)
    people = {name: making.people[one.name] for name, one in plan.CAST.items()}
    pens = ShopPens(office, making.clock, job, people, past_phones(making), making.photos)
    player = Player(scenario, docs, pens, making.photos, begins_ms)
    with office.log.reading() as log:
        for one in log.after(job, 0, EVERY):
            player.memory.keep(read_entry(one.text), "")
    last_ms = begins_ms
    for step in player.play():
        last_ms = player.at_ms(step.at)
    pens.hand_in(last_ms)


Begin = Callable[[Scenario, str], DemoServer]
