"""Thermal mismatch of two bonded parts: free travel as an upper bound, and shear by elastic shear lag.

Shear lag with thermal strain: Volkersen 1938; Hart-Smith, NASA CR-112235 and CR-112236, 1973. Both ends
free, no outer load: tau(x) = (da dT) G / (t w) sinh(w x) / cosh(w L / 2), w^2 = (G / t) (1 / (E1 t1) + 1
/ (E2 t2)), x from the middle. Linear elastic; no peel, bending or creep. Model "mismatch-1".
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

MODEL: Final = "mismatch-1"


@dataclass(frozen=True, slots=True)
class Pairing:
    """Two parts over one length: expansions in 1/K, length in mm."""

    metal_per_K: float
    composite_per_K: float
    length_mm: float


@dataclass(frozen=True, slots=True)
class Travel:
    """Free growth between two temperatures, mm; the ends share it if the middle is held."""

    metal_mm: float
    composite_mm: float

    @property
    def differential_mm(self) -> float:
        return self.metal_mm - self.composite_mm

    @property
    def each_end_mm(self) -> float:
        return self.differential_mm / 2


@dataclass(frozen=True, slots=True)
class UpperBound:
    """What the bondline's end would see if the adhesive bent neither part: true of a soft sealant only."""

    end_travel_mm: float
    shear_strain: float
    elongation: float


@dataclass(frozen=True, slots=True)
class ElasticJoint:
    """Bondline and both parts: thicknesses in mm, moduli in MPa."""

    bondline_mm: float
    shear_modulus_MPa: float
    metal_modulus_MPa: float
    metal_mm: float
    composite_modulus_MPa: float
    composite_mm: float


@dataclass(frozen=True, slots=True)
class ShearLag:
    """Shear at the joint's end with both parts elastic.

    What the adhesive really sees, as far as it is elastic.
    """

    parameter_per_mm: float
    end_strain: float
    end_stress_MPa: float
    share_of_upper_bound: float


@dataclass(frozen=True, slots=True)
class DoubleLap:
    """A double lap in any consistent units: one inner part between two outer ones, bonded over `length`."""

    length: float
    width: float
    bondline: float
    shear_modulus: float
    outer_thickness: float
    outer_modulus: float
    outer_per_degree: float
    inner_thickness: float
    inner_modulus: float
    inner_per_degree: float


@dataclass(frozen=True, slots=True)
class DoubleLapStress:
    """Shear stress at the end: thermal, from the load, and both; in the units that were given.

    Thermal shear turns its sign from end to end and the load's does not, so at one end they add up.
    """

    parameter: float
    thermal_amplitude: float
    thermal_end: float
    load_end: float

    @property
    def largest(self) -> float:
        return abs(self.thermal_end) + abs(self.load_end)


def travel(pairing: Pairing, low_C: float, high_C: float) -> Travel:
    """Growth of both parts from the low to the high temperature, mm."""
    rise = high_C - low_C
    return Travel(
        pairing.metal_per_K * rise * pairing.length_mm, pairing.composite_per_K * rise * pairing.length_mm
    )


def upper_bound(pairing: Pairing, set_C: float, at_C: float, bondline_mm: float) -> UpperBound:
    """Travel of one end since the bond set, over the bondline. Strain is the tangent of the angle, signed."""
    end_mm = travel(pairing, set_C, at_C).each_end_mm
    strain = end_mm / bondline_mm
    return UpperBound(end_mm, strain, math.hypot(1, strain) - 1)


def shear_lag(pairing: Pairing, set_C: float, at_C: float, joint: ElasticJoint) -> ShearLag:
    """Shear at the end since the bond set; signed like the travel."""
    compliance = 1 / (joint.metal_modulus_MPa * joint.metal_mm) + 1 / (
        joint.composite_modulus_MPa * joint.composite_mm
    )
    parameter = math.sqrt(joint.shear_modulus_MPa / joint.bondline_mm * compliance)
    half = parameter * pairing.length_mm / 2
    share = math.tanh(half) / half
    strain = share * upper_bound(pairing, set_C, at_C, joint.bondline_mm).shear_strain
    return ShearLag(parameter, strain, strain * joint.shear_modulus_MPa, share)


def double_lap(lap: DoubleLap, change: float, load: float) -> DoubleLapStress:
    """A double lap after a change of temperature (negative: cooled) and under a load along it.

    Shigley's Mechanical Engineering Design, stress distributions in lap joints, example of the double lap;
    the result's form is from memory.
    """
    compliance = 1 / (lap.outer_modulus * lap.outer_thickness) + 2 / (lap.inner_modulus * lap.inner_thickness)
    w = math.sqrt(lap.shear_modulus / lap.bondline * compliance)
    half = w * lap.length / 2
    mismatch = (lap.inner_per_degree - lap.outer_per_degree) * change
    stiff = mismatch * w / compliance
    return DoubleLapStress(
        parameter=w,
        thermal_amplitude=stiff * _sech(half),
        thermal_end=stiff * math.tanh(half),
        load_end=load * w / (4 * lap.width * math.tanh(half)),
    )


def _sech(x: float) -> float:
    """1 / cosh(x) of x above zero; it fades to nothing where cosh would overflow."""
    return 2 * math.exp(-x) / (1 + math.exp(-2 * x))
