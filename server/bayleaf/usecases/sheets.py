"""Suppliers' sheets kept by the office: every revision stays, the newest of a material is in use.

A wrong one is withdrawn with a reason: the revision before it is in use again, or none.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any

from bayleaf.canonical.digest import text_hash, value_digest
from bayleaf.canonical.form import dumps
from bayleaf.ports import ReadsLog
from bayleaf.step_computations.inputs import RivetTable
from bayleaf.step_computations.reading import table_of
from bayleaf.step_computations.sheets import MaterialSheet, SheetValue
from bayleaf.stock_ports import Sheet, Stock
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sheet_faults import TypedFigure, scaled, sheet_faults
from bayleaf.usecases.sheet_rows import TypedRow, row_faults, scaled_table

MOST = 1_000
WORDS = ("group", "material", "name", "sheet", "revision")


@dataclass(frozen=True)
class KeptSheet:
    """A sheet with who entered and who withdrew it; `in_use`: the newest of its material that counts."""

    id: str
    about: str
    by: str
    made_ms: int
    in_use: bool
    withdrawn_ms: int
    withdrawn_by: str
    why: str
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
    rows = [TypedRow(**one) for one in named.get("rows", ())]
    faults = [] if rows and not typed else sheet_faults(named["group"], typed)
    faults += row_faults(named["group"], rows, typed)
    if faults:
        first = faults[0]
        told = {"faults": [asdict(one) for one in faults]}
        raise Refusal("sheet_faults", f"{first.field}: {first.message}", first.field, named=told)
    values = [asdict(one) for one in scaled(named["group"], typed)]
    table = scaled_table(rows)
    things = {"about": named["about"], "dated": named["dated"], "values": values, **_table(table)}
    words = {key: named[key] for key in WORDS}
    added = Sheet(id=office.ids.uuid(), **words, things=dumps(things), by=by, made_ms=_later(office))
    if not office.stock.add_sheet(added):
        message = f"revision: {named['sheet']} {named['revision']} is here already for this material."
        raise Refusal("known_sheet", f"{message} A slip in it is mended by withdrawing it first.", "revision")
    return _told(added).digest


def _table(table: RivetTable | None) -> dict[str, Any]:
    """The rows as the sheet's text has them; a sheet without rows keeps its digest."""
    return {} if table is None else {"table": json.loads(json.dumps(asdict(table)))}


def withdraw_sheet(office: Office, by: str, sheet_id: str, why: str) -> None:
    """Nothing is reckoned from it any more; it stays readable, with what rests on it."""
    found = next((one for one in office.stock.sheets() if one.id == sheet_id), None)
    if found is None:
        raise Refusal("unknown_sheet", "No sheet here has this id.", "sheet")
    withdrawn = replace(found, withdrawn_ms=office.clock.now_ms(), withdrawn_by=by, why=why)
    if not office.stock.withdraw_sheet(withdrawn):
        raise Refusal("withdrawn_sheet", "This sheet is withdrawn already.", "sheet")


def _later(office: Office) -> int:
    """After every sheet that is here, so that the newest is the one entered last."""
    newest = max((one.made_ms for one in office.stock.sheets()), default=0)
    return max(office.clock.now_ms(), newest + 1)


def kept_sheets(stock: Stock) -> list[KeptSheet]:
    """By material, the newest first."""
    rows = stock.sheets()
    used = {one.id for one in _in_use(rows)}
    return [_kept(one, in_use=one.id in used) for one in rows]


def _kept(one: Sheet, *, in_use: bool) -> KeptSheet:
    about = json.loads(one.things)["about"]
    withdrawn = (one.withdrawn_ms, one.withdrawn_by, one.why)
    return KeptSheet(one.id, about, one.by, one.made_ms, in_use, *withdrawn, _told(one))


def sheets_in_use(stock: Stock) -> tuple[MaterialSheet, ...]:
    """What phones and the office's forecasts reckon with, one a material."""
    return tuple(_told(one) for one in _in_use(stock.sheets()))


def _in_use(newest_first: Sequence[Sheet]) -> Iterator[Sheet]:
    """The newest of each material among those that are not withdrawn."""
    seen: set[str] = set()
    for one in newest_first:
        if one.withdrawn_ms == 0 and one.material not in seen:
            seen.add(one.material)
            yield one


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


def sheet_texts(stock: Stock) -> dict[str, tuple[str, str]]:
    """Of every sheet by its digest: its name with its revision, and the text that the digest is of."""
    texts = [(f"{one.sheet}, {one.revision}", dumps(_said(one))) for one in stock.sheets()]
    return {text_hash(text): (name, text) for name, text in texts}


def _told(sheet: Sheet) -> MaterialSheet:
    said = _said(sheet)
    words = {key: said[key] for key in (*WORDS, "dated")}
    table = table_of(said["table"]) if "table" in said else None
    return MaterialSheet(value_digest(said), **words, values=tuple(_values(said["values"])), table=table)


def _said(sheet: Sheet) -> dict[str, Any]:
    """All that it says, of which the digest is."""
    words = {key: getattr(sheet, key) for key in WORDS}
    return {"form": 1, **words, **json.loads(sheet.things)}


def _values(listed: Sequence[dict[str, Any]]) -> Iterator[SheetValue]:
    for one in listed:
        yield SheetValue(**one)
