"""A card of 2,000 entries for measurements, with 300 photos in its slots where they are asked for."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from contextlib import redirect_stdout
from pathlib import Path
from typing import Any

from bayleaf import demo_plan as plan
from bayleaf.app import open_parts
from bayleaf.canonical.digest import sha256_hex
from bayleaf.config import Config
from bayleaf.demo import NOTE, prepare_demo
from bayleaf.http.parts import Parts
from bayleaf.ports import LoggedEntry
from bayleaf.usecases.import_methods import import_methods
from bayleaf.usecases.open_job import NewJob, open_job
from bayleaf.usecases.write_office_entry import Draft, write_office_entries

ENTRIES, PHOTOS = 2_000, 300
ORDER = "LONG-1"
PLAIN_STEPS = 60
MEASURED_STEPS = 40
POINTS = ("p1", "p2", "p3", "p4", "p5")
ROUNDS = 8
METHOD = "plain-steps"


def make_photo_card(data: Path) -> None:
    """The same with 300 photos among the entries; their bytes lie nowhere, as on a phone that took none."""
    make_long_card(data, PHOTOS)


def make_long_card(data: Path, photos: int = 0) -> None:
    """A demo in `data` with one more job, of 2,000 entries; so many of them photos."""
    with redirect_stdout(io.StringIO()):
        prepare_demo(data, fresh=False, practice=True)
    people = json.loads((data / NOTE).read_text(encoding="utf-8"))["people"]
    parts = open_parts(Config(data=data))
    _open(parts, people[plan.OFFICE.name], people[plan.TECHNICIAN.name], photos)
    parts.close()


def _open(parts: Parts, clerk_id: str, technician: str, photos: int) -> None:
    yaml = json.dumps(_method(with_photos=photos > 0))
    method = import_methods(parts.office.methods, parts.office.clock, yaml, {})[0]
    clerk = parts.doors.people.find(clerk_id)
    assert clerk is not None
    new = NewJob(
        order=ORDER, vin="", vehicle="invented van", part="invented bracket", side="none", place="",
        invented=True, methods=[method.digest], people=[technician],
    )  # fmt: skip
    job = open_job(parts.office, clerk, new)
    with parts.office.log.reading() as log:
        there = len(log.hashes(job))
    pictures = list(_photos(method.digest, photos))
    write_office_entries(parts.office, job, clerk_id, pictures)
    _fill(parts, job, clerk_id, method.digest, ENTRIES - there - len(pictures))


def _photos(digest: str, count: int) -> Iterator[Draft]:
    """Step after step, so that each slot holds some."""
    for at in range(count):
        sha256, thumb = (sha256_hex(f"{what} {at}".encode()) for what in ("photo", "thumb"))
        size = {"bytes": 2_500_000, "type": "image/jpeg", "width": 4000, "height": 3000}
        place = {**_step(digest, at % MEASURED_STEPS), "slot": "seen", "position": "", "caption": ""}
        yield Draft("photo", {"sha256": sha256, **size, "thumb": thumb, **place})


def _fill(parts: Parts, job: str, clerk: str, digest: str, wanted: int) -> None:
    """Readings round after round, each over the one before it; a tick for each step; notes for the rest."""
    shown: dict[tuple[str, str], str] = {}
    written = 0
    for _ in range(ROUNDS):
        drafts = list(_readings(digest, shown))
        entries = write_office_entries(parts.office, job, clerk, drafts)
        shown = dict(zip(_places(), _hashes(entries), strict=True))
        written += len(entries)
    rest = [Draft("tick", {**_step(digest, at), "ask": "", "value": "done", "reason": "", "over": []})
            for at in range(MEASURED_STEPS)]  # fmt: skip
    note = {"text": "Invented remark.", "method": "", "digest": "", "step": "", "about": []}
    rest += [Draft("note", note)] * (wanted - written - len(rest))
    write_office_entries(parts.office, job, clerk, rest)


def _hashes(entries: list[LoggedEntry]) -> list[str]:
    return [entry.hash for entry in entries]


def _places() -> Iterator[tuple[str, str]]:
    return ((_step_id(at), point) for at in range(MEASURED_STEPS) for point in POINTS)


def _readings(digest: str, shown: dict[tuple[str, str], str]) -> Iterator[Draft]:
    for at in range(MEASURED_STEPS):
        for point in POINTS:
            over = [shown[_step_id(at), point]] if shown else []
            amount = {"value": 120 + at, "unit": "mm", "decimals": 1}
            yield Draft(
                "reading", {**_step(digest, at), "ask": "gap", "point": point, **amount, "over": over}
            )


def _step(digest: str, at: int) -> dict[str, Any]:
    return {"method": METHOD, "digest": digest, "step": _step_id(at)}


def _step_id(at: int) -> str:
    return f"s-{at:03}"


def _method(*, with_photos: bool) -> dict[str, Any]:
    """JSON is YAML too."""
    gap = {
        "ask": "reading", "id": "gap", "name": "gap", "unit": "mm", "decimals": 1,
        "plausible": [0, 100], "repeat": [{"id": point, "name": point} for point in POINTS],
    }  # fmt: skip
    seen = {"ask": "photo", "id": "seen", "name": "seen", "show": "the gap with its gauge"}
    asks = [gap, seen] if with_photos else [gap]
    steps = [
        {"id": _step_id(at), "title": f"Step {at}", "do": "Invented.", "asks": asks}
        if at < MEASURED_STEPS
        else {"id": _step_id(at), "title": f"Step {at}", "do": "Invented."}
        for at in range(MEASURED_STEPS + PLAIN_STEPS)
    ]
    stage = {"id": "all", "title": "All", "steps": steps}
    method = {"id": METHOD, "title": "Plain steps", "revision": "bench-1", "stages": [stage]}
    return {"scenario": {"invented": True}, "methods": [method]}
