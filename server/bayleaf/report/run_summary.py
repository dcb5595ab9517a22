"""How every heat run stands, in words for the first page: which, by what verdict, and what deviates in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from bayleaf.domain.entries import Entry
from bayleaf.domain.state import RunState
from bayleaf.report.ledger import Ledger
from bayleaf.report.verdict_words import STANDING, WHAT, found_words, overall_words
from bayleaf.report.words import inner, listed
from bayleaf.step_computations.run_verdict import RunVerdict

NOT_WITHIN = ("deviation", "not_recorded", "not_conforming")


@dataclass(frozen=True)
class NumberedRun:
    """A run with its number in the report and its verdict; none where its method is not here."""

    number: int
    on: Entry
    run: RunState
    verdict: RunVerdict | None

    @property
    def title(self) -> str:
        return f"{self.verdict.zone_name if self.verdict else self.run['zone']}, {self.run['purpose']}"


def numbered_runs(ledger: Ledger) -> list[NumberedRun]:
    """In the order in which they were switched on."""
    runs = [(ledger.entries[run["run"]], run) for run in ledger.state["runs"] if run["run"] in ledger.entries]
    runs.sort(key=lambda pair: (pair[0].at_ms, pair[0].hash))
    verdicts = ledger.verdicts
    return [NumberedRun(number, on, run, verdicts.get(on.hash)) for number, (on, run) in enumerate(runs, 1)]


def runs_said(ledger: Ledger) -> str:
    """`1 upper, removal: conforms; 2 post, removal: conforms, with deviations (soak ...)`."""
    return "; ".join(_said(one) for one in numbered_runs(ledger))


def _said(one: NumberedRun) -> str:
    if one.verdict is None:
        return f"{one.number} {one.title}: its method is not here"
    lacks = listed(list(_not_within(one.verdict)))
    colon = ":" if one.verdict.over else ","
    said = inner(overall_words(one.verdict))
    return f"{one.number} {one.title}{colon} {said}{f' ({lacks})' if lacks else ''}"


def _not_within(verdict: RunVerdict) -> Iterator[str]:
    for line in verdict.lines:
        if line.standing in NOT_WITHIN:
            said = f" {STANDING[line.standing]}:" if line.standing != "deviation" else ""
            yield f"{inner(WHAT[line.code])}{said} {found_words(line)}"


def not_conforming_runs(ledger: Ledger) -> int:
    """Runs that do not conform though no finding of the record says so; what was aborted was done again."""
    runs = [one for one in numbered_runs(ledger) if one.verdict and not one.verdict.aborted]
    return sum(
        1
        for one in runs
        if one.verdict and one.verdict.overall == "not_conforming" and not _is_told(ledger, one)
    )


def deviating_runs(ledger: Ledger) -> int:
    """Runs with a line that is not within, or that were aborted, of which no finding of the record tells."""
    return sum(1 for one in numbered_runs(ledger) if _deviates(one) and not _is_told(ledger, one))


def _deviates(one: NumberedRun) -> bool:
    lines = one.verdict.lines if one.verdict else ()
    return one.run["aborted"] or any(line.standing in NOT_WITHIN for line in lines)


def _is_told(ledger: Ledger, one: NumberedRun) -> bool:
    """Whether a finding, which stands among what deviates, names the run or its recorded verdict."""
    about = {one.on.hash, *one.run["acts"], *one.run["readings"]}
    results = {entry.hash for entry in ledger.standing("result") if about & set(entry.body["inputs"])}
    return any((about | results) & set(finding["hashes"]) for finding in ledger.state["findings"])
