"""What a heat zone is: the joint, its pads, neighbours, sensors and limits, as frozen data in SI units.

Lengths in m, areas in m2, temperatures in degrees C (names end in _C), time in s. x runs along the joint, y
across it, from the zone's lower left corner seen from the heated side; layers are counted from the heated
side
inward.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Purpose = Literal["removal", "cure"]
Role = Literal["metal", "adhesive", "composite", "other"]
Act = Literal["turn_down", "off", "lift"]
Side = Literal["x_low", "x_high", "y_low", "y_high"]
SIDES: tuple[Side, ...] = ("x_low", "x_high", "y_low", "y_high")
STILL_BONDED = "still_bonded"


@dataclass(frozen=True)
class Box:
    """A rectangle in the plane of the joint, m."""

    x0: float
    y0: float
    x1: float
    y1: float

    def overlaps(self, other: Box) -> bool:
        return self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1

    def inside(self, other: Box) -> bool:
        return self.x0 >= other.x0 and self.y0 >= other.y0 and self.x1 <= other.x1 and self.y1 <= other.y1

    def holds(self, x_m: float, y_m: float) -> bool:
        return self.x0 <= x_m <= self.x1 and self.y0 <= y_m <= self.y1

    @property
    def area_m2(self) -> float:
        return (self.x1 - self.x0) * (self.y1 - self.y0)


@dataclass(frozen=True)
class Layer:
    """One plate of the stack-up; `covers` says where it lies, `contact_W_m2K` how it meets the next one."""

    id: str
    name: str
    role: Role
    thickness_m: float
    kx_W_mK: float
    ky_W_mK: float
    kz_W_mK: float
    density_kg_m3: float
    specific_heat_J_kgK: tuple[tuple[float, float], ...]  # (C, J/kgK), one pair or a rising table
    covers: tuple[Box, ...]
    contact_W_m2K: float | None = None  # None: no resistance but the half layers'
    limit_C: float | None = None
    sublayers: int | None = None
    extra_loss_W_m2K: float = 0.0


@dataclass(frozen=True)
class Pad:
    """A flat resistive heater; without a contact it is an even flux straight into the heated layer."""

    id: str
    name: str
    box: Box
    power_W_m2: float
    setpoint_C: float | None
    contact_W_m2K: float | None
    capacity_J_m2K: float
    back_loss_W_m2K: float
    power_share: float = 1.0
    sensor_m: tuple[float, float] | None = None


@dataclass(frozen=True)
class FaceLoss:
    """Natural convection q = coefficient |dT|^flux_exponent, and grey radiation."""

    coefficient_W_m2: float
    flux_exponent: float
    emissivity: float


@dataclass(frozen=True)
class Edge:
    """How the heated layer goes on beyond one side of the zone."""

    runs_on_m: float = 0.0
    end_loss_W_m2K: float = 0.0
    held_C: float | None = None


@dataclass(frozen=True)
class Web:
    """A wall between the near and the far side of a hollow profile, along the joint."""

    y_m: float
    thickness_m: float
    height_m: float
    k_W_mK: float


@dataclass(frozen=True)
class Profile:
    """A hollow profile behind the metal: its far wall, webs, and exchange across the cavity."""

    box: Box
    wall: Layer
    cavity_W_m2K: float
    webs: tuple[Web, ...]


@dataclass(frozen=True)
class Neighbour:
    """A thing that must stay cool, at a place of one layer."""

    id: str
    name: str
    kind: str
    x_m: float
    y_m: float
    layer: str
    limit_C: float


@dataclass(frozen=True)
class Sensor:
    id: str
    x_m: float
    y_m: float
    layer: str


@dataclass(frozen=True)
class Probe:
    """A place asked about: depth in m from the layer's heated face, or None for the mean through it."""

    id: str
    x_m: float
    y_m: float
    layer: str
    depth_m: float | None = None


@dataclass(frozen=True)
class PadAct:
    """A pad turned down to a share of its full power, off, or lifted, at a time of the run."""

    at_s: float
    pad: str
    act: Act
    share: float = 0.0


@dataclass(frozen=True)
class Limits:
    ramp_K_min: float | None = None
    cooling_K_min: float | None = None
    count_above_C: tuple[float, ...] = (150.0,)


@dataclass(frozen=True)
class Supply:
    voltage_V: float
    circuit_A: float


@dataclass(frozen=True)
class Earlier:
    """Minutes that a layer has already spent above a temperature in earlier runs.

    `zone`: the neighbouring zone whose run it was; empty for runs of this one.
    """

    layer: str
    above_C: float
    minutes: float
    zone: str = ""


@dataclass(frozen=True)
class Zone:
    """One stretch of joint heated in one go, with everything that its plan needs."""

    id: str
    name: str
    invented: bool
    purpose: Purpose
    size_m: tuple[float, float]
    duration_s: float
    ambient_C: float
    start_C: float
    layers: tuple[Layer, ...]
    pads: tuple[Pad, ...]
    heated_loss: FaceLoss
    inner_loss: FaceLoss
    bondline: str = ""
    workable_C: float = 0.0
    maximum_C: float = 0.0
    soak_s: float = 0.0
    wedging_s: float = 0.0
    edges: dict[Side, Edge] = field(default_factory=dict)
    profile: Profile | None = None
    neighbours: tuple[Neighbour, ...] = ()
    sensors: tuple[Sensor, ...] = ()
    limits: Limits = Limits()
    supply: Supply | None = None
    contact_band: tuple[float, float] = (0.5, 1.6)
    loss_band: tuple[float, float] = (0.7, 1.4)
    earlier: tuple[Earlier, ...] = ()
    acts: tuple[PadAct, ...] = ()
    probes: tuple[Probe, ...] = ()
    report_times_s: tuple[float, ...] = ()
    cells_m: tuple[float, float] | None = None
    max_step_s: float | None = None
    digest: str = ""

    @property
    def outline(self) -> Box:
        return Box(0.0, 0.0, *self.size_m)

    @property
    def layers_and_wall(self) -> tuple[Layer, ...]:
        """Every layer, and the far wall of a profile behind them."""
        return (*self.layers, self.profile.wall) if self.profile else self.layers

    def layer(self, layer_id: str) -> Layer:
        """The layer of that id (the profile's far wall included); KeyError if there is none."""
        for layer in self.layers_and_wall:
            if layer.id == layer_id:
                return layer
        raise KeyError(layer_id)


@dataclass(frozen=True)
class Conditions:
    """One member of the family: what contact and loss turn out to be, as factors on the zone's figures."""

    contact: float = 1.0
    loss: float = 1.0
    pad_contact: tuple[tuple[str, float], ...] = ()  # further factor on single pads (a pad that lifts)

    def contact_of(self, pad: Pad) -> float:
        return self.contact * dict(self.pad_contact).get(pad.id, 1.0)


NOMINAL = Conditions()
