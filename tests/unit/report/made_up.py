"""An invented small method and hand-made logs of its job, for reports whose words are known."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from bayleaf.canonical.digest import NO_ENTRY, entry_hash, sha256_hex
from bayleaf.canonical.form import dumps
from bayleaf.domain.entries import Entry, entry_of
from bayleaf.domain.fold import fold
from bayleaf.domain.method import method_of
from bayleaf.domain.wall_time import UTC_TIME, WallTime
from bayleaf.report.source import Arrival, Filing, PhotoHere, ReportSource, RunPlan, SheetTold

JOB = "0b000000-0000-4000-8000-000000000001"
PEOPLE = {"mara": "Mara Ilves", "oskar": "Oskar Teal", "ada": "Ada Quill", "pim": "Pim Roe"}
ROLES = {
    "mara": ["technician"],
    "oskar": ["high_voltage", "technician"],
    "ada": ["office"],
    "pim": ["photographer"],
}
DRAWING = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 300 120"><path d="M10 40H290V80H10z" fill="none" '
    b'stroke="#26322c" stroke-width="3"/></svg>'
)


METHOD: dict[str, Any] = {
    **json.loads((Path(__file__).parent / "small_method.json").read_text(encoding="utf-8")),
    "drawings": {"part": sha256_hex(DRAWING)},
}


def digest_of(method: Mapping[str, Any]) -> str:
    return sha256_hex(dumps(method).encode())


def _steps(method: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    return (step for stage in method["stages"] for step in stage["steps"])


def at(clock: str | int) -> int:
    """`3 10:02` is 2 minutes past ten of the third of November 2026, UTC, in ms; a number is ms already."""
    if isinstance(clock, int):
        return clock
    day, time = clock.split(" ")
    hour, minute = (int(part) for part in time.split(":"))
    return int(datetime(2026, 11, int(day), hour, minute, tzinfo=UTC).timestamp() * 1000)


@dataclass
class Log:
    """The log of a made-up job: each `write` adds an entry at a time of a clock on the wall."""

    entries: list[Entry] = field(default_factory=list)
    arrivals: dict[str, Arrival] = field(default_factory=dict)
    photos: dict[str, PhotoHere] = field(default_factory=dict)
    methods: list[dict[str, Any]] = field(default_factory=lambda: [METHOD])
    drawings: frozenset[str] = frozenset({sha256_hex(DRAWING)})
    last: dict[str, str] = field(default_factory=dict)
    plans: list[RunPlan] = field(default_factory=list)

    def write(
        self,
        who: str,
        when: str | int,
        kind: str,
        body: Mapping[str, Any],
        *,
        came: str = "",
        auth: str = "own",
    ) -> str:
        """The hash of the new entry; `came` is when it reached the office, at once if unsaid."""
        device = f"de000000-0000-4000-8000-{list(PEOPLE).index(who) + 1:012d}"
        seq = sum(1 for one in self.entries if one.device == device) + 1
        entry: dict[str, Any] = {
            "v": 1,
            "job": JOB,
            "device": device,
            "seq": seq,
            "by": person(who),
            "auth": auth,
            "as": ROLES[who],
            "at_ms": at(when),
            "mono_ms": 1000 * seq,
            "load": "10ad0000-0000-4000-8000-000000000001",
            "kind": kind,
            "body": dict(body),
            "prev": self.last.get(device, NO_ENTRY),
        }
        made = entry_of({**entry, "hash": entry_hash(entry)})
        self.last[device] = made.hash
        self.entries.append(made)
        self.arrivals[made.hash] = Arrival(at(came or when))
        return made.hash

    def step(self, name: str) -> dict[str, str]:
        method = next(one for one in self.methods if any(name == step["id"] for step in _steps(one)))
        return {"method": str(method["id"]), "digest": digest_of(method), "step": name}

    def open(self, **other: Any) -> None:
        opened = {
            "order": "T-7",
            "vin": "INVENTED0000000T7",
            "vehicle": "invented van",
            "part": "invented bracket",
            "side": "left",
            "invented": True,
            "over": [],
            **other,
        }
        self.write("ada", "3 08:00", "open", opened)
        self.write("ada", "3 08:01", "pin", {"methods": [digest_of(one) for one in self.methods], "over": []})

    def tick(self, who: str, when: str, step_id: str, *, came: str = "") -> str:
        body = {**self.step(step_id), "ask": "", "value": "done", "reason": "", "over": []}
        return self.write(who, when, "tick", body, came=came)

    def read(
        self,
        who: str,
        when: str,
        step_id: str,
        ask: str,
        value: int,
        *,
        point: str = "",
        over: tuple[str, ...] = (),
        decimals: int = 1,
        came: str = "",
    ) -> str:
        body = {
            **self.step(step_id),
            "ask": ask,
            "point": point,
            "value": value,
            "unit": "mm",
            "decimals": decimals,
            "over": list(over),
        }
        return self.write(who, when, "reading", body, came=came)

    def photo(
        self,
        who: str,
        when: str | int,
        step_id: str,
        slot: str,
        content: bytes,
        *,
        held: bool = True,
        kind: str = "image/jpeg",
    ) -> str:
        sha256 = sha256_hex(content)
        if held:
            self.photos[sha256] = PhotoHere(sha256, kind, len(content))
        body = {
            "sha256": sha256,
            "bytes": len(content),
            "type": kind,
            "width": 40,
            "height": 30,
            "thumb": "0" * 64,
            **self.step(step_id),
            "slot": slot,
            "position": "",
            "caption": "",
        }
        return self.write(who, when, "photo", body)

    def source(
        self,
        *,
        filed: str = "",
        reason: str = "",
        sheets: Sequence[SheetTold] = (),
        time: WallTime = UTC_TIME,
    ) -> ReportSource:
        """What a report is written from; `filed` is when, by Ada."""
        methods = {digest_of(one): method_of(one) for one in self.methods}
        newest = max(one.at_ms for one in self.entries)
        return ReportSource(
            job=JOB,
            made_ms=at(filed) if filed else newest,
            filing=Filing(at(filed), reason, person("ada")) if filed else None,
            fingerprint="0123456789abcdef" * 4,
            state=fold(methods, self.entries),
            entries=self.entries,
            methods=methods,
            people={person(who): name for who, name in PEOPLE.items()},
            devices={f"de000000-0000-4000-8000-{n:012d}": f"phone {n}" for n in range(1, 5)},
            arrivals=self.arrivals,
            photos=self.photos,
            drawings=self.drawings,
            plans=self.plans,
            sheets=sheets,
            time=time,
        )


def person(who: str) -> str:
    return f"9e500000-0000-4000-8000-{list(PEOPLE).index(who) + 1:012d}"
