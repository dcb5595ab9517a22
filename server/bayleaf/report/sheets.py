"""Suppliers' sheets that figures of the card were worked out with, and which of them were withdrawn since."""

from __future__ import annotations

from typing import Any

from bayleaf.domain.entries import Entry
from bayleaf.report.ledger import Ledger
from bayleaf.report.source import SheetTold
from bayleaf.report.words import listed, short


def sheets(ledger: Ledger) -> list[dict[str, Any]]:
    """Each with the steps whose results name it, struck and replaced ones too."""
    return [_row(ledger, one) for one in ledger.source.sheets]


def sheets_said(ledger: Ledger) -> str:
    """For the first page: those that a standing result rests on."""
    used = {table for entry in ledger.standing("result") for table in _tables(entry)}
    return "; ".join(
        f"{one.material}: {_name(one)}{f' ({_withdrawn(ledger, one)})' if one.withdrawn_ms else ''}"
        for one in ledger.source.sheets
        if one.sha256 in used
    )


def _row(ledger: Ledger, one: SheetTold) -> dict[str, Any]:
    results = [entry for entry in ledger.source.entries if one.sha256 in _tables(entry)]
    steps = [ledger.step_name(entry.body["method"], entry.body["step"]) for entry in results]
    return {
        "material": one.material,
        "sheet": _name(one),
        "dated": one.dated,
        "steps": listed(list(dict.fromkeys(steps))),
        "withdrawn": _withdrawn(ledger, one) if one.withdrawn_ms else "",
        "hash": short(one.sha256),
    }


def _tables(entry: Entry) -> tuple[str, ...]:
    return tuple(entry.body.get("tables", ())) if entry.kind == "result" else ()


def _name(one: SheetTold) -> str:
    return f"{one.sheet}, revision {one.revision}"


def _withdrawn(ledger: Ledger, one: SheetTold) -> str:
    return f"withdrawn {ledger.time.moment(one.withdrawn_ms)}: {one.why}"
