"""Which admissions count: one that was struck, or is set aside itself, admits nothing. So says the fold."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from bayleaf.domain.entries import Entry, entry_of
from bayleaf.domain.fold.asides import set_aside
from bayleaf.ports import LoggedEntry, ReadsLog, WritesLog

CONTROL = frozenset({"aside", "admit", "strike"})


def note_admissions(log: WritesLog, job: str, told: Sequence[tuple[LoggedEntry, Any]]) -> None:
    """Bring the marks of the job into line with its log, where these entries may change them."""
    if not _touches_marks(log, job, told):
        return
    aside = set_aside(_control(log, job))
    marks = log.asides(job)
    log.mark_admitted(job, [mark.hash for mark in marks if mark.hash not in aside and not mark.admitted])
    struck = [mark.hash for mark in marks if mark.hash in aside and mark.admitted]
    log.mark_admitted(job, struck, admitted=False)


def taken_back(log: ReadsLog, job: str) -> frozenset[str]:
    """What an admit named and is set aside all the same: the office struck that admit, and so decided."""
    control = _control(log, job)
    aside = set_aside(control)
    admits = [one for key, one in control.items() if one.kind == "admit" and one.v == 1 and key not in aside]
    return aside & {named for admit in admits for named in admit.body["hashes"]}


def _touches_marks(log: ReadsLog, job: str, told: Sequence[tuple[LoggedEntry, Any]]) -> bool:
    """An aside or admit in any order of arrival; a strike only where what it names is one of these."""
    if any(entry.kind in ("aside", "admit") for entry, _ in told):
        return True
    targets = {body["target"] for entry, body in told if entry.kind == "strike"}
    return any(one.kind in CONTROL for one in log.by_hashes(job, targets))


def _control(log: ReadsLog, job: str) -> dict[str, Entry]:
    return {entry.hash: entry_of(json.loads(entry.text)) for entry in log.of_kinds(job, CONTROL)}
