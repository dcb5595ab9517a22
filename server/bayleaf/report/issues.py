"""What deviates: each deviation with the findings that it explains, and the findings left without one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from bayleaf.domain.entries import Entry
from bayleaf.domain.state import FindingState
from bayleaf.report.finding_words import finding_words
from bayleaf.report.ledger import Ledger
from bayleaf.report.said import named_value, reading_against_limit
from bayleaf.report.words import FINDINGS, listed, many

NOT_ACCEPTED: Final = "not accepted"
CLERICAL: Final = frozenset(  # of the record, not of the work
    {
        "over_without_effect",
        "strike_without_effect",
        "fork",
        "open_ask",
        "void_countersign",
        "clock_changed",
        "picked_person",
        "same_device",
        "run_unknown",
        "stale_result",
        "missing_method",
        "made_under_other_revision",
        "found_without_lost",
    }
)


@dataclass(frozen=True)
class Issue:
    """One row: where, what with limit and figure, the reason written, and who accepted it, if anybody did.

    `lacks` says what nobody accepted yet; `findings` counts those that no deviation explains.
    """

    kind: str
    order: int
    step: str
    title: str
    what: tuple[str, ...]
    reason: tuple[str, ...]
    accepted: tuple[str, ...]
    lacks: str
    findings: int = 0
    grave: bool = True

    @property
    def is_open(self) -> bool:
        return bool(self.lacks)


def issues_of(ledger: Ledger) -> list[Issue]:
    """The open ones first, of these the grave ones; else in the order of the steps.

    Findings that no deviation explains stand together by step.
    """
    deviations = list(ledger.standing("deviation"))
    explained = {entry.hash: _explained(ledger, entry) for entry in deviations}
    taken = {id(finding) for findings in explained.values() for finding in findings}
    rest = [finding for finding in ledger.state["findings"] if id(finding) not in taken]
    found = [_deviation(ledger, entry, explained[entry.hash]) for entry in deviations]
    found += _by_step([_finding(ledger, finding) for finding in rest])
    return sorted(found, key=lambda issue: (not issue.is_open, not issue.grave, issue.order))


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
                grave=before.grave or one.grave,
            )
        together[key] = one
    return [replace(one, what=_joined(one.what)) for one in together.values()]


def _joined(lines: tuple[str, ...]) -> tuple[str, ...]:
    """What one step left open stands in one line."""
    left_open = f"{FINDINGS['open_ask']}: "
    names = [one.removeprefix(left_open) for one in lines if one.startswith(left_open)]
    others = [one for one in lines if not one.startswith(left_open)]
    return (*others, left_open + listed(names)) if names else lines


def _explained(ledger: Ledger, deviation: Entry) -> list[FindingState]:
    about = set(deviation.body["about"])
    return [finding for finding in ledger.state["findings"] if about & set(finding["hashes"])]


def _deviation(ledger: Ledger, entry: Entry, findings: list[FindingState]) -> Issue:
    accepts = list(_accepts(ledger, "deviation", entry.hash))
    accepts += [ledger.entries[one["accepted"]] for one in findings if one["accepted"] in ledger.entries]
    open_deviation = not any(_accepts(ledger, "deviation", entry.hash))
    open_findings = sum(not one["accepted"] for one in findings)
    what = [finding_words(ledger, one) for one in findings] or list(_about(ledger, entry))
    if entry.body["passes_hold"]:
        what.append("the hold point is passed by this deviation")
    about = [ledger.entries[one] for one in entry.body["about"] if one in ledger.entries]
    at = (entry.body["method"], entry.body["step"]) if entry.body["step"] else _step_of(ledger, about)
    order, step, title = _place(ledger, *at)
    late = ledger.late(entry)
    reason = f"{entry.body['text']} ({ledger.signed(entry)}{f', {late}' if late else ''})"
    return Issue(
        "deviation", order, step, title, tuple(dict.fromkeys(what)),
        (reason, *_countersigns(ledger, entry)), _accepted(ledger, accepts),
        _lacks(open_findings, open_deviation=open_deviation, of=len(findings)),
    )  # fmt: skip


def _lacks(open_findings: int, *, open_deviation: bool, of: int) -> str:
    """What of a deviation and the findings that it explains is not accepted."""
    if open_deviation and open_findings == of:
        return NOT_ACCEPTED
    if open_deviation:
        return f"the deviation {NOT_ACCEPTED}"
    return f"{many(open_findings, 'finding')} {NOT_ACCEPTED}" if open_findings else ""


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
        "" if finding["accepted"] else NOT_ACCEPTED, 1, finding["code"] not in CLERICAL,
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
