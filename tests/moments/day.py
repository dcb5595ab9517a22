"""A day in a shop of its own: phones that push through the server's routes, and what both folds make of it.

The job before the moment is the demo's script, played up to a step; the moment itself is played deed by deed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bayleaf.canonical.form import dumps
from bayleaf.demo_pens import DrawnPhotos, PastPhone, ShopPens
from bayleaf.demo_scenario import WHOLE_JOB, Scenario
from bayleaf.demo_scenario.cast import ADA, HOLDS, PHONES
from bayleaf.demo_scenario.deeds import Deed, Hand, Step
from bayleaf.demo_scenario.heat_runs import RUNS
from bayleaf.demo_scenario.player import DAY_MS, Player
from bayleaf.domain.entries import Entry, read_entry
from bayleaf.domain.fold import fold
from bayleaf.domain.state import CardState
from bayleaf.ports import LoggedEntry
from bayleaf.usecases.import_methods import import_methods
from bayleaf.usecases.people import PersonChange, add_person
from harness.played import METHODS, frame_documents, frame_methods
from harness.server import Bench, Phone, bench
from harness.twin import folded_on_the_phone

EVERY = 10**9
MINUTE_MS = 60_000


@dataclass
class RoutePens(ShopPens):
    """Pens whose phones push by `POST /api/sync`, and whose desk writes by the office's route."""

    server: Bench = field(kw_only=True)
    paired: Mapping[str, Phone] = field(kw_only=True)
    fates: list[tuple[str, str]] = field(default_factory=list)

    def _bring(self, phone: PastPhone, chain: Any, at_ms: int) -> None:
        self.clock.at_ms = max(self.clock.at_ms, at_ms, chain.pen.last_ms)
        texts, head, clock = self._push(phone, chain)
        body = {
            "protocol": 1,
            "cursors": {},
            "entries": texts,
            "heads": [head.__dict__],
            "cards": [],
            "clock": clock.__dict__,
            "holds": {"entries": 0, "photos": 0},
            "reports": [],
        }
        own = next(one for one in self.paired.values() if one.device == phone.device)
        answer = own.client.post("/api/sync", json=body)
        if answer.status_code == 401:  # days have passed
            assert self.server.renew(own).status_code == 200
            answer = own.client.post("/api/sync", json=body)
        assert answer.status_code == 200, answer.text
        self.fates += [(one["fate"], one.get("code", "")) for one in answer.get_json()["fates"]]
        chain.sent = len(chain.pen.texts)

    def at_the_desk(self, hand: Hand, kind: str, body: Mapping[str, Any]) -> Entry:
        written = self.server.office().post(
            f"/api/jobs/{self.job}/entries", json={"kind": kind, "body": dict(body)}
        )
        assert written.status_code == 201, written.text
        with self.office.log.reading() as log:
            (entry,) = log.by_hashes(self.job, [written.get_json()["hash"]])
        return read_entry(entry.text)


@dataclass
class Day:
    """The shop, the job, and whoever plays it."""

    server: Bench
    job: str
    pens: RoutePens
    player: Player
    folder: Path

    def upto(self, step: str) -> None:
        """The script's job as it stands before this step begins."""
        for one in WHOLE_JOB.steps:
            if one.id == step:
                break
            self.player.play_step(one)
        self.all_hand_in()

    def play(self, *steps: Step) -> None:
        """More of it; whoever has signal hands in after each step."""
        for step in steps:
            self.player.play_step(step)
            self.all_hand_in(self.player.at_ms(step.at) + step.minutes * MINUTE_MS)

    def do(self, step: str, at: str, by: Hand, *deeds: Deed) -> None:
        """Some deeds at a step, and nothing else of it."""
        asks = {ask.id: () for ask in self._doc(step).asks}
        self.play(Step(step, at, by, instead=asks, then=deeds, ticked=False, minutes=1))

    def all_hand_in(self, at_ms: int = 0) -> None:
        self.pens.hand_in(max(at_ms, self.server.clock.at_ms))

    def script_between(self, first: str, last: str) -> list[Step]:
        """The script's steps from one to another, both included."""
        ids = [one.id for one in WHOLE_JOB.steps]
        return list(WHOLE_JOB.steps[ids.index(first) : ids.index(last) + 1])

    def office_accepts(self, code: str, at: tuple[str, ...], reason: str) -> None:
        """By the office's route, as its page does."""
        found = next(one for one in self.state()["findings"] if (one["code"], *one["at"]) == (code, *at))
        body = {"code": code, "at": list(at), "hashes": found["hashes"], "reason": reason}
        self.player.memory.keep(self.pens.at_the_desk(ADA, "accept", body), "")

    def received_ms(self, name: str) -> int:
        """When the office got what a deed of that name became."""
        with self.server.parts.office.log.reading() as log:
            return log.by_hashes(self.job, [self.hash(name)])[0].received_ms

    def logged(self) -> list[LoggedEntry]:
        """As they lie in the log, with what the server knows beside them."""
        with self.server.parts.office.log.reading() as log:
            return list(log.after(self.job, 0, EVERY))

    def turn_to(self, at: str) -> None:
        """The server's clock, later on."""
        self.server.clock.at_ms = max(self.server.clock.at_ms, self.player.at_ms(at))

    def entries(self) -> list[Entry]:
        """As the office holds them."""
        with self.server.parts.office.log.reading() as log:
            return [read_entry(one.text) for one in log.after(self.job, 0, EVERY)]

    def entry(self, name: str) -> Entry:
        """What a deed of that name became."""
        wanted = self.player.memory.hash(name)
        return next(one for one in self.entries() if one.hash == wanted)

    def hash(self, name: str) -> str:
        return self.player.memory.hash(name)

    def state(self) -> CardState:
        """What both folds make of the office's entries, to the byte."""
        entries = self.entries()
        state = fold(frame_methods(), entries)
        assert folded_on_the_phone(frame_documents(), [entries], self.folder) == [dumps(state)]
        return state

    def row(self) -> dict[str, Any]:
        """The job's row on the office's board."""
        rows = self.server.office().get("/api/jobs").get_json()["jobs"]
        found: dict[str, Any] = next(one for one in rows if one["job"] == self.job)
        return found

    def _doc(self, step: str) -> Any:
        return next(doc for method in frame_methods().values() if (doc := method.step(step)))


def open_day(folder: Path) -> Day:
    """A shop with the demo's cast, their phones, the rear frame's methods, and one job."""
    server = bench(folder / "data")
    begins_ms = server.clock.at_ms // DAY_MS * DAY_MS
    people = {name: _person(server, name) for name in HOLDS}
    server.people |= people
    paired = {name: server.phone(person) for name, person in PHONES.items()}
    drawings = {path.name: path.read_bytes() for path in METHODS.glob("*.svg")}
    yaml = (METHODS / "rear_frame.yaml").read_text(encoding="utf-8")
    digests = [
        one.digest for one in import_methods(server.parts.office.methods, server.clock, yaml, drawings)
    ]
    on_it = [people[person] for person in PHONES.values()]
    new = {
        "order": "T-40",
        "part": "invented frame half",
        "side": "left",
        "methods": digests,
        "people": on_it,
    }
    answer = server.office().post("/api/jobs", json=new)
    assert answer.status_code == 201, answer.text
    phones = {
        name: PastPhone(phone.device, people[PHONES[name]], phone.key) for name, phone in paired.items()
    }
    pens = RoutePens(
        server.parts.office,
        server.clock,
        answer.get_json()["job"],
        people,
        phones,
        DrawnPhotos(),
        server=server,
        paired=paired,
    )
    player = Player(Scenario((), RUNS), frame_methods(), pens, pens.photos, begins_ms + DAY_MS)
    day = Day(server, pens.job, pens, player, folder)
    for entry in day.entries():
        player.memory.keep(entry, "")
    return day


def _person(server: Bench, name: str) -> str:
    if name == "ada":
        return server.people["office"]
    roles = [one for one in HOLDS[name] if one in ("technician", "photographer")]
    qualifications = [one for one in HOLDS[name] if one not in roles]
    change = PersonChange(name=name.title(), roles=roles, qualifications=qualifications)
    return add_person(server.parts.doors, change, server.clock.now_ms()).id


def script(step: str) -> list[Step]:
    """The script's own doing of a step."""
    return [one for one in WHOLE_JOB.steps if one.id == step]


def findings(state: CardState) -> set[tuple[str, ...]]:
    """Code and place of every finding that nobody accepted."""
    return {(one["code"], *one["at"]) for one in state["findings"] if not one["accepted"]}


def step_of(state: CardState, step: str) -> Any:
    """The row of a step."""
    return next(one for one in state["steps"] if one["step"] == step)
