"""Turns what was gathered of a job into the members of its dossier, the entries up to `file` among them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from bayleaf.canonical.digest import set_digest, sha256_hex
from bayleaf.canonical.form import NotCanonical, dumps
from bayleaf.domain import dossier
from bayleaf.domain.dossier import Member, lines_of, member_of, text_member
from bayleaf.domain.dossier_chains import irregular
from bayleaf.domain.dossier_report import ReportOf, report_text
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import FOLD_VERSION, state_digest
from bayleaf.domain.method import MethodDoc
from bayleaf.domain.state import CardState
from bayleaf.domain.wall_time import UTC_TIME, WallTime
from bayleaf.ports import LoggedEntry, RefusedText, SignedHead


@dataclass(frozen=True)
class FiledPhoto:
    """A photo whose bytes the office holds."""

    sha256: str
    type: str
    size: int


@dataclass(frozen=True)
class FiledBeside:
    """A maker's instruction or a logger's file that the job had when it was filed; `read` gives its bytes."""

    sha256: str
    name: str
    size: int
    read: Callable[[], Iterable[bytes]]


@dataclass(frozen=True)
class FiledSheet(FiledBeside):
    """A supplier's sheet that a result rests on; `withdrawn_ms` is 0 while it counts."""

    material: str
    sheet: str
    revision: str
    dated: str
    withdrawn_ms: int
    why: str


@dataclass(frozen=True)
class FiledPlan:
    """A heat plan that the job used for a zone, and from when until when; `ended_ms` is 0 while it holds.

    `zone_text` is the zone document as it was handed in, `answer` the plan's own JSON,
    `response` its response set, gzipped.
    """

    method: str
    zone: str
    digest: str
    model: str
    name: str
    pinned_ms: int
    ended_ms: int
    answer: str
    zone_text: str
    response: bytes


@dataclass(frozen=True)
class Gathered:
    """All that goes into a dossier, read from the store; the last entry is the `file` entry."""

    job: str
    log: str
    filed_ms: int
    reason: str
    logged: Sequence[LoggedEntry]
    entries: Sequence[Entry]
    heads: Sequence[SignedHead]
    refused: Sequence[RefusedText]
    cards: Mapping[str, tuple[str, str]]
    people: Mapping[str, str]
    method_texts: Mapping[str, str]
    methods: Mapping[str, MethodDoc]
    drawings: Mapping[str, bytes]
    photos: Sequence[FiledPhoto]
    photos_missing: Sequence[str]
    state: CardState
    missing: Sequence[str] = ()
    supersedes: Sequence[Mapping[str, str]] = ()
    papers: Sequence[FiledBeside] = ()
    readings: Sequence[FiledBeside] = ()
    plans: Sequence[FiledPlan] = ()
    sheets: Sequence[FiledSheet] = ()
    time: WallTime = UTC_TIME


def about_of(gathered: Gathered) -> dict[str, Any]:
    """What the dossier says of itself, for the check to find anew."""
    heads = [(head.device, head.seq, head.hash) for head in gathered.heads]
    return {
        "v": dossier.FORM,
        "job": gathered.job,
        "file": gathered.entries[-1].hash,
        "filed_ms": gathered.filed_ms,
        "reason": gathered.reason,
        "log": gathered.log,
        "fold": FOLD_VERSION,
        "set_digest": set_digest(entry.hash for entry in gathered.entries),
        "state_digest": state_digest(gathered.state),
        "photos_missing": sorted(gathered.photos_missing),
        **_where_it_says_something(gathered),
        **irregular(gathered.entries, heads),
    }


def _where_it_says_something(gathered: Gathered) -> dict[str, Any]:
    """What an incomplete job lacks, which dossiers an addendum follows in order, and files beside."""
    told = {
        "missing": list(gathered.missing),
        "supersedes": list(gathered.supersedes),
        "papers": [{"sha256": one.sha256, "name": one.name} for one in gathered.papers],
        "readings": [{"sha256": one.sha256, "name": one.name} for one in gathered.readings],
        "sheets": [{"sha256": one.sha256, "name": one.name} for one in gathered.sheets],
        "heat": [_pinned(one) for one in gathered.plans],
        "time_zone": {} if gathered.time == UTC_TIME else gathered.time.told(),
    }
    return {name: found for name, found in told.items() if found}


def payload_of(
    gathered: Gathered, fingerprint: str, photo_bytes: Callable[[str], bytes], pdf: bytes = b""
) -> tuple[dict[str, Any], list[Member]]:
    """`about.json`, and every member under data/; photos are read when they are written.

    Beside the PDF the plain report stays: it lists every entry, and needs no program to be read.
    """
    about = about_of(gathered)
    report = ReportOf(about, fingerprint, gathered.state, gathered.entries, gathered.methods, gathered.people)
    texts = {
        dossier.ABOUT: dumps(about),
        dossier.ENTRIES: "".join(f"{logged.text}\n" for logged in gathered.logged),
        dossier.ARRIVALS: lines_of(_arrival(logged) for logged in gathered.logged),
        dossier.HEADS: lines_of(_head(head) for head in sorted(gathered.heads, key=_head_order)),
        dossier.CARDS: lines_of(_card(*gathered.cards[device]) for device in sorted(gathered.cards)),
        dossier.PEOPLE: dumps({"v": dossier.FORM, "people": dict(gathered.people)}),
        dossier.REFUSED: lines_of(_refused(text) for text in gathered.refused),
        dossier.REPORT: report_text(report),
    }
    members = [text_member(name, text) for name, text in texts.items()]
    members += [member_of(dossier.REPORT_PDF, pdf)] if pdf else []
    members += _beside(gathered.papers, dossier.paper_name)
    members += _beside(gathered.readings, dossier.readings_name)
    members += _beside(gathered.sheets, dossier.sheet_name)
    members += {member.name: member for one in gathered.plans for member in _of_plan(one)}.values()
    return about, [*members, *_of_methods(gathered), *_photos(gathered.photos, photo_bytes)]


def _beside(files: Iterable[FiledBeside], name_of: Callable[[str], str]) -> Iterator[Member]:
    for one in files:
        yield Member(name_of(one.sha256), one.sha256, one.size, one.read)


def _pinned(plan: FiledPlan) -> dict[str, Any]:
    """A heat plan that the job's method used for one of its zones, from when to when."""
    document, answer, response = _of_plan(plan)
    names = ("method", "zone", "digest", "model", "pinned_ms", "ended_ms")
    return {
        **{name: getattr(plan, name) for name in names},
        "document_sha256": document.sha256,
        "answer_sha256": answer.sha256,
        "response_sha256": response.sha256,
    }


def _of_plan(plan: FiledPlan) -> tuple[Member, Member, Member]:
    document, answer, response = dossier.heat_names(sha256_hex(plan.response))
    return (
        text_member(document, plan.zone_text),
        text_member(answer, plan.answer),
        member_of(response, plan.response),
    )


def _of_methods(gathered: Gathered) -> Iterator[Member]:
    for digest, text in gathered.method_texts.items():
        yield text_member(dossier.method_name(digest), text)
    for sha256, drawing in gathered.drawings.items():
        yield member_of(dossier.drawing_name(sha256), drawing)


def _photos(photos: Iterable[FiledPhoto], photo_bytes: Callable[[str], bytes]) -> Iterator[Member]:
    for photo in photos:
        name = dossier.photo_name(photo.sha256, photo.type)
        yield Member(name, photo.sha256, photo.size, _reader(photo_bytes, photo.sha256))


def _reader(photo_bytes: Callable[[str], bytes], sha256: str) -> Callable[[], Iterable[bytes]]:
    return lambda: (photo_bytes(sha256),)


def _arrival(logged: LoggedEntry) -> dict[str, Any]:
    """When and through whom an entry came; its author's clock stands in the entry."""
    row = {"hash": logged.hash, "received_ms": logged.received_ms, "via_device": logged.via_device}
    return row if logged.offset_ms is None else {**row, "offset_ms": logged.offset_ms}


def _head_order(head: SignedHead) -> tuple[str, int, str]:
    return head.device, head.seq, head.hash


def _head(head: SignedHead) -> dict[str, Any]:
    keys = ("job", "device", "seq", "hash", "signature")
    return {key: getattr(head, key) for key in keys}


def _card(text: str, signature: str) -> dict[str, Any]:
    return {"card": text, "signature": signature}


def _refused(refused: RefusedText) -> dict[str, Any]:
    """A refused text may be what no JSON may hold; then it stands as the hex of its bytes."""
    keys = ("hash_of_text", "code", "message", "field", "device", "received_ms")
    row = {key: getattr(refused, key) for key in keys}
    for key in ("message", "field"):
        row[key] = _clean(row[key])
    try:
        dumps(refused.text)
    except NotCanonical:
        return {**row, "text_hex": refused.text.encode("utf-8", "surrogatepass").hex()}
    return {**row, "text": refused.text}


def _clean(text: str) -> str:
    return text.encode("utf-8", "replace").decode().replace("\0", "")
