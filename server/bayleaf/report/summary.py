"""The first page: what was done, whether it conforms, what deviates, what is missing, and how to check it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bayleaf.domain.asks import PhotoAsk
from bayleaf.domain.wall_time import UTC_TIME, WallTime, utc_words
from bayleaf.report.before_holds import count_before_holds
from bayleaf.report.issues import Issue
from bayleaf.report.ledger import Ledger, Place
from bayleaf.report.photos import Album
from bayleaf.report.run_summary import deviating_runs, not_conforming_runs, runs_said
from bayleaf.report.said import material_name
from bayleaf.report.sheets import sheets_said
from bayleaf.report.words import capital, count, in_groups, listed, many, number_word

INVENTED = "INVENTED: demonstration data. Not a repair of a real vehicle, and not a repair instruction."
FIRST = "The vehicle maker\u2019s instruction and the product\u2019s data sheet come first."
SPAN = 2  # more steps in a row than this stand as first to last
SIDES = {"left": "left side", "right": "right side"}
UTC_ONLY = "UTC on every page, not the shop\u2019s local time"
OWN_CLOCK = "each as its author\u2019s own clock had it"
PREVIEW = "PREVIEW: what the office holds now, not sealed. A sealed report stands in a filed dossier."


def is_invented(ledger: Ledger) -> bool:
    return bool(ledger.opened.get("invented")) or any(one.invented for one in ledger.pinned)


def facts(ledger: Ledger) -> list[list[str]]:
    """The job in a few lines."""
    opened = ledger.opened
    rows = [
        ["Vehicle", opened.get("vehicle", "")],
        ["VIN", opened.get("vin", "")],
        [
            "Part",
            ", ".join(one for one in (opened.get("part", ""), SIDES.get(opened.get("side", ""), "")) if one),
        ],
        [
            "Methods",
            "; ".join(f"{one.title}, revision {one.revision}" for one in ledger.pinned) or "none pinned",
        ],
        ["Lots", _lots(ledger)],
        ["Sheets", sheets_said(ledger)],
        ["Heat runs", runs_said(ledger)],
        ["Worked", _worked(ledger)],
        ["Filed", _filed(ledger)],
        ["Times", f"{_times(ledger.time)}; {OWN_CLOCK}"],
    ]
    return [row for row in rows if row[1]]


def _times(time: WallTime) -> str:
    """The zone by name and offset; where the offset changes, when to which."""
    if time == UTC_TIME:
        return UTC_ONLY
    first = utc_words(time.offsets[0][1])
    turned = "".join(f", from {time.moment(at_ms)} on {utc_words(east)}" for at_ms, east in time.turns)
    said = f"{time.zone} on every page: {first}"
    return f"{said}{turned}; each says its offset" if turned else said


def made(ledger: Ledger) -> str:
    """When the report was made, with its offset whatever the job's times have."""
    time, at_ms = ledger.time, ledger.source.made_ms
    if time.turns:
        return time.moment(at_ms)
    east = time.offset_min(at_ms)
    return f"{time.moment(at_ms)} {utc_words(east) if time != UTC_TIME else time.label()}"


def _lots(ledger: Ledger) -> str:
    """Material and lot of each that stands, once."""
    lots = (
        f"{material_name(ledger, one.body['material'])} {one.body['lot']}" for one in ledger.standing("lot")
    )
    return ", ".join(dict.fromkeys(lots))


def _worked(ledger: Ledger) -> str:
    work = [
        one.at_ms
        for one in ledger.standing("tick", "text", "choice", "reading", "photo", "tally", "lot", "heat")
    ]
    span = [ledger.time.moment(at(work)) for at in (min, max)] if work else ["nothing recorded yet"]
    return " to ".join(span)


def _filed(ledger: Ledger) -> str:
    filing = ledger.source.filing
    return f"{ledger.time.moment(filing.ms)} by {ledger.name(filing.person)}" if filing else ""


def work_done(ledger: Ledger) -> str:
    """Counts of steps, hold points, photos and rivets in a sentence."""
    steps = [one["done"] for one in ledger.state["steps"]]
    holds = [one["hold"] for one in ledger.state["steps"] if one["hold"] != "none"]
    done, absent = steps.count("done"), steps.count("not_applicable")
    parts = [f"{count(done)} of {count(len(steps))} steps done"]
    if absent:
        parts.append(f"{count(absent)} not applicable")
    if holds:
        passed = len(holds) - holds.count("held")
        parts.append(f"{count(passed)} of {count(len(holds))} hold points passed")
        early = count_before_holds(ledger)
        parts += [f"{many(early, 'act')} before a hold point"] if early else []
    parts += [f"{many(len(ledger.state['runs']), 'heat run')}"] if ledger.state["runs"] else []
    photos = sum(1 for _ in ledger.standing("photo"))
    parts += [many(photos, "photo")] if photos else []
    return capital(", ".join(parts)) + "."


def stages_done(ledger: Ledger) -> str:
    """The stages by name; how far each is, where it is not done."""
    found: dict[tuple[int, str], list[bool]] = {}
    for place in ledger.places:
        done = bool(place.state and place.state["done"])
        found.setdefault((place.stage_number, place.stage), []).append(done)
    said = [
        title if all(done) else f"{title} ({done.count(True)} of {len(done)} steps)"
        for (_, title), done in found.items()
    ]
    return "; ".join(said)


def verdict(ledger: Ledger, issues: list[Issue]) -> dict[str, str]:
    """Whether the record conforms, in one sentence; `kind` is conforms, accepted or not."""
    if not ledger.pinned:
        return {"kind": "not", "words": "No method is pinned: there is nothing to conform to."}
    troubles = list(_troubles(ledger, issues))
    if troubles:
        return {"kind": "not", "words": f"The record does not conform: {listed(troubles)}."}
    accepted = list(_accepted(ledger, issues))
    if accepted:
        return {"kind": "accepted", "words": f"The record conforms, with {listed(accepted)}."}
    return {
        "kind": "conforms",
        "words": "The record conforms: every step is done, every hold point passed, nothing deviates.",
    }


def _troubles(ledger: Ledger, issues: list[Issue]) -> Iterator[str]:
    findings = sum(one.findings for one in issues if one.is_open)
    if findings:
        yield many(findings, "open finding")
    deviations = sum(1 for one in issues if one.is_open and one.kind == "deviation")
    if deviations:
        yield many(deviations, "deviation that nobody accepted", "deviations that nobody accepted")
    runs = not_conforming_runs(ledger)
    if runs:
        yield f"{many(runs, 'heat run')} outside {'its' if runs == 1 else 'their'} limits"
    steps = [one for one in ledger.state["steps"] if not one["done"]]
    if steps:
        yield f"{many(len(steps), 'step')} not done"
    held = [one for one in ledger.state["steps"] if one["hold"] == "held"]
    if held:
        yield f"{many(len(held), 'hold point')} not passed"


def _accepted(ledger: Ledger, issues: list[Issue]) -> Iterator[str]:
    deviations = sum(1 for one in issues if one.kind == "deviation")
    if deviations:
        yield many(deviations, "accepted deviation")
    findings = sum(one.findings for one in issues)
    if findings:
        yield many(findings, "accepted finding")
    runs = deviating_runs(ledger)
    if runs:
        yield many(runs, "heat run that deviates", "heat runs that deviate")


def missing(ledger: Ledger, album: Album) -> list[str]:
    """What a finished job would have and this one lacks, each in a sentence."""
    return list(_missing(ledger, album))


def _missing(ledger: Ledger, album: Album) -> Iterator[str]:
    state, places = ledger.state, ledger.places
    if not state["job"]["closed"]:
        yield "The job is not closed."
    if state["missing_methods"]:
        yield f"{capital(many(len(state['missing_methods']), 'pinned method'))} not here."
    undone = [one for one in places if one.state and not one.state["done"]]
    if undone:
        yield f"Not done: {_steps(undone, 'step')}."
    held = [one for one in places if one.state and one.state["hold"] == "held"]
    if held:
        yield f"Not passed: {_steps(held, 'hold point')}."
    wanted = list(_photos_wanted(ledger))
    if wanted:
        yield f"No photo: {_some(wanted, 'photo slot')}."
    absent = [
        str(album.numbers[one.hash])
        for one in album.entries
        if one.body["sha256"] not in ledger.source.photos
    ]
    if absent:
        yield f"Recorded, but the picture never reached the office: {_some(absent, 'photo')}."
    if state["aside"]:
        yield f"{capital(many(len(state['aside']), 'entry', 'entries'))} set aside, not counted."


def _photos_wanted(ledger: Ledger) -> Iterator[str]:
    filled = {(one["method"], one["step"], one["slot"]) for one in ledger.state["slots"] if one["photos"]}
    for place in ledger.places:
        if place.state is None or not place.state["done"] or place.state["done"] == "not_applicable":
            continue  # an open step stands under 'not done' with all that it asks for
        for ask in place.step.asks:
            if (
                isinstance(ask, PhotoAsk)
                and ask.id in place.state["open"]
                and (place.method.id, place.step.id, ask.id) not in filled
            ):
                yield f"{place.step.id} {ask.id.replace('_', ' ')}"


def _steps(places: list[Place], one: str) -> str:
    """The count and the steps; those that follow each other as first to last."""
    runs: list[list[Place]] = []
    for place in places:
        if runs and runs[-1][-1].number + 1 == place.number:
            runs[-1].append(place)
        else:
            runs.append([place])
    names = [
        name
        for run in runs
        for name in (
            [f"{run[0].step.id} to {run[-1].step.id}"] if len(run) > SPAN else [one.step.id for one in run]
        )
    ]
    return f"{many(len(places), one)} ({listed(names)})"


def _some(names: list[str], one: str) -> str:
    """The count and the names; of many the first ones."""
    most = 8
    shown = names if len(names) <= most + 1 else [*names[:most], f"{number_word(len(names) - most)} more"]
    return f"{many(len(names), one)} ({listed(shown)})"


def seal(ledger: Ledger) -> dict[str, Any]:
    """The fingerprint in groups, and how anybody checks the file."""
    return {"groups": in_groups(ledger.source.fingerprint), "job": ledger.source.job}
