"""One whole sync of a simulated phone, as `web/src/sync/round.ts`: exchange, reconcile, bundle, photos."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from bayleaf.canonical.digest import set_digest
from sim import plan
from sim.asking import Talk
from sim.phone import Phone
from sim.sync import exchange, photo_upload
from sim.sync import reconcile as reconciling

EXCHANGES_MAX = 2_000


def run_round(phone: Phone) -> Talk[None]:
    """Exchange until nothing waits and no more comes, then bundle and photos."""
    reports: list[plan.Mismatch] = []
    bundle = ""
    for _ in range(EXCHANGES_MAX):
        before = _standing(phone)
        answer = yield from exchange.exchange(phone, reports)
        bundle = answer["bundle"]
        reports = yield from _act(phone, before, answer)
        if not reports and not _goes_on(phone, before, answer):
            break
    if phone.store.settings.get("bundle_due") is not False:
        yield from photo_upload.fetch_bundle(phone, bundle)
    phone.store.let_go(phone.wall())
    yield from photo_upload.send_photos(phone)


def _standing(phone: Phone) -> tuple[str, dict[str, int], int]:
    cursors = {row.job: row.cursor for row in phone.store.jobs.values()}
    return phone.store.settings.get("log", ""), cursors, len(phone.store.outbox)


def _goes_on(phone: Phone, before: tuple[str, dict[str, int], int], answer: Mapping[str, Any]) -> bool:
    _, cursors, waiting = before
    answered = {seen["job"] for seen in answer["jobs"]}
    if any(job not in cursors and job not in answered for job in answer["new_jobs"]):
        return True
    if any(seen["more"] for seen in answer["jobs"]) or phone.store.heads_owed:
        return True
    return 0 < len(phone.store.outbox) < waiting


def _act(
    phone: Phone, before: tuple[str, dict[str, int], int], answer: Mapping[str, Any]
) -> Talk[list[plan.Mismatch]]:
    log = plan.log_pair(before[0], answer["log"])
    done = frozenset(phone.store.reconciled)
    seen_of = {seen["job"]: seen for seen in answer["jobs"]} | _gone_seen(phone, before[1], answer)
    reports: list[plan.Mismatch] = []
    for held in _held_jobs(phone, before[1], seen_of, everything=log.changed):
        nothing = {"job": held.job, "cursor": 0, "more": False, "heads": []}
        step = plan.step_for(held, seen_of.get(held.job, nothing), log, done)
        if step is None:
            continue
        if step.step == "reconcile":
            left = yield from reconciling.reconcile(phone, step.job)
            reports += [left] if left is not None else []
        if step.report is not None:
            reports.append(step.report)
        if step.step == "compare_state":
            reports += _compared(phone, step, done)
        else:
            phone.store.reconciled[step.key] = True
    if log.changed:
        _count_anew(phone, answer["log"])
    phone.reports_made += reports
    return reports


def _count_anew(phone: Phone, log: str) -> None:
    """A job that was let go is not reconciled: its old cursor means nothing in another log."""
    for row in phone.store.jobs.values():
        if row.let_go:
            phone.store.jobs[row.job] = replace(row, cursor=0)
    phone.store.settings["log"] = log


def _gone_seen(phone: Phone, cursors: Mapping[str, int], answer: Mapping[str, Any]) -> dict[str, plan.Seen]:
    """Of a job that is gone only the heads are told: enough to see that the server lost what it had."""
    gone = {one["job"]: one["heads"] for one in answer["gone_heads"]}
    return {
        job: {"job": job, "cursor": cursors.get(job, 0), "more": False, "heads": heads}
        for job, heads in gone.items()
    }


def _held_jobs(
    phone: Phone, cursors: Mapping[str, int], answered: Mapping[str, Any], *, everything: bool
) -> list[plan.JobHeld]:
    wanted = [
        row
        for row in sorted(phone.store.jobs.values(), key=lambda row: row.job)
        if not row.let_go and (everything or row.job in answered)
    ]
    return [
        plan.JobHeld(row.job, phone.store.links(row.job), cursors.get(row.job, 0), row.let_go)
        for row in wanted
    ]


def _compared(phone: Phone, step: plan.Step, done: frozenset[str]) -> list[plan.Mismatch]:
    same = f"same {step.job} {step.set_digest} {step.state_digest}"
    if same in done:
        return []
    ours = phone.state_digest_of(step.job)
    links = phone.store.links(step.job)
    if ours == "" or set_digest(link.hash for link in links) != step.set_digest:
        return []
    report = None
    if ours != step.state_digest:
        report = plan.report_once(plan.Mismatch(step.job, "state", ours, step.state_digest), done)
    phone.store.reconciled[same if report is None else report.key] = True
    return [report.report] if report is not None and report.report is not None else []
