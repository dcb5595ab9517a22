"""Who worked on the job: roles and qualifications as their devices knew them, and how each was known."""

from __future__ import annotations

from collections import Counter
from typing import Any

from bayleaf.domain.entries import NIL
from bayleaf.report.ledger import Ledger
from bayleaf.report.words import HOW_KNOWN, count, listed, word

ROLES = frozenset({"technician", "photographer", "office"})


def people(ledger: Ledger) -> list[dict[str, Any]]:
    """By the number of entries, then by name."""
    written = Counter(entry.by for entry in ledger.source.entries if entry.by != NIL)
    assigned = {one for one in ledger.state["job"]["assigned"] if one not in written}
    ids = sorted(written, key=lambda one: (-written[one], ledger.name(one))) + sorted(
        assigned, key=ledger.name
    )
    return [_person(ledger, one, written[one]) for one in ids]


def _person(ledger: Ledger, person: str, entries: int) -> dict[str, Any]:
    own = [one for one in ledger.source.entries if one.by == person]
    held = sorted({held for one in own for held in one.as_})
    known = Counter(one.auth for one in own)
    return {
        "name": ledger.name(person),
        "roles": listed([word(one) for one in held if one in ROLES]),
        "qualifications": listed([word(one) for one in held if one not in ROLES]),
        "known": listed([f"{count(known[auth])} {HOW_KNOWN[auth]}" for auth in HOW_KNOWN if known[auth]]),
        "devices": listed(sorted({ledger.device(one) for one in own})),
        "entries": count(entries),
    }
