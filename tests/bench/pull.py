"""How long a phone's first pull of 5,000 entries takes, against a bare select and gzip of the same rows.

Both in the same pages, page after page in turn: the pull goes through the whole app (login, query, chain
heads, cards, JSON, gzip); the floor selects texts and times with sqlite3 alone and gzips them as JSON.
"""

from __future__ import annotations

import gzip
import json
import sqlite3
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bayleaf.http.zipped import LEVEL
from bayleaf.usecases.job_reading import MOST
from bench.figures import Figure
from bench.push import BATCH, ENTRIES, requests_of
from harness.at_work import Shop, writer_of
from harness.server import Phone, bench

ALLOWED, RUNS = 4.0, 9
OPENING = 3
"""Entries that the office wrote to open the job."""
SELECT = """SELECT number, text, received_ms, offset_ms FROM entry
            WHERE job = ? AND number > ? ORDER BY number LIMIT ?"""


@dataclass(frozen=True)
class Took:
    """Seconds for all pages."""

    pull_s: float
    bare_s: float

    @property
    def ratio(self) -> float:
        return self.pull_s / self.bare_s


def measure() -> Figure:
    """The run whose ratio is the median."""
    with tempfile.TemporaryDirectory() as folder:
        server = bench(Path(folder) / "data")
        writing = server.phone("technician")
        shop = Shop(server, writing, writer_of(server, writing, "technician"), server.job("technician"))
        for request in requests_of(shop):
            headers = {"Content-Encoding": "gzip"}
            pushed = writing.client.post(
                "/api/sync", data=request, headers=headers, content_type="application/json"
            )
            assert pushed.status_code == 200, pushed.text
        bare = sqlite3.connect(Path(folder) / "data" / "bayleaf.sqlite3")
        fresh = server.phone("technician")
        _run(fresh, bare, shop.job)  # the first fills caches of both
        runs = sorted((_run(fresh, bare, shop.job) for _ in range(RUNS)), key=lambda took: took.ratio)
        bare.close()
        server.close()
    middle = runs[RUNS // 2]
    ratios = ", ".join(f"{took.ratio:.2f}" for took in runs)
    return Figure(
        name=f"pull of {ENTRIES} entries in pages of {MOST}",
        measured=f"{middle.pull_s * 1000:.0f} ms",
        floor=f"{middle.bare_s * 1000:.0f} ms for a bare select and gzip of the same rows",
        ratio=middle.ratio,
        allowed=ALLOWED,
        remarks=(f"ratios of {RUNS} runs: {ratios}", f"pushed before in batches of {BATCH}"),
    )


def _run(phone: Phone, bare: sqlite3.Connection, job: str) -> Took:
    log, cursor, more, came, pull_s, bare_s = "", 0, True, 0, 0.0, 0.0
    while more:
        took_s, told = _pulled(phone, log, {job: cursor} if cursor else {})
        log, found = told["log"], next(one for one in told["jobs"] if one["job"] == job)
        pull_s += took_s
        bare_s += _selected(bare, job, cursor, len(found["entries"]))
        came += len(found["entries"])
        cursor, more = found["cursor"], found["more"]
    assert came == ENTRIES + OPENING, came
    return Took(pull_s, bare_s)


def _pulled(phone: Phone, log: str, cursors: dict[str, int]) -> tuple[float, dict[str, Any]]:
    asked = {
        "protocol": 1, "log": log, "cursors": cursors, "entries": [], "heads": [],
        "cards": [], "holds": {"entries": 0, "photos": 0}, "reports": [],
    }  # fmt: skip
    began = time.perf_counter()
    answer = phone.client.post("/api/sync", json=asked, headers={"Accept-Encoding": "gzip"})
    took_s = time.perf_counter() - began
    assert answer.status_code == 200, answer.text
    return took_s, json.loads(gzip.decompress(answer.data))


def _selected(bare: sqlite3.Connection, job: str, cursor: int, most: int) -> float:
    began = time.perf_counter()
    rows = bare.execute(SELECT, (job, cursor, most)).fetchall()
    gzip.compress(json.dumps(rows).encode(), LEVEL, mtime=0)
    took_s = time.perf_counter() - began
    assert len(rows) == most
    return took_s
