"""Suppliers' sheets kept by the office: every revision stays, the newest of a material is in use."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from itertools import groupby
from typing import Any

from bayleaf.canonical.digest import value_digest
from bayleaf.canonical.form import dumps
from bayleaf.ports import ReadsLog
from bayleaf.step_computations.sheets import MaterialSheet, SheetValue
from bayleaf.stock_ports import Sheet, Stock
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sheet_faults import TypedFigure, scaled, sheet_faults

MOST = 1_000


@dataclass(frozen=True)
class KeptSheet:
    """A sheet with who entered it and when; `in_use`: the newest of its material."""

    id: str
    about: str
    by: str
    made_ms: int
    in_use: bool
    told: MaterialSheet


@dataclass(frozen=True)
class SheetJob:
    """A job that recorded a lot of the sheet's material; `results` of it rest on this very revision."""

    job: str
    order: str
    filed_ms: int
    lots: tuple[str, ...]
    results: int


def keep_sheet(office: Office, by: str, named: dict[str, Any]) -> str:
    """The digest of the sheet that was added. A revision is never edited; a slip is a further revision."""
    typed = [TypedFigure(**one) for one in named["values"]]
    faults = sheet_faults(named["group"], typed)
    if faults:
        first = faults[0]
        told = {"faults": [asdict(one) for one in faults]}
        raise Refusal("sheet_faults", f"{first.field}: {first.message}", first.field, named=told)
    values = [asdict(one) for one in scaled(named["group"], typed)]
    things = {"about": named["about"], "dated": named["dated"], "values": values}
    words = {key: named[key] for key in ("group", "material", "name", "sheet", "revision")}
    added = Sheet(id=office.ids.uuid(), **words, things=dumps(things), by=by, made_ms=_later(office))
    if not office.stock.add_sheet(added):
        message = f"revision: {named['sheet']} {named['revision']} is here already for this material."
        raise Refusal("known_sheet", f"{message} A slip in it is entered as a further revision.", "revision")
    return _told(added).digest


def _later(office: Office) -> int:
    """After every sheet that is here, so that the newest is the one entered last."""
    newest = max((one.made_ms for one in office.stock.sheets()), default=0)
    return max(office.clock.now_ms(), newest + 1)


def kept_sheets(stock: Stock) -> list[KeptSheet]:
    """By material, the newest first."""
    seen: set[str] = set()
    rows: list[KeptSheet] = []
    for one in stock.sheets():
        about = json.loads(one.things)["about"]
        rows.append(KeptSheet(one.id, about, one.by, one.made_ms, one.material not in seen, _told(one)))
        seen.add(one.material)
    return rows


def sheets_in_use(stock: Stock) -> tuple[MaterialSheet, ...]:
    """What phones and the office's forecasts reckon with, one a material."""
    return tuple(_told(next(newest)) for _, newest in groupby(stock.sheets(), key=lambda one: one.material))


def jobs_of_sheet(office: Office, digest: str) -> Sequence[SheetJob]:
    """Jobs whose lots are of its material, the newest record first."""
    sheet = next((one.told for one in kept_sheets(office.stock) if one.told.digest == digest), None)
    if sheet is None:
        raise Refusal("unknown_sheet", "No sheet here has this digest.", "digest")
    with office.log.reading() as log:
        lots: dict[str, list[str]] = {}
        for entry in log.of_lots(sheet.material, MOST):
            body = json.loads(entry.text)["body"]
            if body["material"] == sheet.material:
                lots.setdefault(entry.job, []).append(body["lot"])
        return [_job(log, job, found, digest) for job, found in lots.items()]


def _job(log: ReadsLog, job: str, lots: Sequence[str], digest: str) -> SheetJob:
    row = log.job(job)
    struck = {json.loads(one.text)["body"]["target"] for one in log.of_kinds(job, ("strike",))}
    results = [
        one
        for one in log.of_kinds(job, ("result",))
        if one.hash not in struck and digest in json.loads(one.text)["body"].get("tables", ())
    ]
    order, filed_ms = (row.order, row.filed_ms or 0) if row else ("", 0)
    return SheetJob(job, order, filed_ms, tuple(dict.fromkeys(lots)), len(results))


def _told(sheet: Sheet) -> MaterialSheet:
    things = json.loads(sheet.things)
    words = {key: getattr(sheet, key) for key in ("group", "material", "name", "sheet", "revision")}
    digest = value_digest({"form": 1, **words, **things})
    values = tuple(_values(things["values"]))
    return MaterialSheet(digest=digest, **words, dated=things["dated"], values=values)


def _values(listed: Sequence[dict[str, Any]]) -> Iterator[SheetValue]:
    for one in listed:
        yield SheetValue(**one)
