"""What the record is made of: entries by kind, what is not counted, cautions, standing conditions."""

from __future__ import annotations

from collections import Counter
from typing import Any

from bayleaf.report.ledger import Ledger
from bayleaf.report.words import KINDS, capital, count, listed, many


def record_facts(ledger: Ledger) -> dict[str, Any]:
    """Counts and the way to the entries themselves."""
    source, entries = ledger.source, ledger.source.entries
    kinds = Counter(entry.kind for entry in entries)
    late = sum(1 for entry in entries if ledger.late(entry))
    times = [at(one.at_ms for one in entries) for at in (min, max)] if entries else []
    span = [ledger.time.moment(ms) for ms in times] or ["none"]
    facts = [
        ["Entries", f"{count(len(entries))}, of {many(len({one.device for one in entries}), 'device')}"],
        ["First and last", " to ".join(span)],
        ["Struck", count(len(source.state["struck"]))],
        [
            "Late",
            f"{count(late)} reached the office over ten minutes after they were made, or with a typed time",
        ],
        ["Set aside", f"{count(len(source.state['aside']))}, kept and not counted"],
        ["Refused", f"{count(source.refused)} raw texts kept beside the entries"],
        ["Without a signed head", count(source.unsigned)],
        [
            "Under another revision",
            f"{count(len(source.state['elsewhere']))} entries stand under a revision that is not pinned",
        ],
    ]
    if source.state["unknown"]:
        facts.append(
            [
                "Unknown to this program",
                f"{count(len(source.state['unknown']))} entries, kept and not counted",
            ]
        )
    rows = sorted(kinds.items(), key=lambda row: (-row[1], row[0]))
    return {
        "facts": facts,
        "kinds": [[capital(KINDS.get(kind, kind)), count(number)] for kind, number in rows],
    }


def cautions(ledger: Ledger) -> list[dict[str, str]]:
    """Each caution that the pinned methods show, once, with its steps."""
    steps: dict[str, list[str]] = {}
    for place in ledger.places:
        if place.step.caution:
            steps.setdefault(place.step.caution, []).append(place.step.id)
    return [{"text": text, "steps": listed(ids)} for text, ids in steps.items()]


def conditions(ledger: Ledger) -> list[dict[str, str]]:
    """Standing conditions as the record leaves them."""
    names = {one.id: one.name for method in ledger.pinned for one in method.conditions}
    return [
        {"name": capital(names.get(one["id"], one["id"])), "state": "holds" if one["on"] else "cleared"}
        for one in ledger.state["conditions"]
    ]
