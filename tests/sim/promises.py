"""What a simulated shop promises: at every step, and once the network is back and all have synced."""

from __future__ import annotations

import hashlib
import json

from bayleaf.canonical.digest import set_digest, value_digest
from bayleaf.domain.state import CardState
from bayleaf.usecases.sync import jobs_of
from sim import oracle, proofs, state_digest
from sim.asking import Request
from sim.phone import Phone
from sim.phone_store import EntryRow
from sim.world import Broken, World


def check_step(world: World) -> None:
    """At any moment."""
    _numbers_have_no_gap(world)
    _photos_are_what_they_are_called(world)
    for phone in world.phones:
        _acknowledged_is_on_disk(world, phone)
        _nothing_is_skipped(world, phone)


def check_end(world: World) -> None:
    """After everybody has synced in peace."""
    check_step(world)
    _nothing_is_missing(world)
    for job in world.jobs():
        rows = world.logged(job)
        state = _state_of(world, rows)
        _server_agrees_with_itself(world, job, rows, state)
        _chains_verify(world, job, rows, state)
        for phone in _phones_on(world, job):
            _same_on(world, phone, job, rows, state)
    for phone in world.active():
        _nothing_waits(phone)
        _nothing_stays_unsigned(world, phone)
        _photos_arrived(world, phone)
        _no_state_differed(world, phone)


def is_told_of_put_back(world: World, request: Request) -> bool:
    """Whether this sync shows a server what it lacks: a cursor beyond its count, or a head of its own."""
    if request.path != "/api/sync" or request.json is None or request.token == "":
        return False
    log = world.server.disk.log.on_disk
    rows = {job: log.job(job) for job in request.json["cursors"]}
    counts = {job: row.count if row is not None else 0 for job, row in rows.items()}
    beyond = any(at > counts[job] for job, at in request.json["cursors"].items())
    own = [head for head in request.json["heads"] if head["device"] == log.current]
    return (beyond and request.json["log"] == log.log()) or bool({h["hash"] for h in own} - log.places.keys())


def _require(kept: bool, said: str) -> None:
    if not kept:
        raise Broken(said)


def _numbers_have_no_gap(world: World) -> None:
    log = world.server.disk.log.on_disk
    for row in log.jobs():
        entries = log.after(row.id, 0, 10**9)
        numbers = [entry.number for entry in entries]
        _require(numbers == list(range(1, row.count + 1)), f"job {row.id[:4]}: numbers {numbers}")
        hashes = {entry.hash for entry in entries}
        _require(len(hashes) == len(numbers), f"job {row.id[:4]}: an entry is counted twice")


def _photos_are_what_they_are_called(world: World) -> None:
    for sha256, content in world.server.disk.photos.contents.items():
        found = hashlib.sha256(content).hexdigest()
        _require(found == sha256, f"photo {sha256[:6]} is stored with the bytes of {found[:6]}")


def _acknowledged_is_on_disk(world: World, phone: Phone) -> None:
    """What the phone says is at the office is there, but for what a put-back took away."""
    log = world.server.disk.log.on_disk
    kept_raw = {json.loads(text.text).get("hash") for text in log.refused_texts.values()}
    for found in phone.store.entries.keys() - phone.store.outbox.keys() - world.lost - log.places.keys():
        is_kept_raw = phone.store.is_refused(found) and (found in kept_raw or world.was_put_back)
        _require(is_kept_raw, f"{phone.name} believes {found[:6]} to be at the office, and it is not")


def _nothing_is_skipped(world: World, phone: Phone) -> None:
    """All numbers up to the cursor are here; after a put-back numbers may mean others until reconciled."""
    log = world.server.disk.log.on_disk
    if world.was_put_back or phone.store.settings.get("log") != log.log():
        return
    for row in phone.store.jobs.values():
        missing = {entry.hash for entry in log.after(row.job, 0, row.cursor)} - phone.store.entries.keys()
        said = f"{phone.name} counts to {row.cursor} in {row.job[:4]} and lacks {sorted(missing)[:3]}"
        _require(row.let_go or not missing, said)
        known = log.job(row.job)
        _require(row.cursor <= (known.count if known else 0), f"{phone.name} counts beyond the log")


def _nothing_is_missing(world: World) -> None:
    log = world.server.disk.log.on_disk
    raw = {json.loads(text.text).get("hash") for text in log.refused_texts.values()}
    refused = {one for phone in world.phones for one in phone.store.fates if phone.store.is_refused(one)}
    missing = world.must - log.places.keys() - raw - refused - _known_only_elsewhere(world)
    _require(not missing, f"lost: {sorted(one[:6] for one in missing)}")


def _known_only_elsewhere(world: World) -> set[str]:
    """A limit that is known: what the office itself wrote and lost, and only phones off the job still hold.

    If the office writes on in that job before any phone speaks, those phones see no difference. Nor does a
    phone restored from a backup and off the job, of whose forked chain the server kept the longer end.
    """
    if not world.was_put_back:
        return set()
    phones = {phone.device for phone in world.phones}
    off: set[str] = set()
    on: set[str] = set()
    for phone in world.phones:
        for row in phone.store.entries.values():
            job = phone.store.jobs.get(row.job)
            is_on = phone.state == "paired" and job is not None and not job.gone
            is_own = row.device in phones and not world.traits.restores
            (on if is_on or is_own else off).add(row.hash)
    return off - on


def _state_of(world: World, rows: list[EntryRow]) -> CardState:
    texts = world.server.office.methods.texts(world.server.office.methods.digests())
    return state_digest.state_of(texts, [row.text for row in rows])


def _server_agrees_with_itself(world: World, job: str, rows: list[EntryRow], state: CardState) -> None:
    """The server's own fold, the phones' and the slow one say the same; what is set aside is not folded."""
    office = world.server.office
    log = world.server.disk.log.on_disk
    sets, states = office.digests.of(log, office.methods, job, len(rows))
    _require(sets == set_digest(row.hash for row in rows), f"job {job[:4]}: the server's set_digest is wrong")
    if states:
        _require(states == value_digest(state), f"job {job[:4]}: the server folds to another state")
    faults = oracle.faults_of(state, [state_digest.entry(row.text) for row in rows])
    _require(not faults, f"job {job[:4]}: {'; '.join(faults)}")
    marked = {mark.hash for mark in log.asides(job) if not mark.admitted} & {row.hash for row in rows}
    _require(set(state["aside"]) == marked, f"job {job[:4]}: the marks differ from what is set aside")
    forks = _forks(rows, state)
    named = {tuple(one["hashes"]) for one in state["findings"] if one["code"] == "fork"}
    _require(named == forks, f"job {job[:4]}: forks {forks}, found {named}")


def _forks(rows: list[EntryRow], state: CardState) -> set[tuple[str, ...]]:
    places: dict[tuple[str, int], set[str]] = {}
    for row in rows:
        if row.hash not in state["aside"]:
            places.setdefault((row.device, row.seq), set()).add(row.hash)
    return {tuple(sorted(one)) for one in places.values() if len(one) > 1}


def _chains_verify(world: World, job: str, rows: list[EntryRow], state: CardState) -> None:
    """Every entry that is folded is covered by a valid signed head, at the server."""
    heads = [vars(head) for head in world.server.disk.log.on_disk.heads(job)]
    bare = proofs.uncovered(world, rows, heads) - set(state["aside"]) - proofs.let_in_by_hand(rows)
    _require(not bare, f"job {job[:4]}: no signed head covers {sorted(one[:6] for one in bare)}")


def _phones_on(world: World, job: str) -> list[Phone]:
    now_ms = world.clock.now_ms()
    log = world.server.disk.log.on_disk
    return [phone for phone in world.active() if job in jobs_of(log, phone.person, now_ms)]


def _same_on(world: World, phone: Phone, job: str, rows: list[EntryRow], state: CardState) -> None:
    row = phone.store.jobs.get(job)
    _require(row is not None, f"{phone.name} has never heard of its job {job[:4]}")
    if row is None or row.let_go:
        return
    here, there = {link.hash for link in phone.store.links(job)}, {one.hash for one in rows}
    _require(
        here == there,
        f"{phone.name}, job {job[:4]}: lacks {_short(there - here)}, alone has {_short(here - there)}",
    )
    _require(row.cursor == len(rows), f"{phone.name}, job {job[:4]}: cursor {row.cursor} of {len(rows)}")
    named = state_digest.methods_named(state_digest.entry(row.text) for row in rows)
    if named <= phone.store.methods.keys() and named <= set(world.server.office.methods.digests()):
        ours = value_digest(state_digest.state_of(phone.store.methods, [one.text for one in rows]))
        _require(ours == value_digest(state), f"{phone.name}, job {job[:4]}: another state")
    heads = [dict(head) for head in phone.store.signed_heads.values() if head["job"] == job]
    bare = proofs.uncovered(world, rows, heads) - set(state["aside"]) - proofs.let_in_by_hand(rows)
    _require(not bare, f"{phone.name}, job {job[:4]}: holds no proof of {_short(bare)}")


def _short(hashes: set[str]) -> list[str]:
    return sorted(one[:6] for one in hashes)


def _nothing_waits(phone: Phone) -> None:
    _require(not phone.store.outbox, f"{phone.name}: {len(phone.store.outbox)} entries still wait")
    _require(not phone.store.heads_owed, f"{phone.name}: still owes signed heads")


def _nothing_stays_unsigned(world: World, phone: Phone) -> None:
    """A phone makes up for what a refused entry cut off; one restored from a backup may not know of it.

    Nor one whose proof was lost with a put-back, once another phone has handed in the entry.
    """
    if world.traits.forgets or world.traits.restores or world.was_put_back:
        return
    log = world.server.disk.log.on_disk
    for job in world.jobs():
        unsigned = {one.hash for one in log.asides(job) if one.code == "unsigned" and not one.admitted}
        rows = log.by_hashes(job, unsigned)
        mine = {row.hash for row in rows if row.device == phone.device and not row.signed}
        _require(not mine, f"{phone.name}: {_short(mine)} stay unsigned")


def _photos_arrived(world: World, phone: Phone) -> None:
    """Photos whose entry is at the office, and whose bytes this phone holds, are at the office too."""
    at_office = {
        row.parsed["body"]["sha256"]
        for row in phone.store.entries.values()
        if row.kind == "photo" and row.hash in world.server.disk.log.on_disk.places
    }
    for sha256, row in phone.store.photos.items():
        if sha256 in at_office and sha256 in phone.store.photo_bytes:
            here = sha256 in world.server.disk.photos.stored
            _require(here, f"{phone.name}: photo {sha256[:6]} ({row.where}) is not at the office")


def _no_state_differed(world: World, phone: Phone) -> None:
    for report in phone.reports_made:
        _require(report.what != "state", f"{phone.name}: states differed over one set, in {report.job[:4]}")
        _require("no end" not in report.theirs, f"{phone.name}: a reconcile did not end")
    said = [line.text for line in world.server.disk.office_log.held if "state" in line.text]
    _require(not said, f"the office was told: {said[:1]}")
