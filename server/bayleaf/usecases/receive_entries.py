"""Receives entries: refuses what is none, keeps and numbers the rest, sets aside what may not count yet."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import MAX_BYTES
from bayleaf.ports import AsideMark, JobRow, LoggedEntry, RefusedText, SignedHead, WritesLog
from bayleaf.usecases.chains import Brings, Chains
from bayleaf.usecases.device_cards import let_in_by_cards
from bayleaf.usecases.facts import note_facts, note_late, note_photos
from bayleaf.usecases.fates import Brought, DeviceClock, Fate, FateOf
from bayleaf.usecases.judge import Judge, Verdict
from bayleaf.usecases.mend import admit_mended
from bayleaf.usecases.office import Office
from bayleaf.usecases.server_pen import set_aside
from bayleaf.usecases.store_name import renew_log_if_put_back
from bayleaf.wire.entries import Malformed, ReadEntry, read_entry

SHELL = JobRow("", 0, shell=True)  # noqa: S604  (a job without its opening, no shell of that kind)


Judged = tuple[ReadEntry, Verdict]


@dataclass(frozen=True)
class _Arrival:
    """Who brings, with which clock, and when."""

    device: str
    clock: DeviceClock | None
    now_ms: int


def receive_entries(office: Office, device: str, brought: Brought) -> list[FateOf]:
    """The fate of each text, in their order. When it returns, all that was kept is on disk.

    `device` is whoever brings them, which need not be who wrote them.
    """
    now_ms = office.clock.now_ms()
    read = [_read(text) for text in brought.texts]
    sound = {one.hash: one for one in read if isinstance(one, ReadEntry)}
    let_in_by_cards(office, brought.cards, now_ms)
    with office.log.writing() as log:
        renew_log_if_put_back(office, log, brought)
        known = log.held(sound)
        fresh = [one for key, one in sound.items() if key not in known]
        verdicts = _take_in(office, log, _Arrival(device, brought.clock, now_ms), fresh, brought.heads)
        fates = _fates(log, read, known, verdicts)
        log.refuse([_kept(fate, brought.texts[fate.index], device, now_ms) for fate in _refused(fates)])
        if brought.clock is not None:
            log.note_clock(device, brought.clock.load, brought.clock.at_ms, brought.clock.mono_ms, now_ms)
        if brought.settles:
            log.settle(device, now_ms)
    return fates


def _read(text: str) -> ReadEntry | Malformed:
    try:
        return read_entry(text)
    except Malformed as malformed:
        return malformed


def _take_in(
    office: Office, log: WritesLog, arrival: _Arrival, fresh: Sequence[ReadEntry], shown: Sequence[SignedHead]
) -> Mapping[str, Verdict]:
    jobs = sorted({one.parsed["job"] for one in fresh} | _shown_jobs(log, shown))
    log.lock(jobs)
    verdicts: dict[str, Verdict] = {}
    for job in jobs:
        if log.job(job) is None:
            log.put_job(replace(SHELL, id=job, made_ms=arrival.now_ms))
        judge = Judge(office, log, frozenset(log.own_devices()))
        mine = [one for one in fresh if one.parsed["job"] == job]
        chains = Chains(office, log, judge, Brings(job, mine, [head for head in shown if head.job == job]))
        verdicts |= _take_in_job(office, log, arrival, chains, mine)
    return verdicts


def _shown_jobs(log: WritesLog, heads: Iterable[SignedHead]) -> set[str]:
    """Jobs of heads alone: a head may cover what came before it."""
    return {job for job in {head.job for head in heads} if log.job(job) is not None}


def _take_in_job(
    office: Office, log: WritesLog, arrival: _Arrival, chains: Chains, fresh: Sequence[ReadEntry]
) -> Mapping[str, Verdict]:
    """What this server wrote itself comes first: it may be what says whose the job is."""
    by_server = [one for one in fresh if chains.by_server(one)]
    own = _ids(by_server)
    remade = _remake(log, chains.job, by_server, arrival.now_ms)
    judged = _append(log, arrival, chains, by_server)
    judged += _append(log, arrival, chains, [one for one in fresh if one.hash not in own])
    chains.keep(arrival.now_ms)
    by_code: defaultdict[str, list[str]] = defaultdict(list)
    for one, (code, _) in judged:
        if code:
            by_code[code].append(one.hash)
    for code, hashes in sorted(by_code.items()):
        set_aside(office, log, chains.job, code, hashes)
    if remade or chains.mended:
        admit_mended(office, log, chains.job, remade=remade)
    return {one.hash: verdict for one, verdict in judged}


def _remake(log: WritesLog, job: str, by_server: Sequence[ReadEntry], now_ms: int) -> bool:
    """Whether these bring back what this server had lost: a job by its `open`, or who was on it."""
    row = log.job(job)
    kinds = {one.parsed["kind"] for one in by_server}
    if row is not None and row.shell and "open" in kinds:
        log.put_job(replace(row, shell=False, made_ms=now_ms))
    return bool(kinds & {"open", "assign"})


def _append(log: WritesLog, arrival: _Arrival, chains: Chains, entries: Sequence[ReadEntry]) -> list[Judged]:
    if not entries:
        return []
    judged = [(one, chains.verdict(one)) for one in entries]
    rows = [_row(one, arrival, signed=chains.signs(one.hash)) for one in entries]
    log.append(chains.job, rows)
    note_late(log, chains.job, arrival.now_ms)
    note_photos(log, chains.job, rows)
    taken = [row for row, (_, (code, _)) in zip(rows, judged, strict=True) if not code]
    note_facts(log, chains.job, taken, arrival.now_ms)
    return judged


def _row(one: ReadEntry, arrival: _Arrival, *, signed: bool) -> LoggedEntry:
    parsed = one.parsed
    own_clock = arrival.clock if parsed["device"] == arrival.device else None
    return LoggedEntry(
        one.hash,
        parsed["job"],
        0,
        parsed["device"],
        parsed["seq"],
        parsed["prev"],
        parsed["kind"],
        one.text,
        arrival.now_ms,
        _offset_ms(one, own_clock, arrival.now_ms),
        arrival.device,
        signed,
    )


def _offset_ms(entry: ReadEntry, clock: DeviceClock | None, now_ms: int) -> int | None:
    """The server's clock minus the author's, at the entry.

    Wall time measures; within one page load, a wall behind the monotonic clock is a clock set back.
    """
    if clock is None:
        return None
    elapsed_ms = clock.at_ms - int(entry.parsed["at_ms"])
    if clock.load == entry.parsed["load"]:
        elapsed_ms = max(elapsed_ms, clock.mono_ms - int(entry.parsed["mono_ms"]))
    return now_ms - elapsed_ms - int(entry.parsed["at_ms"])


def _ids(entries: Iterable[ReadEntry]) -> set[str]:
    return {one.hash for one in entries}


def _fates(
    log: WritesLog,
    read: Sequence[ReadEntry | Malformed],
    known: set[str],
    verdicts: Mapping[str, Verdict],
) -> list[FateOf]:
    """A verdict may have been mended within the same request, so what the log says now comes first."""
    jobs = {one.parsed["job"] for one in read if isinstance(one, ReadEntry)}
    marks = {mark.hash: mark for job in jobs for mark in log.asides(job)}
    return [_fate(index, one, marks, known, verdicts) for index, one in enumerate(read)]


def _fate(
    index: int,
    one: ReadEntry | Malformed,
    marks: Mapping[str, AsideMark],
    known: set[str],
    verdicts: Mapping[str, Verdict],
) -> FateOf:
    if isinstance(one, Malformed):
        return FateOf(index, one.job, one.hash, Fate.REFUSED, one.code, one.message, one.field)
    mark, job = marks.get(one.hash), one.parsed["job"]
    if mark is None or mark.admitted:
        return FateOf(index, job, one.hash, Fate.TAKEN, known=one.hash in known)
    said = verdicts.get(one.hash, ("", ""))[1] or "It was set aside before; the office may admit it."
    return FateOf(index, job, one.hash, Fate.SET_ASIDE, mark.code, said, known=one.hash in known)


def _refused(fates: Iterable[FateOf]) -> list[FateOf]:
    return [fate for fate in fates if fate.fate is Fate.REFUSED]


def _kept(fate: FateOf, text: str, device: str, now_ms: int) -> RefusedText:
    """Raw, up to 64 KB; what no store can hold (half a surrogate, U+0000) is spelled as JSON spells it."""
    raw = text.encode("utf-8", "backslashreplace").replace(b"\0", b"\\u0000")[:MAX_BYTES]
    kept = raw.decode("utf-8", "ignore")
    return RefusedText(
        hash_of_text=sha256_hex(kept.encode()),
        job=fate.job,
        text=kept,
        code=fate.code,
        message=fate.message,
        field=fate.field,
        device=device,
        received_ms=now_ms,
    )
