"""All that the report says, as one structure of texts and numbers; none of it is code for the typesetter."""

from __future__ import annotations

from typing import Any

from bayleaf.report import summary
from bayleaf.report.first_page import first_page
from bayleaf.report.heat_runs import heat_runs
from bayleaf.report.issues import issues_of
from bayleaf.report.ledger import Ledger
from bayleaf.report.materials import instruments, lots
from bayleaf.report.people import people
from bayleaf.report.photos import Album
from bayleaf.report.record_facts import cautions, conditions, record_facts
from bayleaf.report.rivets import drawings, rivets
from bayleaf.report.shapes import shapes
from bayleaf.report.sheets import sheets
from bayleaf.report.shown import Shown
from bayleaf.report.source import ReportSource
from bayleaf.report.steps import stages


def contents_of(source: ReportSource) -> dict[str, Any]:
    """What the typesetter sets: `report` in words that its fonts can show; pictures and drawings by hash."""
    ledger = Ledger(source)
    album = Album(ledger)
    shown = Shown()
    report = shown.all(_report(ledger, album))
    report["replaced"] = shown.replaced
    return {
        "report": report,
        "made_ms": source.made_ms,
        "pictures": album.pictures(),
        "drawings": drawings(ledger),
        "shapes": shapes(),
    }


def _report(ledger: Ledger, album: Album) -> dict[str, Any]:
    source, opened = ledger.source, ledger.opened
    issues = issues_of(ledger)
    page = {
        "order": str(opened.get("order", "")) or f"job {source.job[:8]}",
        "part": str(opened.get("part", "")),
        "job": source.job,
        "made": summary.made(ledger),
        "times": source.time.label(),
        "preview": "" if source.filing else summary.PREVIEW,
        "invented": summary.INVENTED if summary.is_invented(ledger) else "",
        "first": summary.FIRST,
        "facts": summary.facts(ledger),
        "done": summary.work_done(ledger),
        "stages_done": summary.stages_done(ledger),
        "verdict": summary.verdict(ledger, issues),
        "missing": summary.missing(ledger, album),
        "supersedes": list(source.supersedes),
        "reason": source.filing.reason if source.filing else "",
        "seal": summary.seal(ledger),
    }
    return {**page, **first_page(issues, str(page["reason"])), **_chapters(ledger, album)}


def _chapters(ledger: Ledger, album: Album) -> dict[str, Any]:
    return {
        "stages": stages(ledger, album),
        "rivets": rivets(ledger),
        "runs": heat_runs(ledger),
        "photos": album.rows(),
        "lots": lots(ledger),
        "sheets": sheets(ledger),
        "instruments": instruments(ledger),
        "people": people(ledger),
        "cautions": cautions(ledger),
        "conditions": conditions(ledger),
        "record": record_facts(ledger),
    }
