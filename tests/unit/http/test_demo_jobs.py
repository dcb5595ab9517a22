"""The four jobs of the demo: untouched, half done with a run under way, filed with a dossier that checks."""

from __future__ import annotations

import hashlib
import json
import time
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from bayleaf import demo_plan as plan
from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.signatures import verifies
from bayleaf.app import open_parts
from bayleaf.config import Config
from bayleaf.demo import prepare_demo
from bayleaf.domain.entries import Entry, read_entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import methods_of
from bayleaf.domain.state import CardState
from bayleaf.http.parts import Parts
from bayleaf.usecases.check_dossier import check_dossier
from bayleaf.usecases.sheets import jobs_of_sheet, kept_sheets

MINUTE_MS = 60_000


@dataclass(frozen=True)
class Shown:
    """A job of the demo as the office holds it."""

    id: str
    entries: list[Entry]
    late_ms: dict[str, int]
    state: CardState


@dataclass(frozen=True)
class Demo:
    data: Path
    parts: Parts
    made_ms: int

    def job(self, order: str) -> Shown:
        office = self.parts.office
        with office.log.reading() as log:
            row = next(one for one in log.jobs() if one.order == order)
            logged = log.after(row.id, 0, 10**9)
        entries = [read_entry(one.text) for one in logged]
        late_ms = {
            one.hash: one.received_ms - entry.at_ms for one, entry in zip(logged, entries, strict=True)
        }
        texts = office.methods.texts(office.methods.digests())
        held = methods_of({digest: json.loads(text) for digest, text in texts.items()})
        return Shown(row.id, entries, late_ms, fold(held, entries))


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Demo]:
    data = tmp_path_factory.mktemp("demo") / ".bayleaf-demo"
    prepare_demo(data, fresh=False)
    parts = open_parts(Config(data=data))
    yield Demo(data, parts, time.time_ns() // 1_000_000)
    parts.close()


def body_of(job: Shown, kind: str) -> dict[str, Any]:
    return dict(next(entry.body for entry in job.entries if entry.kind == kind))


def test_every_job_says_that_it_is_invented(demo: Demo) -> None:
    for job in plan.JOBS:
        assert body_of(demo.job(job.order), "open")["invented"] is True


def test_the_untouched_job_has_both_methods_and_three_people(demo: Demo) -> None:
    job = demo.job("DEMO-2")
    assert {entry.kind for entry in job.entries} == {"open", "pin", "assign", "place"}
    assert [(one["method"], one["step"]) for one in job.state["steps"]][::78] == [
        ("removal", "rem-01"),
        ("fitting", "fit-38"),
    ]
    assert len(job.state["job"]["assigned"]) == 3


def test_the_half_done_job_stands_fourteen_minutes_into_its_first_heat_run(demo: Demo) -> None:
    job = demo.job("DEMO-3")
    (run,) = job.state["runs"]
    assert (run["zone"], run["moments"], run["off"]) == ("upper", ["on"], False)
    (on,) = (entry for entry in job.entries if entry.hash == run["run"])
    assert 14 * MINUTE_MS <= demo.made_ms - on.at_ms < 20 * MINUTE_MS
    assert max(entry.at_ms for entry in job.entries) <= demo.made_ms
    assert [one["step"] for one in job.state["steps"] if one["done"]][-1] == "rem-26"


def test_the_half_done_job_shows_what_a_card_has_to_show(demo: Demo) -> None:
    job = demo.job("DEMO-3")
    found = {(one["code"], *one["at"]) for one in job.state["findings"]}
    assert found == {
        ("two_values", "removal", "rem-14"),
        ("two_values", "removal", "rem-14", "marks"),
        ("outside_limits", "removal", "rem-11", "distance"),
        ("outside_limits", "removal", "rem-21", "pieces", "shanks"),
        ("lost_piece", "P8"),
        ("open_ask", "removal", "rem-19", "tally"),
    }
    holds = {one["step"]: one["hold"] for one in job.state["steps"]}
    assert holds["rem-21"] == "deviation"
    assert len(job.state["struck"]) == 2  # a value, and the photo that was moved to another slot
    assert len(job.state["deviations"]) == 2
    assert len({entry.device for entry in job.entries}) == 4
    assert any(late_ms > 3 * 60 * MINUTE_MS for late_ms in job.late_ms.values())


def test_the_filed_job_is_complete_and_its_dossier_checks(demo: Demo) -> None:
    job = demo.job("DEMO-4")
    assert all(one["done"] and not one["open"] for one in job.state["steps"])
    assert all(one["accepted"] for one in job.state["findings"])
    assert [one["code"] for one in job.state["findings"]] == ["outside_limits", "outside_limits", "wrong_lot"]
    (row,) = demo.parts.filing.register.all()
    assert (row.job, row.reason) == (job.id, "")
    with (demo.data / "dossiers" / f"{row.id}.zip").open("rb") as file:
        verdict = check_dossier(ContainerReader(file), verifies, row.seal_fingerprint)
    assert verdict.good, verdict.faults
    assert verdict.photos == len({entry.body["sha256"] for entry in job.entries if entry.kind == "photo"})


@pytest.mark.parametrize(
    ("material", "results"),
    [
        ("adhesive", 7),  # bondline, open time of the rehearsal, bead, open time, cure in three steps
        ("rivets", 1),  # the lengths
    ],
)
def test_the_office_sees_which_job_used_the_suppliers_sheet_that_it_entered(
    demo: Demo, material: str, results: int
) -> None:
    office = demo.parts.office
    (sheet,) = (one for one in kept_sheets(office.stock) if one.told.material == material)
    assert sheet.in_use
    (used,) = jobs_of_sheet(office, sheet.told.digest)
    assert (used.order, used.results) == ("DEMO-4", results)
    entries = demo.job("DEMO-4").entries
    assert sheet.made_ms < min(entry.at_ms for entry in entries if entry.kind == "result")


def test_the_filed_jobs_dossier_holds_the_sheets_that_its_results_rest_on(demo: Demo) -> None:
    (row,) = demo.parts.filing.register.all()
    results = [entry.body for entry in demo.job("DEMO-4").entries if entry.kind == "result"]
    named = {one for body in results for one in body.get("tables", ())}
    with zipfile.ZipFile(demo.data / "dossiers" / f"{row.id}.zip") as opened:
        held = [opened.read(one) for one in opened.namelist() if "/data/sheets/" in one]
    assert {hashlib.sha256(one).hexdigest() for one in held} <= named
    epoxy, rivet = sorted((json.loads(one) for one in held), key=lambda told: str(told["material"]))
    assert (epoxy["sheet"], epoxy["revision"]) == ("Demo data sheet structural epoxy", "demo-1")
    open_time = {"name": "open_time", "value": 35, "low": 35, "high": 35, "unit": "min", "decimals": 0}
    assert open_time in epoxy["values"]
    assert rivet["table"]["rows"][1] == {"length": 120, "low": 65, "high": 85, "part": "BR-48-12"}


def test_the_filed_jobs_dossier_holds_its_report(demo: Demo) -> None:
    (row,) = demo.parts.filing.register.all()
    with zipfile.ZipFile(demo.data / "dossiers" / f"{row.id}.zip") as opened:
        (name,) = (one for one in opened.namelist() if one.endswith("report.pdf"))
        assert opened.read(name).startswith(b"%PDF-1.7")


def test_the_shelf_holds_what_the_jobs_used_and_shows_what_is_overdue_and_expired(demo: Demo) -> None:
    stock, day = demo.parts.office.stock, time.strftime("%Y-%m-%d", time.gmtime(demo.made_ms / 1000))
    instruments = {one.number: one for one in stock.instruments()}
    assert instruments.keys() == {"measuring system 2", "two-pole tester 5", "logger 3", "torque wrench 7"}
    assert [one.number for one in instruments.values() if one.calibrated_until < day] == ["torque wrench 7"]
    lots = {one.lot: one for one in stock.lots()}
    assert {"EP-2231", "PR-0907", "CL-5540", "BR-48-1177", "FS-318", "ES-2040", "CP-77"} < lots.keys()
    assert [one.lot for one in lots.values() if one.expires < day] == ["PR-0866"]
    assert {one.note for one in instruments.values()} | {one.note for one in lots.values()} == {"invented"}
