"""Documents about cure: equivalent time of a log, sheet, forecast, verdict, drying."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bayleaf.bonding import coldest_sensor, cure_forecast, cure_log, cure_verdict, drying
from bayleaf.bonding.cure_log import Counted, CountRule
from bayleaf.bonding.rate_laws import Arrhenius, Doubling, RateLaw, arrhenius_of, implied_energy_J_per_mol
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import (
    NUMBER_KEY,
    celsius,
    flag,
    listed,
    mapped,
    minutes,
    number,
    text,
    tupled,
)
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema

DOUBLING_SAID = "the rule per 10 K is common practice, no source; one activation energy is better where known"
COLDEST_SAID = (
    "shown is the coldest at each moment, a safe bound; the sensor with the least is named beside it"
)


def _law(asked: Inputs) -> RateLaw:
    reference = asked["reference_temperature_C"]
    if "rate_factor_per_10K" in asked:
        return Doubling(asked["rate_factor_per_10K"], reference)
    if "activation_temperature_K" in asked:
        return Arrhenius(asked["activation_temperature_K"], reference)
    return arrhenius_of(asked["activation_energy_J_per_mol"], reference)


def _said(law: RateLaw, *more: str) -> tuple[str, ...]:
    return (*([DOUBLING_SAID] if isinstance(law, Doubling) else []), *more)


def _cure_time(asked: Inputs) -> Outcome:
    cure_verdict.refuse_moisture(asked["cures_by"])
    law = _law(asked)
    rule = CountRule(asked.get("longest_interval_min"), asked.get("minimum_cure_temperature_C"))
    if isinstance(asked.get("samples_min_C"), dict):
        return _by_sensor(asked["samples_min_C"], law, rule)
    if "steps_h_C" in asked:
        hours = cure_log.count_log(_steps(asked["steps_h_C"]), law, rule)
        return Outcome({"equivalent_age_h": hours.equivalent_min}, remarks=_said(law), model=law.model)
    counted = cure_log.count_log(_samples(asked), law, rule)
    band = {"equivalent_time_min": [counted.lower_bound_min, counted.equivalent_min]}
    return Outcome(_told(counted), band, _said(law, *_named(counted)), law.model)


def _samples(asked: Inputs) -> list[tuple[float, float]]:
    if "samples_min_C" in asked:
        return _pairs(asked["samples_min_C"])
    if "steps_min_C" in asked:
        return _steps(asked["steps_min_C"])
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


def _named(counted: Counted) -> tuple[str, ...]:
    gaps = [
        f"minute {start:g} to {end:g} was not measured and counts nothing" for start, end in counted.gaps_min
    ]
    if counted.below_minimum_min:
        gaps.append(f"{counted.below_minimum_min:g} min under the sheet's minimum count nothing")
    return tuple(gaps)


def _by_sensor(logs: dict[str, Any], law: RateLaw, rule: CountRule) -> Outcome:
    found = coldest_sensor.count_sensors({name: _pairs(log) for name, log in logs.items()}, law, rule)
    result = {
        "equivalent_time_min": found.coldest_min,
        "equivalent_time_coldest_at_each_moment_min": found.coldest_min,
        "lower_bound_min": found.coldest_lower_bound_min,
        "equivalent_time_by_sensor_min": {name: one.equivalent_min for name, one in found.by_sensor.items()},
        "equivalent_time_least_sensor_min": found.least_min,
        "least_sensor": found.least_sensor,
        "time_below_minimum_min": found.below_minimum_min,
        "gaps_by_sensor_min": {
            name: [list(gap) for gap in one.gaps_min] for name, one in found.by_sensor.items()
        },
    }
    band = {"equivalent_time_min": [found.coldest_lower_bound_min, found.least_min]}
    return Outcome(result, band, _said(law, COLDEST_SAID), law.model)


def _rate(asked: Inputs) -> Outcome:
    law = _law(asked)
    speed = law.rate(asked["temperature_C"])
    result = {"rate_factor": speed}
    for unit in ("days", "h", "min"):
        if f"equivalent_time_wanted_{unit}" in asked:
            result[f"time_needed_{unit}"] = asked[f"equivalent_time_wanted_{unit}"] / speed
    return Outcome(result, remarks=_said(law), model=law.model)


def _implied(asked: Inputs) -> Outcome:
    factor = asked["rate_factor_per_10K"]
    energies = {
        f"{start:g}_to_{start + 10:g}_C": implied_energy_J_per_mol(factor, start) for start in asked["from_C"]
    }
    remarks = ("the rule and one activation energy cannot both hold over a wide span",)
    return Outcome({"activation_energy_J_per_mol": energies}, remarks=remarks)


def _forecast(asked: Inputs) -> Outcome:
    cure_verdict.refuse_moisture(asked["cures_by"])
    law = _law(asked)
    warming = cure_forecast.Warming(
        asked["heated_temperature_C"], asked.get("heating_K_per_min"), asked.get("cooling_K_per_min")
    )
    found = cure_forecast.forecast(
        law,
        asked["equivalent_time_needed_min"],
        asked["equivalent_time_reached_min"],
        asked["present_temperature_C"],
        warming,
    )
    result = {
        "progress_fraction": found.progress,
        "remaining_at_present_min": found.remaining_at_present_min,
        "remaining_heated_min": found.remaining_heated_min,
        "saved_min": found.saved_min,
        "ramps_min": found.ramps_min,
        "soak_min": found.soak_min,
        "remaining_heated_with_ramps_min": found.remaining_with_ramps_min,
        "saved_with_ramps_min": found.saved_with_ramps_min,
    }
    counted = "heating_K_per_min" in asked and "cooling_K_per_min" in asked
    uncounted = () if counted else ("heating up or cooling down is not counted: give both rates",)
    return Outcome(result, remarks=_said(law, *uncounted, "full cure is the data sheet's"))


def _against_sheet(asked: Inputs) -> Outcome:
    cure_verdict.refuse_moisture(asked["cures_by"])
    law = _law(asked)
    rows = {float(at): took for at, took in asked["data_sheet_handling_time_min_by_C"].items()}
    found = cure_verdict.against_sheet(law, rows, asked["reference_temperature_C"], asked["temperature_C"])
    result = {
        "arrhenius_min" if not isinstance(law, Doubling) else "doubling_min": found.by_law_min,
        "data_sheet_min": found.sheet_min,
        "data_sheet_row_C": found.sheet_row_C,
        "shown_min": found.shown_min,
        "limited_by_data_sheet": found.limited_by_sheet,
    }
    return Outcome(result, remarks=_said(law, "never shorter than the sheet says; the colder row holds"))


def _verdict(asked: Inputs) -> Outcome:
    cure_verdict.refuse_moisture(asked["cures_by"])
    stand = cure_verdict.CureStand(
        asked["equivalent_time_reached_min"],
        asked["equivalent_time_needed_min"],
        asked["elapsed_min"],
        asked["data_sheet_min"],
        asked.get("blob_hard"),
    )
    found = cure_verdict.cure_verdict(stand)
    return Outcome({"done": found.done, "waits_for": list(found.waits_for)}, remarks=("the slowest decides",))


def _drying(asked: Inputs) -> Outcome:
    rule = drying.DryingRule(
        asked["minimum_temperature_C"], asked["maximum_temperature_C"], asked["required_min"]
    )
    found = drying.drying_record(_pairs(asked["samples_min_C"]), rule, asked.get("longest_interval_min"))
    result = {
        "in_band_min": found.in_band_min,
        "over_maximum_min": found.over_min,
        "peak_C": found.peak_C,
        "gaps_min": [list(gap) for gap in found.gaps_min],
        "dried_as_the_method_asks": found.dried,
    }
    return Outcome(result, remarks=("no moisture content is claimed: the method's hours are what was kept",))


def _pairs(samples: Sequence[Sequence[float]]) -> list[tuple[float, float]]:
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
NEED = minutes("equivalent minutes to the stage", zero=False)
REACHED = minutes("equivalent minutes so far")
RATE_K = number("ramp, K/min", above=0, high=60)
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
            "duration_min": minutes("duration, min", zero=False),
            "start_temperature_C": celsius("start of the ramp, C"),
            "end_temperature_C": celsius("end of the ramp, C"),
            "steps_min_C": listed("steps, minutes at C", STEP),
            "steps_h_C": listed("steps, hours at C", STEP),
            "samples_min_C": LOGS,
            **GAP,
            "minimum_cure_temperature_C": celsius("the sheet's minimum; below it time counts nothing, C"),
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
    Computation(
        "cure-forecast",
        "Time still needed at the present temperature, and what warming saves, ramps counted",
        cure_forecast.MODEL,
        (src.ARRHENIUS, src.DOUBLING),
        _forecast,
        asks={
            "reference_temperature_C": REFERENCE,
            "equivalent_time_needed_min": NEED,
            "equivalent_time_reached_min": REACHED,
            "present_temperature_C": celsius("now, C"),
            "heated_temperature_C": celsius("if warmed, C"),
        },
        may={**LAWS, "heating_K_per_min": RATE_K, "cooling_K_per_min": RATE_K, **CURES_BY},
        one_of=BY_LAW,
    ),
    Computation(
        "cure-against-sheet",
        "Time to a stage at a temperature, never shorter than the data sheet says",
        cure_verdict.MODEL,
        (src.SHEET, src.ARRHENIUS, src.DOUBLING),
        _against_sheet,
        asks={
            "reference_temperature_C": REFERENCE,
            "data_sheet_handling_time_min_by_C": mapped("rows, min by C", NEED, keys=NUMBER_KEY),
            "temperature_C": celsius("coldest place of the bond, C"),
        },
        may={**LAWS, **CURES_BY},
        one_of=BY_LAW,
    ),
    Computation(
        "cure-verdict",
        "Done or not: the slowest of computed cure, data sheet and sample blob decides",
        cure_verdict.MODEL,
        (src.SHEET, src.PRACTICE),
        _verdict,
        asks={
            "equivalent_time_reached_min": REACHED,
            "equivalent_time_needed_min": NEED,
            "elapsed_min": minutes("since joining, min"),
            "data_sheet_min": minutes("the sheet's time at the coldest temperature held, min"),
        },
        may={"blob_hard": flag("the sample blob was tried and is hard"), **CURES_BY},
    ),
    Computation(
        "drying",
        "The record of drying a laminate before hot work",
        drying.MODEL,
        (src.DRYING,),
        _drying,
        asks={
            "minimum_temperature_C": celsius("the method's band from, C"),
            "maximum_temperature_C": celsius("to, C"),
            "required_min": minutes("minutes in it that the method asks for", zero=False),
            "samples_min_C": LOG,
        },
        may=GAP,
    ),
)
