"""All that the report says, as one structure of texts and numbers; none of it is code for the typesetter."""

from __future__ import annotations

from typing import Any, Final

from bayleaf.report import summary
from bayleaf.report.heat_runs import heat_runs
from bayleaf.report.issues import Issue, issues_of
from bayleaf.report.ledger import Ledger
from bayleaf.report.materials import instruments, lots
from bayleaf.report.people import people
from bayleaf.report.photos import Album
from bayleaf.report.record_facts import cautions, conditions, record_facts
from bayleaf.report.rivets import drawings, rivets
from bayleaf.report.shapes import shapes
from bayleaf.report.shown import Shown
from bayleaf.report.source import ReportSource
from bayleaf.report.steps import stages
from bayleaf.report.words import clipped, moment

FIRST_PAGE_ISSUES: Final = 6
FIRST_PAGE_WORDS: Final = 170
LINES: Final = 3  # texts in a cell of the first page
FIRST_PAGE_REASON: Final = 500


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
    issues = issues_of(ledger)
    source, opened = ledger.source, ledger.opened
    reason = source.filing.reason if source.filing else ""
    return {
        "order": str(opened.get("order", "")) or f"job {source.job[:8]}",
        "part": str(opened.get("part", "")),
        "job": source.job,
        "made": moment(source.made_ms),
        "preview": "" if source.filing else summary.PREVIEW,
        "invented": summary.INVENTED if summary.is_invented(ledger) else "",
        "first": summary.FIRST,
        "facts": summary.facts(ledger),
        "done": summary.work_done(ledger),
        "stages_done": summary.stages_done(ledger),
        "verdict": summary.verdict(ledger, issues),
        "issues": [_issue(issue) for issue in issues],
        "first_issues": [_short_issue(issue) for issue in issues[:FIRST_PAGE_ISSUES]],
        "first_page_fits": _fits(issues) and len(reason) <= FIRST_PAGE_REASON,
        "missing": summary.missing(ledger, album),
        "supersedes": list(source.supersedes),
        "reason": reason,
        "short_reason": clipped(reason, FIRST_PAGE_REASON),
        "seal": summary.seal(ledger),
        "stages": stages(ledger, album),
        "rivets": rivets(ledger),
        "runs": heat_runs(ledger),
        "photos": album.rows(),
        "lots": lots(ledger),
        "instruments": instruments(ledger),
        "people": people(ledger),
        "cautions": cautions(ledger),
        "conditions": conditions(ledger),
        "record": record_facts(ledger),
    }


def _issue(issue: Issue) -> dict[str, Any]:
    return {
        "kind": issue.kind,
        "step": issue.step,
        "title": issue.title,
        "what": list(issue.what),
        "reason": list(issue.reason),
        "accepted": list(issue.accepted),
        "open": issue.is_open,
    }


def _short_issue(issue: Issue) -> dict[str, Any]:
    row = _issue(issue)
    for key in ("what", "reason", "accepted"):
        row[key] = [clipped(text, FIRST_PAGE_WORDS) for text in row[key][:LINES]]
    return row


def _fits(issues: list[Issue]) -> bool:
    """Whether the first page says all of it, so that no chapter has to say it again."""
    texts = [text for issue in issues for text in (*issue.what, *issue.reason, *issue.accepted)]
    short = all(len(one) <= LINES for issue in issues for one in (issue.what, issue.reason, issue.accepted))
    return short and len(issues) <= FIRST_PAGE_ISSUES and all(len(text) <= FIRST_PAGE_WORDS for text in texts)
