"""Heat runs: what was set, the readings against their limits, every act, and the verdict in lines."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from bayleaf.domain.asks import ComputeAsk, HeatAsk, HeatSettings
from bayleaf.domain.entries import Entry
from bayleaf.domain.part import SensorOf, Zone
from bayleaf.domain.state import RunState
from bayleaf.report.heat_curve import Curves, Frame, curves_of, frame_of, ticks
from bayleaf.report.heat_plan import against_plan, plan_facts, plan_of_run, planned_curves
from bayleaf.report.late_once import late_lines, said_often
from bayleaf.report.ledger import Ledger
from bayleaf.report.run_summary import NumberedRun, numbered_runs
from bayleaf.report.source import RunPlan
from bayleaf.report.verdict_words import STANDING, WHAT, found_words, overall_words
from bayleaf.report.words import capital, listed, minutes, quantity, run_clock, word
from bayleaf.step_computations.run_verdict import RunVerdict, VerdictLine

PADS = ("turn_down", "lift")
MARK_WIDTH = 28  # permille of the picture, so that two numbers do not touch
MARK_ROWS = 3
PEAKS: Final[Mapping[str, SensorOf]] = {
    "bond_peak": "bond",
    "metal_peak": "metal",
    "neighbour_peak": "neighbour",
}


def heat_runs(ledger: Ledger) -> list[dict[str, Any]]:
    """In the order in which they were switched on."""
    return [_run(ledger, one) for one in numbered_runs(ledger)]


def _run(ledger: Ledger, one: NumberedRun) -> dict[str, Any]:
    on, run, made = one.on, one.run, one.verdict
    ask, zone = ledger.ask_of(on), _zone(ledger, on)
    settings = ask.settings if isinstance(ask, HeatAsk) else None
    acts = [ledger.entries[act] for act in run["acts"] if act in ledger.entries]
    readings = [ledger.entries[reading] for reading in run["readings"] if reading in ledger.entries]
    curves = curves_of([one.body for one in readings], zone.sensors, settings) if zone and settings else None
    plan = plan_of_run(ledger, on)
    return {
        "number": one.number,
        "title": one.title,
        "step": ledger.step_name(run["method"], run["step"]),
        "facts": _facts(ledger, on, zone, readings, made),
        "plan": plan_facts(plan) if plan else [],
        "against_plan": against_plan(plan, made, acts) if plan else [],
        "verdict": _verdict(ledger, run, made),
        "picture": _picture(curves, settings, zone, acts, plan)
        if curves and settings and zone and readings
        else None,
        **_acts(ledger, on, acts),
    }


def _zone(ledger: Ledger, on: Entry) -> Zone | None:
    method = ledger.source.methods.get(on.body["digest"])
    return method.zone(on.body["zone"]) if method else None


def _facts(
    ledger: Ledger, on: Entry, zone: Zone | None, readings: list[Entry], made: RunVerdict | None
) -> list[list[str]]:
    pads = {pad.id: pad.name for pad in zone.pads} if zone else {}
    sensors = [f"{one.id}: {one.name}" for one in zone.sensors] if zone else []
    facts = [
        ["Switched on", f"{ledger.signed(on)}, {ledger.how_known(on)}"],
        ["Pads", listed([_named(pad, pads.get(pad, "")) for pad in on.body["pads"]])],
        ["Sensors", "; ".join(sensors)],
        ["Readings", _readings_words(readings)],
    ]
    if made:
        facts.append(["Verdict", overall_words(made)])
    return [fact for fact in facts if fact[1]]


def _named(pad: str, name: str) -> str:
    return f"{pad} ({name})" if name and name != pad else pad


def _readings_words(readings: list[Entry]) -> str:
    total = sum(len(one.body["points"]) for one in readings)
    typed = sum(1 for one in readings if one.body["typed_time"])
    doubt = sum(1 for one in readings if one.body["run_doubt"])
    words = [f"{total} of {len({one.body['sensor'] for one in readings})} sensors"] if total else ["none"]
    words += [f"{typed} entries with a time typed in late"] if typed else []
    words += [f"{doubt} entries with a time in doubt"] if doubt else []
    return ", ".join(words)


def _verdict(ledger: Ledger, run: RunState, made: RunVerdict | None) -> list[dict[str, str]]:
    """Line by line: what was found, the limit, and how it stands."""
    lines = [_judged(run, ledger, one) for one in made.lines] if made else []
    if run["aborted"]:
        lines.append(_line("Aborted", "the run was aborted; see its acts", "", tone="stop"))
    lines.append(_line("Moments reached", listed([word(one) for one in run["moments"]]), ""))
    return [*lines, *_results(ledger, run)]


def _judged(run: RunState, ledger: Ledger, line: VerdictLine) -> dict[str, str]:
    tone = {"not_conforming": "stop", "deviation": "note", "not_recorded": "note"}.get(line.standing, "")
    found = found_words(line, _hottest(run, ledger, line.code))
    return _line(WHAT[line.code], found, STANDING[line.standing], tone=tone)


def _hottest(run: RunState, ledger: Ledger, code: str) -> str:
    """Which sensor a peak is of."""
    kind = PEAKS.get(code)
    zone = _zone(ledger, ledger.entries[run["run"]])
    of_kind = {one.id for one in zone.sensors if one.of == kind} if zone and kind else set()
    peaks = [one for one in run["peaks"] if one["sensor"] in of_kind]
    return max(peaks, key=lambda one: one["value"])["sensor"] if peaks else ""


def _line(what: str, found: str, verdict: str, *, tone: str = "") -> dict[str, str]:
    return {"what": what, "found": found, "verdict": verdict, "tone": tone}


def _degrees(settings: HeatSettings, value: int) -> str:
    return quantity(value, settings.decimals, settings.sensors_unit)


def _results(ledger: Ledger, run: RunState) -> list[dict[str, str]]:
    """Verdicts of this run that the card recorded and shows."""
    shown = {one["shown"] for one in ledger.state["registers"] if one["kind"] == "result"}
    about = {run["run"], *run["acts"], *run["readings"]}
    lines = []
    for entry in ledger.standing("result"):
        ask = ledger.ask_of(entry)
        of_zone = (
            isinstance(ask, ComputeAsk) and ask.zone == run["zone"] and ask.computation == "heat_verdict"
        )
        if of_zone and entry.hash in shown and about & set(entry.body["inputs"]):
            verdict = {"inside": "inside", "outside": "outside"}.get(entry.body["verdict"], "")
            found = f"by {ledger.signed(entry)}, model {entry.body['model']}"
            tone = "stop" if verdict == "outside" else ""
            lines.append(_line("Recorded on the card", found, verdict, tone=tone))
    return lines


def _acts(ledger: Ledger, on: Entry, acts: list[Entry]) -> dict[str, Any]:
    """Every act with its number, and once what they say alike of their way to the office."""
    often = said_often(ledger.late(one) for one in (on, *acts))
    rows = [_on(ledger, on), *(_act(ledger, number, act) for number, act in enumerate(acts, 1))]
    for row, act in zip(rows, (on, *acts), strict=True):
        late = ledger.late(act)
        row["note"] = "; ".join(one for one in (row["note"], "" if late in often else late) if one)
    return {"acts": rows, "late": late_lines(often, len(rows), "act")}


def _on(ledger: Ledger, on: Entry) -> dict[str, str]:
    return {"number": "", "at": "0:00", "what": "On", "who": ledger.signed(on), "note": ""}


def _act(ledger: Ledger, number: int, entry: Entry) -> dict[str, str]:
    body = entry.body
    what = {"turn_down": f"Pad {body['pad']} turned down", "lift": f"Pad {body['pad']} lifted"}.get(
        body["act"], capital(word(body["act"]))
    )
    said = f"{what}: {body['text']}" if body["text"] else what
    note = "time in doubt" if body["run_doubt"] else ""
    at = run_clock(body["run_ms"])
    return {"number": str(number), "at": at, "what": said, "who": ledger.signed(entry), "note": note}


def _picture(
    curves: Curves, settings: HeatSettings, zone: Zone, acts: list[Entry], plan: RunPlan | None
) -> dict[str, Any]:
    last = max([0, *(one.body["run_ms"] for one in acts)])
    limits = [
        ("bondline at least", settings.lagging_min, "least"),
        ("bondline at most", settings.leading_max, "most"),
        ("metal at most", settings.metal_max, "most"),
        ("neighbour at most", settings.neighbour_max, "most"),
    ]
    told = [(name, value, kind) for name, value, kind in limits if value is not None]
    planned = planned_curves(plan, settings.decimals, max(last, curves.until_ms))
    heights = [*(value for _, value, _ in told), *(value for line in planned.values() for _, value in line)]
    frame = frame_of(curves, heights, last, 10**settings.decimals)
    others = [one for one in zone.sensors if one.of != "bond" or not curves.lagging]
    return {
        "lagging": frame.line(curves.lagging),
        "leading": frame.line(curves.leading),
        "planned": [{"of": of, "line": frame.line(line)} for of, line in planned.items()],
        "others": [
            {"id": one.id, "of": one.of, "line": frame.line(curves.by_sensor[one.id])}
            for one in others
            if one.id in curves.by_sensor
        ],
        "soak": [[frame.x(begun), frame.x(ended)] for begun, ended in curves.soaked],
        "limits": _limit_lines(frame, told, settings),
        "acts": _act_marks(frame, acts),
        **{f"ticks_{axis}": rows for axis, rows in ticks(frame, settings).items()},
        "unit": quantity(0, 0, settings.sensors_unit).split("\u00a0")[-1],
        "words": _alternative(zone, curves, settings),
    }


def _limit_lines(
    frame: Frame, told: list[tuple[str, int, str]], settings: HeatSettings
) -> list[dict[str, Any]]:
    return [
        {"y": frame.y(value), "words": f"{name} {_degrees(settings, value)}", "kind": kind}
        for name, value, kind in told
    ]


def _act_marks(frame: Frame, acts: list[Entry]) -> list[dict[str, Any]]:
    """Where each act stands along the top; those that would touch take turns in rows."""
    ends: list[int] = []
    marks = []
    for number, act in enumerate(acts, 1):
        x = frame.x(act.body["run_ms"])
        row = next((place for place, end in enumerate(ends) if end <= x), len(ends))
        ends[row : row + 1] = [x + MARK_WIDTH]
        marks.append(
            {"x": x, "row": min(row, MARK_ROWS - 1), "number": str(number), "pad": act.body["act"] in PADS}
        )
    return marks


def _alternative(zone: Zone, curves: Curves, settings: HeatSettings) -> str:
    """The picture in words, for who cannot see it."""
    if not curves.lagging:
        return f"Readings of zone {zone.name} over time, single sensors; no moment at which all were read."
    top = max(value for _, value in curves.leading)
    return (
        f"Readings of zone {zone.name} over {minutes(curves.lagging[-1][0])}: "
        f"lagging sensor up to {_degrees(settings, max(value for _, value in curves.lagging))}, "
        f"leading sensor up to {_degrees(settings, top)}."
    )
