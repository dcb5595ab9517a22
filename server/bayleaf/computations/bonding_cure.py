"""Documents about the end of a cure: forecast, sheet, verdict, drying."""

from __future__ import annotations

from bayleaf.bonding import cure_forecast, cure_verdict, drying
from bayleaf.bonding.rate_laws import Doubling
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.bonding_cure_time import (
    BY_LAW,
    CURES_BY,
    GAP,
    LAWS,
    LOG,
    MINIMUM,
    REFERENCE,
    law_of,
    pairs_of,
    said_of,
)
from bayleaf.computations.fields import (
    NUMBER_KEY,
    celsius,
    flag,
    mapped,
    minutes,
    number,
)
from bayleaf.computations.numbered import by_number
from bayleaf.computations.shapes import Computation, Inputs, Outcome


def _forecast(asked: Inputs) -> Outcome:
    cure_verdict.refuse_moisture(asked["cures_by"])
    law = law_of(asked)
    warming = cure_forecast.Warming(
        asked["heated_temperature_C"],
        asked.get("heating_K_per_min"),
        asked.get("cooling_K_per_min"),
        asked.get("minimum_cure_temperature_C"),
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
    never = () if found.remaining_at_present_min is not None else (NEVER,)
    return Outcome(result, remarks=said_of(law, *never, *uncounted, "full cure is the data sheet's"))


def _against_sheet(asked: Inputs) -> Outcome:
    cure_verdict.refuse_moisture(asked["cures_by"])
    law = law_of(asked)
    field = "data_sheet_handling_time_min_by_C"
    rows = by_number(field, asked[field])
    found = cure_verdict.against_sheet(law, rows, asked["reference_temperature_C"], asked["temperature_C"])
    result = {
        "arrhenius_min" if not isinstance(law, Doubling) else "doubling_min": found.by_law_min,
        "data_sheet_min": found.sheet_min,
        "data_sheet_row_C": found.sheet_row_C,
        "shown_min": found.shown_min,
        "limited_by_data_sheet": found.limited_by_sheet,
    }
    return Outcome(result, remarks=said_of(law, "never shorter than the sheet says; the colder row holds"))


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
    found = drying.drying_record(pairs_of(asked["samples_min_C"]), rule, asked.get("longest_interval_min"))
    result = {
        "in_band_min": found.in_band_min,
        "over_maximum_min": found.over_min,
        "peak_C": found.peak_C,
        "gaps_min": [list(gap) for gap in found.gaps_min],
        "dried_as_the_method_asks": found.dried,
    }
    return Outcome(result, remarks=("no moisture content is claimed: the method's hours are what was kept",))


NEVER = "at the present temperature, under the sheet's minimum, it never ends: time there counts nothing"
NEED = minutes("equivalent minutes to the stage", zero=False)


REACHED = minutes("equivalent minutes so far")


RATE_K = number("ramp, K/min", above=0, high=60)

COMPUTATIONS = (
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
        may={
            **LAWS,
            "heating_K_per_min": RATE_K,
            "cooling_K_per_min": RATE_K,
            **MINIMUM,
            **CURES_BY,
        },
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
