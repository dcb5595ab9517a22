"""Card state: what all entries of a job add up to. Plain JSON shapes, the same on both sides to the byte.

Every list of hashes is sorted unless its comment says otherwise. Hashes that may be missing are "".
"""

from typing import Literal, NotRequired, TypedDict

Done = Literal["", "done", "not_applicable"]
Hold = Literal["none", "held", "passed", "deviation"]
Why = Literal["", "own_value", "demand", "missing", "superseded", "struck"]


class Struck(TypedDict):
    target: str
    by: list[str]


class JobState(TypedDict):
    """The shown value of each of the job's own registers, and what hangs on them."""

    open: str
    place: str
    pin: str
    life: str
    closed: bool
    filed: list[str]
    assigned: list[str]  # persons


class RegisterState(TypedDict):
    """One register; `standing` are its values that answer under the pinned revision."""

    kind: str
    method: str
    step: str
    ask: str
    point: str
    shown: str
    standing: list[str]
    sent_back: list[str]


class StepState(TypedDict):
    """`tick` is the shown tick even if it is sent back (`done` is "" then).

    `open` and `not_asked` are in the asks' order; `not_asked` are those whose `when` is not met. `later` are
    the entries that put the step off, done since or not.
    """

    method: str
    step: str
    done: Done
    tick: str
    open: list[str]
    not_asked: list[str]
    hold: Hold
    needs_open: list[str]
    later: list[str]


class SlotState(TypedDict):
    method: str
    step: str
    slot: str
    photos: list[str]


class LotState(TypedDict):
    """All lots that stand at the ask; `marked` are those of the wrong material or past their expiry.

    A marked one answers only if a deviation names it: whether the ask is open, its step says.
    """

    method: str
    step: str
    ask: str
    answers: list[str]
    marked: list[str]


class MarkState(TypedDict):
    hash: str
    mark: str
    piece: str
    open: bool


class PositionState(TypedDict):
    """A fastener position at its highest generation; `marks` are those of all its generations."""

    position: str
    group: str
    generation: int
    state: str
    deciding: str
    marks: list[MarkState]
    place: str


class PieceCounts(TypedDict):
    head: int
    mandrel: int
    shank: int


class Pieces(TypedDict):
    owed: PieceCounts
    lost: PieceCounts


class PeakState(TypedDict):
    sensor: str
    value: int


class RunState(TypedDict):
    """A heat run; `acts` and `readings` are sorted by (run_ms, hash), `moments` by the order of a run.

    `peak` is of all sensors on the bond and the metal, `peaks` is of each sensor that was read, sorted by it.
    """

    run: str
    method: str
    step: str
    ask: str
    zone: str
    purpose: str
    acts: list[str]
    readings: list[str]
    turned_down: list[str]
    lifted: list[str]
    moments: list[str]
    aborted: bool
    off: bool
    soak_ms: int
    soak_counts_to_ms: int
    peaks: list[PeakState]
    peak: NotRequired[int]
    peak_sensor: NotRequired[str]


class ConditionState(TypedDict):
    """`asked` is the shown entry of who looked at it last, whatever they found."""

    id: str
    on: bool
    by: list[str]
    asked: str


class CountersignState(TypedDict):
    hash: str
    counts: bool
    why: Why


class FindingState(TypedDict):
    code: str
    at: list[str]
    hashes: list[str]
    accepted: str


class CardState(TypedDict):
    """All that the fold returns; `state_digest` is the SHA-256 of its canonical JSON."""

    fold: int
    count: int
    aside: list[str]
    unknown: list[str]
    struck: list[Struck]
    job: JobState
    missing_methods: list[str]
    registers: list[RegisterState]
    elsewhere: list[str]
    steps: list[StepState]
    slots: list[SlotState]
    loose_photos: list[str]
    lots: list[LotState]
    positions: list[PositionState]
    counts: dict[str, int]
    pieces: Pieces
    runs: list[RunState]
    conditions: list[ConditionState]
    deviations: list[str]
    notes: list[str]
    countersigns: list[CountersignState]
    heard: list[str]
    clock: list[str]
    findings: list[FindingState]
