"""Looks things up for the report: entries, who wrote them and when, where in the methods they stand."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final

from bayleaf.domain.asks import Ask, ChoiceAsk, LotAsk, Named, PhotoAsk, ReadingAsk, TallyAsk
from bayleaf.domain.entries import NIL, Entry
from bayleaf.domain.method import TAKING_OUT, MethodDoc, StepDoc
from bayleaf.domain.state import StepState
from bayleaf.report.source import ReportSource
from bayleaf.report.words import HOW_KNOWN, capital
from bayleaf.step_computations.run_verdict import RunVerdict, run_verdicts

LATE: Final = "late: reached the office"
LATE_AFTER_MS: Final = 10 * 60_000  # an entry that took longer to reach the office is late


@dataclass(frozen=True)
class Place:
    """A step where it stands; its number counts through all pinned methods from 1."""

    number: int
    method: MethodDoc
    stage: str
    stage_number: int
    step: StepDoc
    state: StepState | None


class Ledger:
    """One job's entries and methods, with the look-ups that every chapter needs."""

    def __init__(self, source: ReportSource) -> None:
        self.source = source
        self.time = source.time
        self.state = source.state
        self.entries: Mapping[str, Entry] = {entry.hash: entry for entry in source.entries}
        self.struck = {row["target"]: row["by"] for row in source.state["struck"]}
        self.out = frozenset(source.state["aside"]) | frozenset(source.state["unknown"])

    def body(self, entry_hash: str) -> Mapping[str, Any]:
        """The body of that entry; nothing for no entry."""
        entry = self.entries.get(entry_hash)
        return entry.body if entry is not None else {}

    @cached_property
    def verdicts(self) -> Mapping[str, RunVerdict]:
        """Of each heat run, by its switch-on: the first page and the runs' chapter tell the same ones."""
        found = run_verdicts(self.state, self.entries, self.source.methods)
        return {one.run: one for one in found}

    @cached_property
    def opened(self) -> Mapping[str, Any]:
        return self.body(self.state["job"]["open"])

    @cached_property
    def pinned(self) -> list[MethodDoc]:
        digests = self.body(self.state["job"]["pin"]).get("methods", [])
        return [self.source.methods[digest] for digest in digests if digest in self.source.methods]

    @cached_property
    def places(self) -> list[Place]:
        """Every step of the pinned methods, in order."""
        states = {(one["method"], one["step"]): one for one in self.state["steps"]}
        stages = [(method, stage) for method in self.pinned for stage in method.stages]
        steps = [
            (number, method, stage.title, step)
            for number, (method, stage) in enumerate(stages, 1)
            for step in stage.steps
        ]
        return [
            Place(index, method, title, number, step, states.get((method.id, step.id)))
            for index, (number, method, title, step) in enumerate(steps, 1)
        ]

    @cached_property
    def _place_by_id(self) -> dict[tuple[str, str], Place]:
        return {(place.method.id, place.step.id): place for place in reversed(self.places)}

    def place(self, method: str, step: str) -> Place | None:
        """The pinned step with these ids."""
        return self._place_by_id.get((method, step))

    def standing(self, *kinds: str) -> Iterator[Entry]:
        """Entries of these kinds that are neither struck nor out of the fold, in order of arrival."""
        for entry in self.source.entries:
            if entry.kind in kinds and entry.hash not in self.struck and entry.hash not in self.out:
                yield entry

    @cached_property
    def by_step(self) -> Mapping[tuple[str, str], list[Entry]]:
        """Entries that name a step, struck ones too, by what their authors' clocks say."""
        found: defaultdict[tuple[str, str], list[Entry]] = defaultdict(list)
        for entry in sorted(self.source.entries, key=lambda one: (one.at_ms, one.hash)):
            if entry.hash not in self.out and entry.body.get("step"):
                found[(str(entry.body.get("method", "")), str(entry.body["step"]))].append(entry)
        return found

    def name(self, person: str) -> str:
        """A person's name; what is known of them where there is none."""
        if person == NIL:
            return "the server"
        return self.source.people.get(person, f"person {person[:8]}")

    def who(self, entry: Entry) -> str:
        return self.name(entry.by)

    def device(self, entry: Entry) -> str:
        return self.source.devices.get(entry.device, f"device {entry.device[:8]}")

    def how_known(self, entry: Entry) -> str:
        """How the device knew the person; nothing to say where none acted."""
        return "" if entry.by == NIL else HOW_KNOWN.get(entry.auth, entry.auth)

    def when(self, entry: Entry) -> str:
        return self.time.moment(entry.at_ms)

    def signed(self, entry: Entry) -> str:
        """Who and when, as it stands behind a value."""
        return f"{self.who(entry)}, {self.when(entry)}"

    def made_ms(self, entry: Entry) -> int:
        """When it was made, its author's clock put right where the office knows how far it was off."""
        arrival = self.source.arrivals.get(entry.hash)
        return entry.at_ms + (arrival.offset_ms if arrival is not None else 0)

    def apart_ms(self, first: Entry, then: Entry) -> int:
        """By the server's clock where both authors' offsets are known, else by their own."""
        arrivals = self.source.arrivals
        off_ms = [arrivals[one.hash].offset_ms if one.hash in arrivals else 0 for one in (first, then)]
        return then.at_ms - first.at_ms + (off_ms[1] - off_ms[0] if all(off_ms) else 0)

    def late(self, entry: Entry) -> str:
        """Says so if the entry reached the office long after it was made, or its time was typed."""
        arrival = self.source.arrivals.get(entry.hash)
        late = arrival and arrival.received_ms - self.made_ms(entry) > LATE_AFTER_MS
        words = [f"{LATE} {self.time.moment(arrival.received_ms)}"] if late and arrival else []
        if entry.body.get("typed_time"):
            words.append("time typed in late")
        return "; ".join(words)

    def struck_by(self, entry_hash: str) -> str:
        """By whom, when and why an entry was struck; empty where it stands."""
        strikes = [self.entries[one] for one in self.struck.get(entry_hash, []) if one in self.entries]
        said = [f"{self.signed(one)}: {one.body.get('reason', '')}" for one in strikes]
        return f"struck by {'; '.join(said)}" if said else ""

    def step_name(self, method: str, step: str) -> str:
        """`Step 4, rem-04` as text refers to it; the bare ids where it is not pinned."""
        place = self.place(method, step)
        return f"{place.number} {place.step.id}" if place else step

    def ask_of(self, entry: Entry) -> Ask | None:
        """The ask that an entry answers, in the document that it was made under, else in the pinned one."""
        body = entry.body
        ask_id = body.get("ask") or body.get("slot") or ""
        under = self.source.methods.get(str(body.get("digest", "")))
        step = under.step(str(body.get("step", ""))) if under else None
        if step is None:
            place = self.place(str(body.get("method", "")), str(body.get("step", "")))
            step = place.step if place else None
        return step.ask(str(ask_id)) if step else None

    def ask_name(self, entry: Entry) -> str:
        """What a value is called, with its point."""
        ask = self.ask_of(entry)
        name = label(ask) if ask is not None else str(entry.body.get("ask") or entry.body.get("slot") or "")
        point = str(entry.body.get("point", ""))
        return f"{name}, {point_name(ask, point)}" if point else name

    def step_of(self, entry: Entry) -> tuple[str, str]:
        """Method and step of an entry; of a run's acts, those of its `on`; of a rivet, those of its tally."""
        body = entry.body
        if not body.get("step") and body.get("run") in self.entries:
            body = self.entries[str(body["run"])].body
        if entry.kind == "tally":
            return self._step_of_position(str(body["position"]), taking_out=body["generation"] == 0)
        return str(body.get("method", "")), str(body.get("step", ""))

    def _step_of_position(self, position: str, *, taking_out: bool) -> tuple[str, str]:
        """The first step that asks for the tally of this position, taking out or setting."""
        for place in self.places:
            for ask in place.step.asks:
                if not isinstance(ask, TallyAsk) or (ask.to in TAKING_OUT) != taking_out:
                    continue
                if position in place.method.group_positions(ask.group):
                    return place.method.id, place.step.id
        return "", ""


def label(ask: Ask) -> str:
    """What an ask is called: its name, or what it is about."""
    if ask.name:
        return capital(ask.name)
    match ask:
        case PhotoAsk():
            return capital(ask.id.replace("_", " "))
        case LotAsk():
            return capital(ask.of.replace("_", " "))
        case _:
            return capital(ask.id.replace("_", " "))


def point_name(ask: Ask | None, point: str) -> str:
    points: tuple[Named, ...] = ask.points if isinstance(ask, ReadingAsk) else ()
    return next((one.name for one in points if one.id == point), point)


def option_name(ask: Ask | None, option: str) -> str:
    options = ask.options if isinstance(ask, ChoiceAsk) else ()
    return next((one.name for one in options if one.id == option), option.replace("_", " "))
