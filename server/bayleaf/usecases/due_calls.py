"""What somebody is to be called for now: due moments of heat runs, and holds that wait for a second name."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

from bayleaf.domain.asks import HeatAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.method import MethodDoc
from bayleaf.domain.state import RunState
from bayleaf.usecases.board_rows import Folded
from bayleaf.usecases.board_waits import Place, holds_of, of_a_deviation, places_of
from bayleaf.usecases.run_dues import MS_PER_MIN, Due, RunFacts, dues_of
from bayleaf.usecases.run_planned import planned_of

BEFORE_MS: Final = 5 * MS_PER_MIN
OVERDUE_AFTER_MS: Final = 3 * MS_PER_MIN
OVERDUE_FOR_MS: Final = 30 * MS_PER_MIN
WORTH_A_WARNING_MS: Final = 2 * BEFORE_MS
SHORT: Final = 8

Moment = Literal["five_min", "due", "overdue", "waits"]
Kind = Literal["run", "sign"]


@dataclass(frozen=True)
class Call:
    """`about` names the run or the step, and what it is counted from: with the moment, one call a device.

    `until_ms`: when it is no longer true, in the server's time. `of`: for a hold, whose names it waits for;
    `wrote`: who recorded what is to be signed, and so cannot sign.
    """

    job: str
    kind: Kind
    act: str
    moment: Moment
    about: str
    path: str
    until_ms: int
    of: tuple[str, ...] = ()
    wrote: frozenset[str] = frozenset()

    @property
    def key(self) -> str:
        """Its name among what was sent."""
        return hashlib.sha256(f"{self.job} {self.about} {self.moment}".encode()).hexdigest()


@dataclass(frozen=True)
class Timed:
    """A due moment in the server's time, of a run that is kept."""

    job: str
    run: str
    due: Due
    on_ms: int


@dataclass(frozen=True)
class Waiting:
    """What of a job may call somebody; kept as long as its log does not grow."""

    assigned: frozenset[str]
    timed: tuple[Timed, ...]
    signs: tuple[Call, ...]


def waiting_of(job: str, folded: Folded, response: Callable[[str], bytes]) -> Waiting:
    """Nothing of a closed job. `response`: the response set that a switch-on names, by its SHA-256."""
    state = folded.state
    if state["job"]["closed"]:
        return Waiting(frozenset(), (), ())
    timed = tuple(one for run in state["runs"] for one in _timed(job, folded, run, response))
    return Waiting(frozenset(_assigned(folded)), timed, tuple(_signs(job, folded)))


def calls_at(waiting: Waiting, now_ms: int) -> list[Call]:
    """Those whose time has come and is not over."""
    runs = [call for one in waiting.timed if (call := _call_of(one, now_ms)) is not None]
    return [*runs, *waiting.signs]


def _call_of(timed: Timed, now_ms: int) -> Call | None:
    due = timed.due
    left_ms = timed.on_ms + due.due_ms - now_ms
    moment, until_ms = _moment(left_ms, due.due_ms - due.since_ms)
    if moment is None:
        return None
    return Call(
        job=timed.job,
        kind="run",
        act=due.act,
        moment=moment,
        about=f"run {timed.run} {due.act} {due.due_ms}",
        path=f"/job/{timed.job}/run/{timed.run}",
        until_ms=now_ms + until_ms,
    )


def _moment(left_ms: int, of_ms: int) -> tuple[Moment | None, int]:
    """Which moment it is, and for how long. Short waits are not announced: their beginning was a tap ago."""
    if left_ms > BEFORE_MS:
        return None, 0
    if left_ms > 0:
        return ("five_min", left_ms) if of_ms >= WORTH_A_WARNING_MS else (None, 0)
    if left_ms > -OVERDUE_AFTER_MS:
        return "due", left_ms + OVERDUE_AFTER_MS
    if left_ms > -OVERDUE_AFTER_MS - OVERDUE_FOR_MS:
        return "overdue", left_ms + OVERDUE_AFTER_MS + OVERDUE_FOR_MS
    return None, 0


def _timed(job: str, folded: Folded, run: RunState, response: Callable[[str], bytes]) -> Iterator[Timed]:
    facts = _facts(folded, run, response)
    begun = folded.entries[run["run"]]
    on_ms = begun.at_ms + folded.offsets.get(begun.hash, 0)
    for due in dues_of(facts) if facts is not None else ():
        yield Timed(job, run["run"], due, on_ms)


def _facts(folded: Folded, run: RunState, response: Callable[[str], bytes]) -> RunFacts | None:
    """None where the method that the run was begun under is not here."""
    method = folded.methods.get(folded.entries[run["run"]].body["digest"])
    step = method.step(run["step"]) if method is not None else None
    ask = step.ask(run["ask"]) if step is not None else None
    zone = method.zone(run["zone"]) if method is not None else None
    if not isinstance(ask, HeatAsk) or zone is None:
        return None
    acts = [folded.entries[one].body for one in run["acts"] if one != run["run"]]
    readings = [folded.entries[one].body for one in run["readings"]]
    scale = (ask.settings.sensors_unit, ask.settings.decimals)
    like = [body for body in readings if (body["unit"], body["decimals"]) == scale]
    over = run["aborted"] or "cold" in run["moments"]
    planned = None if over else planned_of(response, folded.entries[run["run"]].body)
    return RunFacts(run, ask.settings, zone, acts, like, planned)


def _signs(job: str, folded: Folded) -> Iterator[Call]:
    """Holds that lack nothing but a second name."""
    places = places_of(_pinned(folded), folded.state)
    by_key = {place.key: place for place in places}
    for hold in holds_of(places, folded.state, folded.entries):
        place = by_key[str(hold["method"]), str(hold["step"])]
        of = of_a_deviation(place, folded.state, folded.entries) if hold["asks"] else hold["of"]
        if isinstance(of, list) and of:
            yield _sign(job, place, tuple(str(one) for one in of), folded.entries)


def _sign(job: str, place: Place, of: tuple[str, ...], entries: Mapping[str, Entry]) -> Call:
    method, step = place.key
    written = _written_at(place, entries)
    newest = max((entry.at_ms, entry.hash) for entry in written)[1] if written else ""
    return Call(
        job=job,
        kind="sign",
        act="sign",
        moment="waits",
        about=f"sign {method} {step} {newest}",
        path=f"/job/{job}/step/{method}/{step}",
        until_ms=0,
        of=of,
        wrote=frozenset(entry.by for entry in written),
    )


def _written_at(place: Place, entries: Mapping[str, Entry]) -> list[Entry]:
    found = (entry for entry in entries.values() if entry.kind not in ("countersign", "accept", "later"))
    return [entry for entry in found if (entry.body.get("method"), entry.body.get("step")) == place.key]


def _assigned(folded: Folded) -> Sequence[str]:
    return folded.state["job"]["assigned"]


def _pinned(folded: Folded) -> list[MethodDoc]:
    pin = folded.entries.get(folded.state["job"]["pin"])
    digests: list[Any] = pin.body.get("methods", []) if pin is not None else []
    return [folded.methods[one] for one in digests if one in folded.methods]
