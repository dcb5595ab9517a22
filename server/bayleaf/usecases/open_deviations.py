"""Deviations that the office has neither accepted nor seen struck: a job is not complete with one."""

from __future__ import annotations

from collections.abc import Iterable

from bayleaf.domain.entries import Entry
from bayleaf.domain.state import CardState

CODE = "deviation"  # no finding has it, so the fold leaves such an `accept` alone


def open_deviations(state: CardState, entries: Iterable[Entry]) -> list[str]:
    """Hashes of unstruck deviations that no unstruck `accept` of the code "deviation" names; sorted."""
    out = {struck["target"] for struck in state["struck"]} | set(state["aside"])
    accepted = {
        str(named)
        for entry in entries
        if entry.kind == "accept" and entry.hash not in out and entry.body.get("code") == CODE
        for named in entry.body.get("hashes", ())
    }
    return sorted(set(state["deviations"]) - accepted)
