"""The part that a method works on, as its document tells it: groups, zones, points, maps, facts."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

SensorOf = Literal["bond", "metal", "neighbour"]
Document = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Group:
    id: str
    name: str
    positions: tuple[str, ...]
    where: str = ""


@dataclass(frozen=True, slots=True)
class Pad:
    """A heating pad; `zone` is told only in a zone made of others, and says of which it is."""

    id: str
    name: str
    size_mm: tuple[int, int] | None = None
    zone: str = ""


@dataclass(frozen=True, slots=True)
class Sensor:
    """A thermocouple, on the bond, on the metal beside the pads, or on a neighbour to be kept cool."""

    id: str
    name: str
    of: SensorOf = "bond"


@dataclass(frozen=True, slots=True)
class Zone:
    id: str
    name: str
    pads: tuple[Pad, ...]
    sensors: tuple[Sensor, ...]
    where: str = ""
    made_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Point:
    """A named point, with its nominal place where it has one: to the rear, to the left, up, in mm."""

    id: str
    name: str
    at_mm: tuple[int, int, int] | None = None


@dataclass(frozen=True, slots=True)
class PointSet:
    id: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """Where something is in a drawing, in the units of its view box; `zone` where its id alone is not one."""

    id: str
    x: int
    y: int
    zone: str = ""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle of a drawing, by its upper left corner."""

    id: str
    x: int
    y: int
    w: int
    h: int
    zone: str = ""


@dataclass(frozen=True, slots=True)
class DrawingMap:
    """What is where in one drawing."""

    drawing: str
    size: tuple[int, int]
    places: tuple[Spot, ...]
    pads: tuple[Box, ...]
    sensors: tuple[Spot, ...]
    zones: tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class Fact:
    """One figure (`value` / 10^decimals) or word of the part, for screens and computations."""

    name: str
    value: int | None = None
    decimals: int = 0
    text: str = ""


def groups_of(document: Document) -> tuple[Group, ...]:
    """The rivet groups of a method document."""
    return tuple(
        Group(group["id"], group["name"], tuple(group["positions"]), group.get("where", ""))
        for group in document["groups"]
    )


def zones_of(document: Document) -> tuple[Zone, ...]:
    """The heat zones of a method document."""
    return tuple(
        Zone(
            zone["id"],
            zone["name"],
            tuple(_pad_of(pad) for pad in zone["pads"]),
            tuple(Sensor(**sensor) for sensor in zone["sensors"]),
            zone.get("where", ""),
            tuple(zone.get("made_of", ())),
        )
        for zone in document["zones"]
    )


def _pad_of(pad: Document) -> Pad:
    size = pad.get("size_mm")
    return Pad(pad["id"], pad["name"], (size[0], size[1]) if size else None, pad.get("zone", ""))


def point_sets_of(document: Document) -> tuple[PointSet, ...]:
    """The sets of named points of a method document."""
    return tuple(
        PointSet(one["id"], tuple(_point_of(point) for point in one["points"]))
        for one in document.get("point_sets", ())
    )


def _point_of(point: Document) -> Point:
    at = point.get("at_mm")
    return Point(point["id"], point["name"], (at[0], at[1], at[2]) if at else None)


def maps_of(document: Document) -> tuple[DrawingMap, ...]:
    """The maps of a method document's drawings."""
    return tuple(
        DrawingMap(
            one["drawing"],
            (one["size"][0], one["size"][1]),
            _spots(one["places"]),
            _boxes(one["pads"]),
            _spots(one["sensors"]),
            _boxes(one["zones"]),
        )
        for one in document.get("maps", ())
    )


def _spots(spots: Iterable[Document]) -> tuple[Spot, ...]:
    return tuple(Spot(**spot) for spot in spots)


def _boxes(boxes: Iterable[Document]) -> tuple[Box, ...]:
    return tuple(Box(**box) for box in boxes)


def facts_of(document: Document) -> tuple[Fact, ...]:
    """The facts of a method document, sorted by name as it lists them."""
    return tuple(Fact(**fact) for fact in document.get("facts", ()))
