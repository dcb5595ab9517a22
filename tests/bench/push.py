"""How long a push of 5,000 entries takes, against bare sqlite3 inserts of the same rows.

Both in batches of 500 with `synchronous=FULL`, into tables with the same indexes, a batch of the one after a
batch of the other, so that both find the same disk. The push goes through the whole app: login, gzip, JSON,
signature, canonical form, hashes, schemas, fates, commit, answer.
"""

from __future__ import annotations

import gzip
import json
import sqlite3
import tempfile
import time
from dataclasses import asdict, dataclass
from pathlib import Path
from statistics import median
from typing import Any

from bench.figures import Figure
from harness.at_work import Shop, writer_of
from harness.server import bench

ENTRIES, BATCH, ALLOWED, RUNS = 5_000, 500, 6.0, 5

Row = tuple[Any, ...]


@dataclass(frozen=True)
class Took:
    """Seconds for all batches."""

    push_s: float
    bare_s: float

    @property
    def ratio(self) -> float:
        return self.push_s / self.bare_s


def measure() -> Figure:
    """The run whose ratio is the median."""
    runs = sorted((_run() for _ in range(RUNS)), key=lambda took: took.ratio)
    middle = runs[RUNS // 2]
    ratios = ", ".join(f"{took.ratio:.1f}" for took in runs)
    return Figure(
        name=f"push of {ENTRIES} entries in batches of {BATCH}",
        measured=f"{middle.push_s:.3f} s",
        floor=f"{middle.bare_s:.3f} s for sqlite3 inserts of the same rows",
        ratio=median(took.ratio for took in runs),
        allowed=ALLOWED,
        remarks=(f"ratios of {RUNS} runs: {ratios}",),
    )


def _run() -> Took:
    with tempfile.TemporaryDirectory() as folder:
        server = bench(Path(folder) / "data")
        phone = server.phone("technician")
        shop = Shop(server, phone, writer_of(server, phone, "technician"), server.job("technician"))
        stored = sqlite3.connect(Path(folder) / "data" / "bayleaf.sqlite3")
        bare = _bare_store(Path(folder) / "bare.sqlite3", _definitions(stored))
        push_s = bare_s = 0.0
        for request in requests_of(shop):
            push_s += _timed_push(shop, request)
            bare_s += _timed_inserts(bare, _newest_rows(stored, phone.device))
        assert bare.execute("SELECT count(*) FROM entry").fetchone() == (ENTRIES,)
        server.close()
        stored.close()
        bare.close()
    return Took(push_s, bare_s)


def bodies() -> list[tuple[str, dict[str, Any]]]:
    """A mixed card: ticks, readings, rivets, texts."""
    step = {"method": "spine", "digest": "a" * 64, "step": "look"}
    reading = {**step, "ask": "gap", "point": "p1", "value": 412, "unit": "mm", "decimals": 2, "over": []}
    return [
        ("tick", {**step, "ask": "", "value": "done", "reason": "", "over": ["b" * 64]}),
        ("reading", reading),
        ("tally", {"position": "H1", "generation": 0, "state": "shank_out"}),
        ("text", {**step, "ask": "seen", "point": "", "value": "Clean, no cracks.", "over": []}),
    ]


def requests_of(shop: Shop) -> list[bytes]:
    """The ten requests, made before the clock runs: making them is the phone's work."""
    kinds = bodies()
    found = []
    for start in range(0, ENTRIES, BATCH):
        texts = [shop.writer.write(shop.job, *kinds[at % len(kinds)]) for at in range(BATCH)]
        asked = {
            "protocol": 1, "log": "", "cursors": {shop.job: start + 3}, "entries": texts,
            "heads": [asdict(shop.writer.head(shop.job))], "cards": [],
            "holds": {"entries": ENTRIES - start, "photos": 0}, "reports": [],
        }  # fmt: skip
        found.append(gzip.compress(json.dumps(asked).encode(), 5))
    return found


def _timed_push(shop: Shop, request: bytes) -> float:
    headers = {"Content-Encoding": "gzip", "Accept-Encoding": "gzip"}
    began = time.perf_counter()
    answer = shop.phone.client.post(
        "/api/sync", data=request, headers=headers, content_type="application/json"
    )
    took_s = time.perf_counter() - began
    assert answer.status_code == 200, answer.text
    fates = json.loads(gzip.decompress(answer.data))["fates"]
    assert [fate["fate"] for fate in fates] == ["taken"] * BATCH
    return took_s


def _newest_rows(stored: sqlite3.Connection, device: str) -> list[Row]:
    """The batch that the server has just stored."""
    newest = "SELECT * FROM entry WHERE device = ? ORDER BY number DESC LIMIT ?"
    return stored.execute(newest, (device, BATCH)).fetchall()[::-1]


def _definitions(stored: sqlite3.Connection) -> list[str]:
    """The table of entries and its indexes."""
    made = stored.execute("SELECT sql FROM sqlite_master WHERE tbl_name = 'entry' AND sql IS NOT NULL")
    return [str(definition) for (definition,) in made]


def _bare_store(path: Path, definitions: list[str]) -> sqlite3.Connection:
    bare = sqlite3.connect(path, isolation_level=None)
    bare.execute("PRAGMA journal_mode=WAL")
    bare.execute("PRAGMA synchronous=FULL")
    for definition in definitions:
        bare.execute(definition)
    return bare


def _timed_inserts(bare: sqlite3.Connection, rows: list[Row]) -> float:
    marks = ", ".join("?" * len(rows[0]))
    began = time.perf_counter()
    bare.execute("BEGIN IMMEDIATE")
    bare.executemany(f"INSERT INTO entry VALUES ({marks})", rows)  # noqa: S608  (marks are question marks)
    bare.execute("COMMIT")
    return time.perf_counter() - began
