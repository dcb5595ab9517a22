"""What deviates: each deviation with the findings that it explains, and the findings left without one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bayleaf.domain.entries import Entry
from bayleaf.domain.state import FindingState
from bayleaf.report.finding_words import finding_words
from bayleaf.report.ledger import Ledger
from bayleaf.report.said import named_value, reading_against_limit


@dataclass(frozen=True)
class Issue:
    """One row: where, what with limit and figure, the reason written, and who accepted it, if anybody did.

    `findings` counts those that no deviation explains.
    """

    kind: str
    order: int
    step: str
    title: str
    what: tuple[str, ...]
    reason: tuple[str, ...]
    accepted: tuple[str, ...]
    is_open: bool
    findings: int = 0


def issues_of(ledger: Ledger) -> list[Issue]:
    """The open ones first, each part in the order of the steps; findings left over stand together by step."""
    deviations = list(ledger.standing("deviation"))
    explained = {entry.hash: _explained(ledger, entry) for entry in deviations}
    taken = {id(finding) for findings in explained.values() for finding in findings}
    rest = [finding for finding in ledger.state["findings"] if id(finding) not in taken]
    found = [_deviation(ledger, entry, explained[entry.hash]) for entry in deviations]
    found += _by_step([_finding(ledger, finding) for finding in rest])
    return sorted(found, key=lambda issue: (not issue.is_open, issue.order))


def _by_step(findings: list[Issue]) -> list[Issue]:
    together: dict[tuple[str, bool], Issue] = {}
    for one in findings:
        key = (one.step, one.is_open) if one.step else (one.what[0], one.is_open)
        before = together.get(key)
        if before is not None:
            one = replace(  # noqa: PLW2901  (the two become one)
                before,
                what=before.what + one.what,
                accepted=tuple(dict.fromkeys(before.accepted + one.accepted)),
                findings=before.findings + one.findings,
            )
        together[key] = one
    return list(together.values())


def _explained(ledger: Ledger, deviation: Entry) -> list[FindingState]:
    about = set(deviation.body["about"])
    return [finding for finding in ledger.state["findings"] if about & set(finding["hashes"])]


def _deviation(ledger: Ledger, entry: Entry, findings: list[FindingState]) -> Issue:
    accepts = list(_accepts(ledger, "deviation", entry.hash))
    accepts += [ledger.entries[one["accepted"]] for one in findings if one["accepted"] in ledger.entries]
    is_open = not any(_accepts(ledger, "deviation", entry.hash)) or any(
        not one["accepted"] for one in findings
    )
    what = [finding_words(ledger, one) for one in findings] or list(_about(ledger, entry))
    if entry.body["passes_hold"]:
        what.append("the hold point is passed by this deviation")
    order, step, title = _place(ledger, entry.body["method"], entry.body["step"])
    late = ledger.late(entry)
    reason = f"{entry.body['text']} ({ledger.signed(entry)}{f', {late}' if late else ''})"
    return Issue(
        "deviation", order, step, title, tuple(dict.fromkeys(what)),
        (reason, *_countersigns(ledger, entry)), _accepted(ledger, accepts), is_open,
    )  # fmt: skip


def _about(ledger: Ledger, deviation: Entry) -> Iterator[str]:
    """What a deviation names that no finding covers."""
    for named in deviation.body["about"]:
        entry = ledger.entries.get(named)
        if entry is not None:
            yield (
                reading_against_limit(ledger, entry)
                if entry.kind == "reading"
                else named_value(ledger, entry)
            )


def _countersigns(ledger: Ledger, deviation: Entry) -> Iterator[str]:
    for entry in ledger.standing("countersign"):
        if not entry.body["ask"] and deviation.hash in entry.body["saw"]:
            yield f"countersigned by {ledger.signed(entry)}"


def _finding(ledger: Ledger, finding: FindingState) -> Issue:
    named = [ledger.entries[one] for one in finding["hashes"] if one in ledger.entries]
    at = finding["at"]
    method, step = (at[0], at[1]) if len(at) > 1 and ledger.place(at[0], at[1]) else _step_of(ledger, named)
    order, number, title = _place(ledger, method, step)
    accepts = [ledger.entries[finding["accepted"]]] if finding["accepted"] in ledger.entries else []
    return Issue(
        "finding", order, number, title, (finding_words(ledger, finding),), (), _accepted(ledger, accepts),
        not finding["accepted"], 1,
    )  # fmt: skip


def _step_of(ledger: Ledger, named: list[Entry]) -> tuple[str, str]:
    return next((ledger.step_of(entry) for entry in named if ledger.step_of(entry)[1]), ("", ""))


def _place(ledger: Ledger, method: str, step: str) -> tuple[int, str, str]:
    place = ledger.place(method, step)
    if place is None:
        return 0, step, "" if step else "the job"
    return place.number, f"{place.number} {place.step.id}", place.step.title


def _accepts(ledger: Ledger, code: str, entry_hash: str) -> Iterator[Entry]:
    for entry in ledger.standing("accept"):
        if entry.body["code"] == code and entry_hash in entry.body["hashes"]:
            yield entry


def _accepted(ledger: Ledger, accepts: list[Entry]) -> tuple[str, ...]:
    once = {entry.hash: entry for entry in accepts}.values()
    lines = [f"{ledger.signed(entry)}: {entry.body['reason']}" for entry in once]
    return tuple(dict.fromkeys(lines))
