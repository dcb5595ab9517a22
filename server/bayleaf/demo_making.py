"""Makes what the demo shows: its people, its methods and its four invented jobs."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Final

from bayleaf import demo_plan as plan
from bayleaf.adapters.signatures import PrivateKey
from bayleaf.demo_heat import bring_in_zones, pin_plans
from bayleaf.demo_pens import DrawnPhotos, PastPhone, ShopPens, TurnedClock
from bayleaf.demo_scenario import HALF, HALF_NOW, WHOLE_JOB, Scenario, for_vehicle
from bayleaf.demo_scenario.cast import PHONES
from bayleaf.demo_scenario.player import DAY_MS, Player, ms_of
from bayleaf.demo_sheets import bring_in_sheets
from bayleaf.demo_stock import bring_in_stock
from bayleaf.domain.entries import read_entry
from bayleaf.domain.method import MethodDoc, methods_of
from bayleaf.http.parts import Parts
from bayleaf.seed_folder import SEED_FOLDER
from bayleaf.serving import ServingFault
from bayleaf.usecases.demo_pairing import DemoPhone, pair_at_once
from bayleaf.usecases.file_job import file_job
from bayleaf.usecases.heat_plans import zone_plans
from bayleaf.usecases.import_methods import import_methods
from bayleaf.usecases.open_job import NewJob, open_job
from bayleaf.usecases.people import PersonChange, add_person
from bayleaf.usecases.sheets import sheets_in_use

METHOD_FOLDER: Final = SEED_FOLDER / "methods"
PRACTICE_FILE: Final = "spine.yaml"
FRAME_FILE: Final = "rear_frame.yaml"
DAYS_SINCE_THE_FIRST: Final = 13
FILED_AT: Final = "10 12:10"
EVERY: Final = 10**9
Say = Callable[[str], None]


@dataclass
class Making:
    """A demo while it is made: the open shop, its turned clock, people by name, what is made but once."""

    parts: Parts
    clock: TurnedClock
    now_ms: int
    say: Say
    people: dict[str, str] = field(default_factory=dict)
    photos: DrawnPhotos = field(default_factory=DrawnPhotos)
    heat: dict[str, str] = field(default_factory=dict)
    """Planned heat zones: digest by id."""

    def method(self, file: str) -> list[str]:
        """The digests of a shipped method file's methods, imported."""
        if not METHOD_FOLDER.is_dir():
            raise ServingFault(
                f"{METHOD_FOLDER}: the demo's methods are not there. Install Bayleaf again, or run a clone."
            )
        drawings = {path.name: path.read_bytes() for path in METHOD_FOLDER.glob("*.svg")}
        yaml = (METHOD_FOLDER / file).read_text(encoding="utf-8")
        imported = import_methods(self.parts.office.methods, self.clock, yaml, drawings)
        for one in imported:
            self.say(f"  method {one.title}, revision {one.revision} (invented)")
        return [one.digest for one in imported]

    def open(self, job: plan.DemoJob, methods: list[str]) -> str:
        """A job for everybody who has a phone."""
        office = self.parts.doors.people.find(self.people[plan.OFFICE.name])
        assert office is not None  # noqa: S101  (added by add_people)
        new = NewJob(
            order=job.order,
            vin=job.vin,
            vehicle=job.vehicle,
            part=job.part,
            side="left",
            place=job.place,
            invented=True,
            methods=methods,
            people=[self.people[one.name] for one in plan.PHONES.values()],
        )
        return open_job(self.parts.office, office, new)


@dataclass(frozen=True)
class Script:
    """What is played: the scenario, its methods by digest, on which phones, from which midnight on."""

    scenario: Scenario
    methods: Mapping[str, MethodDoc]
    phones: Mapping[str, PastPhone]
    begins_ms: int


def make_practice(making: Making) -> None:
    """The people, and the short practice job alone."""
    add_people(making)
    making.open(plan.PRACTICE, making.method(PRACTICE_FILE))
    making.say(f"  job {plan.PRACTICE.order}, {plan.PRACTICE.what}")


def make_all(making: Making) -> None:
    """The people and all four jobs, what happened first made first."""
    first_midnight_ms = (making.now_ms // DAY_MS - DAYS_SINCE_THE_FIRST) * DAY_MS
    making.clock.at_ms = first_midnight_ms
    add_people(making)
    frame = making.method(FRAME_FILE)
    making.heat = bring_in_zones(making.parts.office, making.people[plan.OFFICE.name])
    making.say("  heat zones of the frame, planned beforehand (invented)")
    bring_in_sheets(making.parts.office, making.people[plan.OFFICE.name])
    making.say("  a supplier's sheet of the adhesive (invented)")
    docs = methods_of({one: json.loads(text) for one, text in _texts(making, frame).items()})
    phones = past_phones(making)
    making.say(f"  job {plan.FILED.order}, {plan.FILED.what}: playing ten days of two methods ...")
    filed = _played(making, plan.FILED, Script(WHOLE_JOB, docs, phones, first_midnight_ms))
    _file(making, filed, first_midnight_ms)
    making.say(f"  job {plan.HALF_DONE.order}, {plan.HALF_DONE.what}: playing up to now ...")
    _played(making, plan.HALF_DONE, Script(HALF, docs, phones, making.now_ms - ms_of(HALF_NOW)))
    making.clock.at_ms = making.now_ms
    bring_in_stock(making.parts.office, making.now_ms)
    making.say("  instruments and lots on the shelf (invented)")
    making.open(plan.PRACTICE, making.method(PRACTICE_FILE))
    _with_plans(making, making.open(plan.UNTOUCHED, frame))
    for job in (plan.PRACTICE, plan.UNTOUCHED):
        making.say(f"  job {job.order}, {job.what}")


def add_people(making: Making) -> None:
    """Everybody; their ids by name."""
    for one in plan.PEOPLE:
        making.say(f"  {one.name}, {one.role}, PIN {one.pin}")
        change = PersonChange(
            name=one.name,
            roles=(one.role,),
            qualifications=one.qualifications,
            pin=one.pin,
            password=plan.OFFICE_PASSWORD if one is plan.OFFICE else None,
        )
        making.people[one.name] = add_person(making.parts.doors, change, making.clock.now_ms()).id


def past_phones(making: Making) -> dict[str, PastPhone]:
    """The phones with which the jobs that were begun before were recorded, by the scenario's names."""
    return {name: _past_phone(making, plan.CAST[person]) for name, person in PHONES.items()}


def _past_phone(making: Making, whose: plan.Invented) -> PastPhone:
    key, person = PrivateKey.new(), making.people[whose.name]
    phone = DemoPhone(f"{whose.name.split()[0]}'s earlier phone", person)
    device, _ = pair_at_once(making.parts.doors, phone, key.public_key, making.clock.now_ms())
    return PastPhone(device.id, person, key)


def _texts(making: Making, digests: list[str]) -> dict[str, str]:
    """The compiled documents, in the order of the file."""
    texts = making.parts.office.methods.texts(digests)
    return {digest: texts[digest] for digest in digests}


def _played(making: Making, job: plan.DemoJob, script: Script) -> str:
    """The id of a job that was opened and played."""
    making.clock.at_ms = script.begins_ms
    office = making.parts.office
    opened = _with_plans(making, making.open(job, list(script.methods)))
    people = {name: making.people[one.name] for name, one in plan.CAST.items()}
    pens = ShopPens(office, making.clock, opened, people, script.phones, making.photos)
    scenario = for_vehicle(script.scenario, job.vin)
    plans, sheets = tuple(zone_plans(office, opened)), sheets_in_use(office.stock)
    player = Player(
        scenario, script.methods, pens, making.photos, script.begins_ms, plans=plans, sheets=sheets
    )
    with office.log.reading() as log:
        for one in log.after(opened, 0, EVERY):
            player.memory.keep(read_entry(one.text), "")
    for step in player.play():
        last_ms = player.at_ms(step.at)
    pens.hand_in(last_ms)
    return opened


def _with_plans(making: Making, job: str) -> str:
    pin_plans(making.parts.office, job, making.people[plan.OFFICE.name], making.heat)
    return job


def _file(making: Making, job: str, first_midnight_ms: int) -> None:
    making.clock.at_ms = first_midnight_ms + ms_of(FILED_AT)
    making.say("    setting its report and sealing its dossier ...")
    file_job(making.parts.office, making.parts.filing, job, making.people[plan.OFFICE.name], "")
