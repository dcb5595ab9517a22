"""The heat plan of a run: what it said, its release, and the figures that it foretold beside those found."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from bayleaf.domain.entries import Entry
from bayleaf.report.heat_curve import Points
from bayleaf.report.ledger import Ledger
from bayleaf.report.source import RunPlan
from bayleaf.report.verdict_words import amount_words
from bayleaf.report.words import quantity, short
from bayleaf.step_computations.run_verdict import RunVerdict

MS_PER_MIN: Final = 60_000
ACTS: Final = {"turn_down": "turned down", "lift": "lifted", "off": "switched off"}
RELEASING: Final = ("turn_down", "lift", "off")
NOT_FOUND: Final = "not recorded"
NEVER: Final = "never"


def plan_of_run(ledger: Ledger, on: Entry) -> RunPlan | None:
    """The one that the switch-on names, else the one that held for the zone at that time."""
    arrival = ledger.source.arrivals.get(on.hash)
    on_ms = on.at_ms + (arrival.offset_ms if arrival is not None else 0)
    of_zone = [
        one for one in ledger.source.plans if (one.method, one.zone) == (on.body["method"], on.body["zone"])
    ]
    named = [
        one for one in of_zone if on.body["plan"] in (one.response_sha256, one.digest) and on.body["plan"]
    ]
    held = [one for one in of_zone if one.pinned_ms <= on_ms and (one.ended_ms == 0 or on_ms < one.ended_ms)]
    return next(iter(reversed(named or held)), None)


def plan_facts(plan: RunPlan) -> list[list[str]]:
    """Which plan it is, what it answered, what it rests on, and when it wanted each pad let go."""
    answer = plan.answer
    band = answer["band"]
    contact, loss = _span(band["contact_factor"]), _span(band["loss_factor"])
    rests = f"contact {contact} and loss {loss} of their nominal figures"
    return [
        ["Heat plan", f"{plan.name}, {short(plan.digest)}, model {plan.model}"],
        ["Planned", str(answer["sentence"])],
        ["Its band", rests],
        ["Planned release", "; ".join(_act(one) for one in answer["release"]) or "none"],
    ]


def against_plan(plan: RunPlan, verdict: RunVerdict | None, acts: Sequence[Entry]) -> list[dict[str, str]]:
    """Planned and found, line by line."""
    answer = plan.answer
    workable = _first(acts, ("workable",))
    release = _first(acts, RELEASING)
    rows = [
        ("Workable", _minutes(answer["workable_min"], answer["workable_band_min"]), workable),
        ("Heat until", _minutes(answer["heat_until_min"]), release),
        ("Hottest bond", _degrees(answer["bondline_peak_band_C"]), _found(verdict, "bond_peak")),
        ("Hottest metal", _degrees(answer["metal_peak_band_C"]), _found(verdict, "metal_peak")),
        ("Steepest rise", _rate(answer["ramp_K_min"]), _found(verdict, "ramp")),
        ("Steepest fall", _rate(answer["cooling_K_min"]), _found(verdict, "cooling")),
    ]
    return [{"what": what, "planned": planned, "found": found or NOT_FOUND} for what, planned, found in rows]


def planned_curves(plan: RunPlan | None, decimals: int, until_ms: int) -> dict[str, Points]:
    """The coldest bondline and the hottest metal as planned, in the run's scale, as far as the run went."""
    if plan is None:
        return {}
    curves: Mapping[str, Any] = plan.answer["curves"]
    times = [round(t_s * 1000) for t_s in curves["t_s"]]
    return {
        name: [
            (ms, round(T_C * 10**decimals))
            for ms, T_C in zip(times, curves[member], strict=True)
            if ms <= until_ms
        ]
        for name, member in (("bond", "coldest_bondline_C"), ("metal", "metal_C"))
    }


def _act(one: Mapping[str, Any]) -> str:
    share = one.get("power_share")
    to = f" to {share * 100:.0f}{chr(0xA0)}%" if isinstance(share, float | int) and share > 0 else ""
    return f"{_min(one['at_min'])} pad {one['pad']} {ACTS.get(one['act'], one['act'])}{to}"


def _first(acts: Sequence[Entry], wanted: Sequence[str]) -> str:
    times = [int(one.body["run_ms"]) for one in acts if one.body["act"] in wanted]
    return _min(min(times) / MS_PER_MIN) if times else ""


def _found(verdict: RunVerdict | None, code: str) -> str:
    line = next((one for one in verdict.lines if one.code == code), None) if verdict else None
    return amount_words(line.figure) if line else ""


def _min(minutes: float | str) -> str:
    return NEVER if isinstance(minutes, str) else quantity(round(minutes), 0, "min")


def _minutes(minutes: float | str, band: Sequence[float | str] = ()) -> str:
    ends = " to ".join(one if isinstance(one, str) else f"{one:.0f}" for one in band)
    return f"{_min(minutes)} ({ends})" if ends else _min(minutes)


def _degrees(band: Sequence[float]) -> str:
    low, high = (round(one) for one in band)
    return quantity(low, 0, "C") if low == high else f"{low} to {quantity(high, 0, 'C')}"


def _rate(K_min: float) -> str:
    return quantity(round(K_min * 10), 1, "K/min")


def _span(band: Sequence[float]) -> str:
    return " to ".join(f"{one:g}" for one in band)
