"""Adhesive that flowed again from a mixer that had stood longer than its gel time, by the notes about it.

The gel time is the later method's word. A mixer that was changed restarts nothing and is no fault.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from bayleaf.report.ledger import Ledger
from bayleaf.report.words import listed, minutes
from bayleaf.step_computations.figures import MS_PER_MIN, number_of
from bayleaf.step_computations.inputs import Quantity

GEL_FACT: Final = "adhesive.mixer_gel_minutes"


def late_mixer_words(ledger: Ledger) -> str:
    """One sentence; empty where none had set, and where no method gives a gel time."""
    gel_ms = _gel_ms(ledger)
    if gel_ms is None:
        return ""
    stood = [ms for ms in _stood_ms(ledger) if ms > gel_ms]
    if not stood:
        return ""
    told = listed([minutes(ms) for ms in stood])
    return (
        f"Adhesive flowed again from a mixer that had stood {told}; its gel time is {minutes(int(gel_ms))}."
    )


def _gel_ms(ledger: Ledger) -> float | None:
    facts = [fact for method in ledger.pinned for fact in method.facts if fact.name == GEL_FACT]
    given = [Quantity(one.value, "min", one.decimals) for one in facts if one.value is not None]
    return number_of(given[-1]) * MS_PER_MIN if given else None


def _stood_ms(ledger: Ledger) -> Iterator[int]:
    """How long it stood each time before it flowed again."""
    noted = [one for one in ledger.standing("note") if one.body.get("mixer")]
    for before, then in pairwise(sorted(noted, key=lambda one: (ledger.apart_ms(noted[0], one), one.hash))):
        if (before.body["mixer"], then.body["mixer"]) == ("stands", "flows"):
            yield ledger.apart_ms(before, then)
