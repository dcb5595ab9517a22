"""Documents about equivalent time: of a log, a ramp, steps, several sensors; and the laws of rate."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bayleaf.bonding import coldest_sensor, cure_log, cure_verdict
from bayleaf.bonding.cure_log import Counted, CountRule
from bayleaf.bonding.rate_laws import Arrhenius, Doubling, RateLaw, arrhenius_of, implied_energy_J_per_mol
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import (
    celsius,
    listed,
    mapped,
    minutes,
    number,
    text,
    tupled,
)
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema

MIN_PER_H = 60
DOUBLING_SAID = "the rule per 10 K is common practice, no source; one activation energy is better where known"


COLDEST_SAID = (
    "shown is the coldest at each moment, a safe bound; the sensor with the least is named beside it"
)


def law_of(asked: Inputs) -> RateLaw:
    reference = asked["reference_temperature_C"]
    if "rate_factor_per_10K" in asked:
        return Doubling(asked["rate_factor_per_10K"], reference)
    if "activation_temperature_K" in asked:
        return Arrhenius(asked["activation_temperature_K"], reference)
    return arrhenius_of(asked["activation_energy_J_per_mol"], reference)


def said_of(law: RateLaw, *more: str) -> tuple[str, ...]:
    return (*([DOUBLING_SAID] if isinstance(law, Doubling) else []), *more)


def _cure_time(asked: Inputs) -> Outcome:
    cure_verdict.refuse_moisture(asked["cures_by"])
    law = law_of(asked)
    rule = CountRule(asked.get("longest_interval_min"), asked.get("minimum_cure_temperature_C"))
    if isinstance(asked.get("samples_min_C"), dict):
        return _by_sensor(asked["samples_min_C"], law, rule)
    counted = cure_log.count_log(_samples(asked), law, rule)
    said = said_of(law, *_gaps_named(counted.gaps_min), *_cold_named(counted.below_minimum_min))
    if "steps_h_C" in asked:
        age_h = counted.equivalent_min / MIN_PER_H
        return Outcome({"equivalent_age_h": age_h, **_told(counted)}, remarks=said, model=law.model)
    band = {"equivalent_time_min": [counted.lower_bound_min, counted.equivalent_min]}
    return Outcome(_told(counted), band, said, law.model)


def _samples(asked: Inputs) -> list[tuple[float, float]]:
    if "samples_min_C" in asked:
        return pairs_of(asked["samples_min_C"])
    if "steps_min_C" in asked:
        return _steps(asked["steps_min_C"])
    if "steps_h_C" in asked:
        return _steps([(took * MIN_PER_H, at) for took, at in asked["steps_h_C"]])
    if "temperature_C" in asked:
        return _steps([(asked["duration_min"], asked["temperature_C"])])
    return [(0.0, asked["start_temperature_C"]), (asked["duration_min"], asked["end_temperature_C"])]


def _steps(steps: Sequence[Sequence[float]]) -> list[tuple[float, float]]:
    """Steps of a duration at a temperature, as the samples at both ends of each."""
    now, samples = 0.0, []
    for took, at in steps:
        samples += [(now, at), (now + took, at)]
        now += took
    return samples


def _told(counted: Counted) -> dict[str, Any]:
    return {
        "equivalent_time_min": counted.equivalent_min,
        "lower_bound_min": counted.lower_bound_min,
        "time_below_minimum_min": counted.below_minimum_min,
        "gaps_min": [list(gap) for gap in counted.gaps_min],
        "equivalent_time_if_bridged_min": counted.bridged_min,
    }


def _gaps_named(gaps_min: Sequence[tuple[float, float]], by: str = "") -> tuple[str, ...]:
    return tuple(
        f"minute {start:.10g} to {end:.10g} was not measured{by} and counts nothing"
        for start, end in gaps_min
    )


def _cold_named(below_min: float) -> tuple[str, ...]:
    return (f"{below_min:.10g} min under the sheet's minimum count nothing",) if below_min else ()


def _by_sensor(logs: dict[str, Any], law: RateLaw, rule: CountRule) -> Outcome:
    found = coldest_sensor.count_sensors({name: pairs_of(log) for name, log in logs.items()}, law, rule)
    result = {
        "equivalent_time_min": found.coldest_min,
        "equivalent_time_coldest_at_each_moment_min": found.coldest_min,
        "lower_bound_min": found.coldest_lower_bound_min,
        "equivalent_time_by_sensor_min": {name: one.equivalent_min for name, one in found.by_sensor.items()},
        "equivalent_time_least_sensor_min": found.least_min,
        "least_sensor": found.least_sensor,
        "time_below_minimum_min": found.below_minimum_min,
        "gaps_min": [list(gap) for gap in found.gaps_min],
        "gaps_by_sensor_min": {
            name: [list(gap) for gap in one.gaps_min] for name, one in found.by_sensor.items()
        },
    }
    band = {"equivalent_time_min": [found.coldest_lower_bound_min, found.least_min]}
    gaps = _gaps_named(found.gaps_min, " by every sensor")
    said = said_of(law, COLDEST_SAID, *gaps, *_cold_named(found.below_minimum_min))
    return Outcome(result, band, said, law.model)


def _rate(asked: Inputs) -> Outcome:
    law = law_of(asked)
    speed = law.rate(asked["temperature_C"])
    result = {"rate_factor": speed}
    for unit in ("days", "h", "min"):
        if f"equivalent_time_wanted_{unit}" in asked:
            result[f"time_needed_{unit}"] = asked[f"equivalent_time_wanted_{unit}"] / speed
    return Outcome(result, remarks=said_of(law), model=law.model)


def _implied(asked: Inputs) -> Outcome:
    factor = asked["rate_factor_per_10K"]
    energies = {
        f"{start:g}_to_{start + 10:g}_C": implied_energy_J_per_mol(factor, start) for start in asked["from_C"]
    }
    remarks = ("the rule and one activation energy cannot both hold over a wide span",)
    return Outcome({"activation_energy_J_per_mol": energies}, remarks=remarks)


def pairs_of(samples: Sequence[Sequence[float]]) -> list[tuple[float, float]]:
    return [(minute, at) for minute, at in samples]


SAMPLE = tupled("minute, C", number("minute", low=-1e6, high=1e6), celsius("C"))


LOG = listed("minute and C, straight between; two at one minute are a step", SAMPLE, least=2)


LOGS: Schema = {
    "description": "one log, or logs by sensor",
    "anyOf": [LOG, mapped("logs by sensor", LOG)],
}


REFERENCE = celsius("temperature at which equivalent time is counted, C")


LAWS: dict[str, Schema] = {
    "activation_energy_J_per_mol": number("activation energy, J/mol", low=1e3, high=3e5),
    "activation_temperature_K": number("activation energy over the gas constant, K", low=100, high=40_000),
    "rate_factor_per_10K": number("speed per 10 K", above=1, high=10),
}


BY_LAW = tuple((name,) for name in LAWS)


CURES_BY: dict[str, Schema] = {
    "cures_by": text("how the material cures", choices=("reaction", "moisture"), default="reaction"),
}


GAP: dict[str, Schema] = {
    "longest_interval_min": minutes("longer ones are gaps and count nothing, min", zero=False),
}


MINIMUM: dict[str, Schema] = {
    "minimum_cure_temperature_C": celsius("the sheet's minimum; below it time counts nothing, C"),
}


STEP = tupled("duration, C", number("duration", low=0, high=1e6), celsius("C"))


PROFILES = (
    ("temperature_C", "duration_min"),
    ("start_temperature_C", "end_temperature_C", "duration_min"),
    ("steps_min_C",),
    ("steps_h_C",),
    ("samples_min_C",),
)


LAW_SOURCES = (src.ARRHENIUS, src.EXACT_RAMP, src.DOUBLING)

COMPUTATIONS = (
    Computation(
        "cure-time",
        "Equivalent time of a temperature, a ramp, steps or a log; of several sensors, the coldest",
        "arrhenius-1",
        (*LAW_SOURCES, src.COLDEST),
        _cure_time,
        asks={"reference_temperature_C": REFERENCE},
        may={
            **LAWS,
            "temperature_C": celsius("constant temperature, C"),
            "duration_min": minutes("duration, min"),
            "start_temperature_C": celsius("start of the ramp, C"),
            "end_temperature_C": celsius("end of the ramp, C"),
            "steps_min_C": listed("steps, minutes at C", STEP),
            "steps_h_C": listed("steps, hours at C", STEP),
            "samples_min_C": LOGS,
            **GAP,
            **MINIMUM,
            **CURES_BY,
        },
        one_of=tuple((*law, *profile) for law in BY_LAW for profile in PROFILES),
    ),
    Computation(
        "cure-rate",
        "How many times faster than at the reference, and the time that takes",
        "arrhenius-1",
        (src.ARRHENIUS, src.DOUBLING),
        _rate,
        asks={"reference_temperature_C": REFERENCE, "temperature_C": celsius("temperature, C")},
        may={
            **LAWS,
            **{
                f"equivalent_time_wanted_{unit}": number(f"wanted, {unit}", above=0)
                for unit in ("days", "h", "min")
            },
        },
        one_of=BY_LAW,
    ),
    Computation(
        "implied-energy",
        "The activation energy that a factor per 10 K implies, from some temperatures up",
        "arrhenius-1",
        (src.ARRHENIUS,),
        _implied,
        asks={"rate_factor_per_10K": LAWS["rate_factor_per_10K"]},
        may={"from_C": listed("temperatures, C", celsius("C"), default=[13, 23, 50, 60])},
    ),
)
