"""What the invented people do: one frozen type per sort of deed, as data. Nothing here writes anything."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

Plain = int | float | str
Said = Plain | tuple[Plain, ...] | Mapping[str, Plain]


@dataclass(frozen=True)
class Hand:
    """A person at a device; `auth` is how that device knows them."""

    person: str
    device: str
    auth: str = "own"


@dataclass(frozen=True)
class Deed:
    """`by` and `at` are those of the step unless the deed has its own; `name` is what later deeds call it."""

    name: str = field(default="", kw_only=True)
    by: Hand | None = field(default=None, kw_only=True)
    at: str = field(default="", kw_only=True)


@dataclass(frozen=True)
class Answer(Deed):
    """A text, choice, reading or tick; over what stands there, unless the writer has not heard of that.

    A reading is a number as people write it, at the ask's one place or, with `point`, at that one.
    """

    ask: str
    value: Plain = "done"
    point: str = ""
    unheard: bool = False
    step: str = ""


@dataclass(frozen=True)
class Lot(Deed):
    """A lot scanned; `days` until its expiry, below zero for one that is past it."""

    ask: str
    lot: str
    days: int
    material: str = ""


@dataclass(frozen=True)
class Photo(Deed):
    """A photo in a slot of the step; `shows` another slot's picture where it was the wrong one."""

    slot: str
    shows: str = ""
    caption: str = ""


@dataclass(frozen=True)
class Moved(Deed):
    """A photo moved to the slot where it belongs: the same bytes there, and the first one struck."""

    photo: str
    step: str
    slot: str
    reason: str


@dataclass(frozen=True)
class Deviation(Deed):
    """A departure with its reason, about the named entries."""

    text: str
    about: tuple[str, ...] = ()
    passes_hold: bool = False


@dataclass(frozen=True)
class Sign(Deed):
    """A countersign of an ask; with an empty ask, of the named deviations that pass the hold."""

    ask: str = ""
    saw: tuple[str, ...] = ()
    step: str = ""


@dataclass(frozen=True)
class Strike(Deed):
    target: str
    reason: str


@dataclass(frozen=True)
class Note(Deed):
    text: str


@dataclass(frozen=True)
class Climbed(Deed):
    """Rivets taken through these states one by one; without positions, all of the tally ask's group."""

    ask: str
    positions: tuple[str, ...] = ()
    generation: int | None = None
    states: tuple[str, ...] = ()


@dataclass(frozen=True)
class Mark(Deed):
    """A rivet mark; `lost` names the mark that a `found` answers."""

    position: str
    mark: str
    piece: str = ""
    lost: str = ""
    generation: int = 0


@dataclass(frozen=True)
class SwitchedOn(Deed):
    """A heat run begins, for the step's heat ask of that id."""

    ask: str
    run: str


@dataclass(frozen=True)
class RunAct(Deed):
    """An act of a run, at its minute. `typed`: entered late, with the minute from paper."""

    run: str
    minute: float
    act: str
    pad: str = ""
    text: str = ""
    typed: bool = False


@dataclass(frozen=True)
class Logged(Deed):
    """The logger's readings of every sensor of a run, from one minute to another."""

    run: str
    first: int
    last: int


@dataclass(frozen=True)
class ReadByHand(Deed):
    """One sensor, read off the display."""

    run: str
    sensor: str
    minute: int
    value: int
    typed: bool = False


@dataclass(frozen=True)
class WorkedOut(Deed):
    """A computation that a step asks for, from what is recorded by then."""

    ask: str
    step: str = ""


@dataclass(frozen=True)
class Looked(Deed):
    """A standing condition looked at."""

    condition: str
    holds: bool = True


@dataclass(frozen=True)
class PutOff(Deed):
    reason: str


@dataclass(frozen=True)
class SentBack(Deed):
    about: tuple[str, ...]
    remark: str


@dataclass(frozen=True)
class Accepted(Deed):
    """The office accepts what is found by then under a code, at these ids; none: wherever it is found."""

    code: str
    reason: str
    where: tuple[str, ...] = ()


@dataclass(frozen=True)
class Agreed(Deed):
    """The office accepts a deviation itself."""

    deviation: str
    reason: str


@dataclass(frozen=True)
class Closed(Deed):
    reason: str = ""


@dataclass(frozen=True)
class Away(Deed):
    """A device without signal from here on: what it writes reaches the office late."""

    device: str


@dataclass(frozen=True)
class Back(Deed):
    device: str


@dataclass(frozen=True)
class Step:
    """One step of a method as it was done.

    `says` are its values by ask. Asks that are ticked, photographed, counted, computed or signed need none:
    whoever plays the step does them in the method's order. Deeds in `before` come before its asks, in `then`
    after them, and its own tick is last. `instead` gives an ask other deeds than the usual.
    """

    id: str
    at: str
    by: Hand
    says: Mapping[str, Said] = field(default_factory=dict)
    minutes: int = 10
    before: tuple[Deed, ...] = ()
    instead: Mapping[str, tuple[Deed, ...]] = field(default_factory=dict)
    then: tuple[Deed, ...] = ()
    ticked: bool = True
    signed_by: Hand | None = None
    photos_by: Hand | None = None


@dataclass(frozen=True)
class HeatScript:
    """A run's temperatures: corners (minute, C) by sensor, straight between them, read every so often."""

    sensors: Mapping[str, tuple[tuple[int, int], ...]]
    every_min: int = 1


@dataclass(frozen=True)
class Scenario:
    """A job from its first look to its last: the steps in their order, and the runs' temperatures by name."""

    steps: tuple[Step, ...]
    runs: Mapping[str, HeatScript]
