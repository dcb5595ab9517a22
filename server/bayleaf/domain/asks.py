"""What a step asks for: one frozen type per kind of ask, read from a compiled method document."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final


@dataclass(frozen=True, slots=True)
class Named:
    """Something with an id and a name: a condition, pad, sensor, material, option or point."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class Option:
    id: str
    name: str
    stop: bool


@dataclass(frozen=True, slots=True)
class TickAsk:
    id: str
    name: str


@dataclass(frozen=True, slots=True)
class TextAsk:
    id: str
    name: str


@dataclass(frozen=True, slots=True)
class ChoiceAsk:
    id: str
    name: str
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class ReadingAsk:
    """A number in `unit` / 10^decimals; limits and plausible range are scaled alike, or None."""

    id: str
    name: str
    unit: str
    decimals: int
    min: int | None
    max: int | None
    plausible: tuple[int, int] | None
    points: tuple[Named, ...]

    def point_ids(self) -> tuple[str, ...]:
        """The points that a value is wanted at; the one empty id where the ask names none."""
        return tuple(point.id for point in self.points) or ("",)


@dataclass(frozen=True, slots=True)
class PhotoAsk:
    id: str
    name: str
    show: str
    deadline: str


@dataclass(frozen=True, slots=True)
class LotAsk:
    id: str
    name: str
    of: str


@dataclass(frozen=True, slots=True)
class TallyAsk:
    id: str
    name: str
    group: str
    to: str


@dataclass(frozen=True, slots=True)
class HeatSettings:
    """What a run is judged by; temperatures in `sensors_unit` / 10^decimals, times in whole seconds."""

    sensors_unit: str
    decimals: int
    lagging_min: int
    leading_max: int
    soak_s: int
    gap_max_s: int
    ramp_s: int
    release: tuple[str, ...]
    cold_below: int


@dataclass(frozen=True, slots=True)
class HeatAsk:
    id: str
    name: str
    zone: str
    purpose: str
    settings: HeatSettings


@dataclass(frozen=True, slots=True)
class CountersignAsk:
    id: str
    name: str
    of: str
    other_device: bool
    at_the_car: bool


@dataclass(frozen=True, slots=True)
class ComputeAsk:
    id: str
    name: str
    computation: str
    groups: tuple[str, ...]


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


def ask_of(ask: Mapping[str, Any]) -> Ask:
    """The typed ask of one ask of a compiled document."""
    return _ASKS[ask["kind"]](ask)


def named(items: Iterable[Mapping[str, str]]) -> tuple[Named, ...]:
    """Ids with their names, in the order given."""
    return tuple(Named(item["id"], item["name"]) for item in items)


def _choice(ask: Mapping[str, Any]) -> ChoiceAsk:
    return ChoiceAsk(ask["id"], ask["name"], tuple(Option(**option) for option in ask["options"]))


def _reading(ask: Mapping[str, Any]) -> ReadingAsk:
    plausible = ask.get("plausible")
    return ReadingAsk(
        ask["id"],
        ask["name"],
        ask["unit"],
        ask["decimals"],
        ask.get("min"),
        ask.get("max"),
        (plausible[0], plausible[1]) if plausible else None,
        named(ask.get("points", [])),
    )


def _heat(ask: Mapping[str, Any]) -> HeatAsk:
    settings = HeatSettings(**{**ask["settings"], "release": tuple(ask["settings"]["release"])})
    return HeatAsk(ask["id"], ask["name"], ask["zone"], ask["purpose"], settings)


_ASKS: Final[dict[str, Callable[[Mapping[str, Any]], Ask]]] = {
    "tick": lambda ask: TickAsk(ask["id"], ask["name"]),
    "text": lambda ask: TextAsk(ask["id"], ask["name"]),
    "choice": _choice,
    "reading": _reading,
    "photo": lambda ask: PhotoAsk(ask["id"], ask["name"], ask["show"], ask.get("deadline", "")),
    "lot": lambda ask: LotAsk(ask["id"], ask["name"], ask["of"]),
    "tally": lambda ask: TallyAsk(ask["id"], ask["name"], ask["group"], ask["to"]),
    "heat_run": _heat,
    "countersign": lambda ask: CountersignAsk(
        ask["id"], ask["name"], ask["of"], ask["other_device"], ask["at_the_car"]
    ),
    "compute": lambda ask: ComputeAsk(ask["id"], ask["name"], ask["computation"], tuple(ask["groups"])),
}
