"""Lots with their expiry and where they were used, and the instruments that were named."""

from __future__ import annotations

import re
from typing import Any, Final

from bayleaf.domain.entries import Entry
from bayleaf.report.ledger import Ledger, label
from bayleaf.report.said import expiry_words, material_name
from bayleaf.report.words import capital

INSTRUMENT: Final = re.compile(
    r"calibrat|instrument|logger|tester|gauge|measuring system|meter number", re.IGNORECASE
)

CALIBRATED_UNTIL: Final = re.compile(r"calibrated until (\d{4}-\d{2}-\d{2})")
TROUBLES: Final = {"wrong_lot": "wrong material", "expired_lot": "expired when recorded"}


def lots(ledger: Ledger) -> list[dict[str, Any]]:
    """Every lot entry, struck ones too, in the order of the steps; a wrong or expired one says so."""
    entries = [one for one in ledger.source.entries if one.kind == "lot" and one.hash not in ledger.out]
    return [_lot(ledger, one) for one in sorted(entries, key=lambda one: _order(ledger, one))]


def _order(ledger: Ledger, entry: Entry) -> tuple[int, int, str]:
    place = ledger.place(entry.body["method"], entry.body["step"])
    return place.number if place else 0, entry.at_ms, entry.hash


def _lot(ledger: Ledger, entry: Entry) -> dict[str, Any]:
    body = entry.body
    trouble = lot_troubles(ledger, entry)
    return {
        "material": capital(material_name(ledger, body["material"])),
        "lot": body["lot"],
        "expiry": expiry_words(ledger, body["expires_ms"]).removeprefix("expires "),
        "step": ledger.step_name(body["method"], body["step"]),
        "who": ledger.signed(entry),
        "marks": [one for one in (*trouble, ledger.struck_by(entry.hash)) if one],
        "late": ledger.late(entry),
        "struck": entry.hash in ledger.struck,
        "trouble": bool(trouble),
    }


def lot_troubles(ledger: Ledger, entry: Entry) -> list[str]:
    """Why a lot is not what was asked for."""
    codes = {one["code"] for one in ledger.state["findings"] if entry.hash in one["hashes"]}
    return [said for code, said in TROUBLES.items() if code in codes]


def instruments(ledger: Ledger) -> list[dict[str, str]]:
    """Answers of texts that ask for an instrument or its calibration."""
    shown = {one["shown"] for one in ledger.state["registers"] if one["kind"] == "text"}
    found = []
    for place in ledger.places:
        for entry in ledger.by_step.get((place.method.id, place.step.id), []):
            ask = ledger.ask_of(entry) if entry.hash in shown else None
            if ask is not None and INSTRUMENT.search(ask.name):
                step = ledger.step_name(place.method.id, place.step.id)
                value = str(entry.body["value"])
                overdue = _overdue(value, ledger.time.day(entry.at_ms))
                row = {"step": step, "name": label(ask), "value": f"{value}{overdue}"}
                found.append({**row, "who": ledger.signed(entry)})
    return found


def _overdue(value: str, day: str) -> str:
    """By the day that is written with it; the shop's register is no part of the record."""
    until = CALIBRATED_UNTIL.search(value)
    return " (overdue for calibration when it was named)" if until and until[1] < day else ""
