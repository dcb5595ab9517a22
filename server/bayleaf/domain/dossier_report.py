"""The dossier's plain report: what was asked, what was recorded, what is open; an aid, not the record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from bayleaf.domain.entries import NIL, Entry
from bayleaf.domain.method import MethodDoc
from bayleaf.domain.state import CardState, StepState
from bayleaf.domain.wall_time import TO_THE_SECOND, UTC_TIME, WallTime, wall_time_of

RULE = "-" * 78
GROUP = 4


@dataclass(frozen=True)
class ReportOf:
    """All that a report is written from; `people` are names by id."""

    about: Mapping[str, Any]
    fingerprint: str
    state: CardState
    entries: Sequence[Entry]
    methods: Mapping[str, MethodDoc]
    people: Mapping[str, str]

    @cached_property
    def time(self) -> WallTime:
        """The shop's, as `about.json` keeps it."""
        return wall_time_of(self.about.get("time_zone"))

    def when(self, ms: int) -> str:
        return self.time.moment(ms, TO_THE_SECOND)


def report_text(of: ReportOf) -> str:
    """The report as plain text, one page head, then the steps, the findings and every entry in order."""
    parts = (_head(of), _steps(of), _counts(of), _findings(of), _entries(of))
    return "\n".join(line for part in parts for line in (*part, "")) + "\n"


def _head(of: ReportOf) -> Iterator[str]:
    opened = _body_of(of, of.state["job"]["open"])
    yield "BAYLEAF DOSSIER"
    yield RULE
    if opened.get("invented") or any(method.invented for method in of.methods.values()):
        yield "INVENTED: demonstration data. Not a repair of a real vehicle, not a repair instruction."
    yield f"Order    {opened.get('order', '(not opened here)')}"
    yield f"Vehicle  {opened.get('vehicle', '')}, VIN {opened.get('vin', '')}"
    yield f"Part     {opened.get('part', '')}, side {opened.get('side', '')}"
    yield f"Job      {of.about['job']}"
    utc = " UTC" if of.time == UTC_TIME else ""
    yield f"Filed    {of.when(of.about['filed_ms'])}{utc}, by the server's clock"
    yield f"Times    {of.time.label()}"
    if of.about["reason"]:
        yield f"Filed incomplete, the reason written: {of.about['reason']}"
    yield f"Dossier seal  {_in_groups(of.fingerprint)}"
    yield "The vehicle maker's instruction and the product's data sheet stand above every figure here."


def _in_groups(digits: str) -> str:
    return " ".join(digits[start : start + GROUP] for start in range(0, len(digits), GROUP))


def _body_of(of: ReportOf, digest: str) -> Mapping[str, Any]:
    return next((entry.body for entry in of.entries if entry.hash == digest), {})


def _steps(of: ReportOf) -> Iterator[str]:
    yield "STEPS"
    yield RULE
    titles = {(doc.id, step.id): step.title for doc in of.methods.values() for step in doc.steps()}
    for step in of.state["steps"]:
        yield f"{step['step']}  {titles.get((step['method'], step['step']), '')}: {_standing(step)}"


def _standing(step: StepState) -> str:
    words = [{"": "open", "done": "done", "not_applicable": "not applicable"}[step["done"]]]
    if step["hold"] != "none":
        words.append(
            {"held": "held", "passed": "hold passed", "deviation": "hold passed by deviation"}[step["hold"]]
        )
    if step["open"]:
        words.append("unanswered: " + ", ".join(step["open"]))
    return ", ".join(words)


def _counts(of: ReportOf) -> Iterator[str]:
    yield "RIVETS"
    yield RULE
    for place, count in sorted(of.state["counts"].items()):
        yield f"{count:4d}  {place.replace('_', ' ')}"


def _findings(of: ReportOf) -> Iterator[str]:
    yield "FINDINGS AND DEVIATIONS"
    yield RULE
    for finding in of.state["findings"]:
        taken = ", accepted by the office" if finding["accepted"] else ""
        yield f"{finding['code'].replace('_', ' ')} at {' '.join(finding['at'])}{taken}"
    for digest in of.state["deviations"]:
        body = _body_of(of, digest)
        yield f"deviation at {body.get('step') or 'the job'}: {_one_line(str(body.get('text', '')))}"


def _entries(of: ReportOf) -> Iterator[str]:
    yield "ENTRIES, in the order in which the office received them; times by each author's own clock"
    yield RULE
    struck = {row["target"] for row in of.state["struck"]}
    aside = set(of.state["aside"])
    for number, entry in enumerate(of.entries, 1):
        marks = " [struck]" * (entry.hash in struck) + " [set aside]" * (entry.hash in aside)
        who = "" if entry.by == NIL else of.people.get(entry.by, entry.by)
        yield f"{number:5d}  {of.when(entry.at_ms)}  {entry.kind:<11}  {who}{marks}"
        yield f"       {entry.hash}"
        yield from (f"       {word}: {found}" for word, found in _said(entry))


def _said(entry: Entry) -> Iterator[tuple[str, str]]:
    """The members of a body that a person reads; hashes stay in the entries."""
    for word, found in entry.body.items():
        if isinstance(found, str | int) and found != "" and word not in {"digest", "thumb", "sha256"}:
            yield word, _one_line(str(found))


def _one_line(text: str) -> str:
    """Written text cannot look like a line of the report's own."""
    return (
        " / ".join(text.split("\n"))
        if text.isprintable()
        else "".join(letter if letter.isprintable() else " " for letter in text)
    )
