"""What a step asks for: one frozen type per kind of ask. An absent member reads as its default."""

from dataclasses import dataclass
from typing import Final, Literal

RunPart = Literal["ramp", "soak", "release", "cool_down"]
RUN_PARTS: Final[tuple[RunPart, ...]] = ("ramp", "soak", "release", "cool_down")


@dataclass(frozen=True, slots=True)
class Named:
    """Something with an id and a name: a condition, material, option or point."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class When:
    """The ask is asked only if that choice of the same step shows that option."""

    ask: str
    option: str


@dataclass(frozen=True, slots=True)
class AnswerRef:
    """An answer of some step; an empty point is the answer itself, or all its points in order."""

    method: str
    step: str
    ask: str
    point: str = ""


@dataclass(frozen=True, slots=True)
class Option:
    id: str
    name: str
    stop: bool


@dataclass(frozen=True, slots=True)
class TickAsk:
    id: str
    name: str
    when: When | None = None


@dataclass(frozen=True, slots=True)
class TextAsk:
    id: str
    name: str
    when: When | None = None
    of: str = ""


@dataclass(frozen=True, slots=True)
class ChoiceAsk:
    id: str
    name: str
    options: tuple[Option, ...]
    when: When | None = None


@dataclass(frozen=True, slots=True)
class ReadingAsk:
    """A number in `unit` / 10^decimals; limits and plausible range are scaled alike, or None.

    With `against` the limits hold for this value minus that one, point by point. `since` is for the
    keypad's proposal alone. `where_needed`: a point without a value leaves nothing open.
    """

    id: str
    name: str
    unit: str
    decimals: int
    min: int | None
    max: int | None
    plausible: tuple[int, int] | None
    points: tuple[Named, ...]
    against: AnswerRef | None = None
    since: AnswerRef | None = None
    when: When | None = None
    where_needed: bool = False

    def point_ids(self) -> tuple[str, ...]:
        """The points that a value is wanted at; the one empty id where the ask names none."""
        return tuple(point.id for point in self.points) or ("",)


@dataclass(frozen=True, slots=True)
class PhotoAsk:
    """`framing` are the words of the viewfinder's line drawing, `outline` that drawing's id."""

    id: str
    name: str
    show: str
    deadline: str
    framing: str = ""
    outline: str = ""
    when: When | None = None


@dataclass(frozen=True, slots=True)
class LotAsk:
    id: str
    name: str
    of: str
    when: When | None = None


@dataclass(frozen=True, slots=True)
class TallyAsk:
    id: str
    name: str
    group: str
    to: str
    when: When | None = None


@dataclass(frozen=True, slots=True)
class HeatSettings:
    """What a run is judged by; temperatures in `sensors_unit` / 10^decimals, times in whole seconds.

    Rates are in kelvin per minute at the same scale. None: the method sets no such limit.
    """

    sensors_unit: str
    decimals: int
    lagging_min: int
    leading_max: int
    soak_s: int
    gap_max_s: int
    ramp_s: int
    release: tuple[str, ...]
    cold_below: int
    metal_max: int | None = None
    neighbour_max: int | None = None
    ramp_max: int | None = None
    cooling_max: int | None = None
    lift_below: int | None = None
    setpoint: int | None = None


@dataclass(frozen=True, slots=True)
class HeatAsk:
    """The `parts` of a run that belong to this step; with `continues` the run was begun for that ask."""

    id: str
    name: str
    zone: str
    purpose: str
    settings: HeatSettings
    parts: tuple[RunPart, ...] = RUN_PARTS
    continues: AnswerRef | None = None
    when: When | None = None


@dataclass(frozen=True, slots=True)
class CountersignAsk:
    id: str
    name: str
    of: str
    other_device: bool
    at_the_car: bool
    when: When | None = None


@dataclass(frozen=True, slots=True)
class RivetRow:
    """A rivet's length and the grips that it is for, ends included, in its table's decimals.

    `length` is 0 where only a range is given; `part` is the supplier's number or name of it.
    """

    length: int
    low: int
    high: int
    part: str = ""


@dataclass(frozen=True, slots=True)
class ComputeInput:
    """One input of a computation: answers (`many` if the method listed them), or what the method fixes."""

    name: str
    sources: tuple[AnswerRef, ...] = ()
    many: bool = False
    value: int | None = None
    unit: str = ""
    decimals: int = 0
    text: str = ""
    rows: tuple[RivetRow, ...] = ()


@dataclass(frozen=True, slots=True)
class ComputeAsk:
    """`zone`, `purpose` and `points` (a point set) are what it is about; empty where it is about none."""

    id: str
    name: str
    computation: str
    groups: tuple[str, ...]
    zone: str = ""
    purpose: str = ""
    points: str = ""
    inputs: tuple[ComputeInput, ...] = ()
    when: When | None = None


Ask = (
    TickAsk
    | TextAsk
    | ChoiceAsk
    | ReadingAsk
    | PhotoAsk
    | LotAsk
    | TallyAsk
    | HeatAsk
    | CountersignAsk
    | ComputeAsk
)
