"""How long a push of 5,000 entries takes, against bare sqlite3 inserts of the same rows.

Both in batches of 500 with `synchronous=FULL`, into tables with the same indexes, in one run. The push goes
through the whole app: login, gzip, JSON, signature, canonical form, hashes, schemas, fates, commit, answer.
"""

from __future__ import annotations

import gzip
import json
import sqlite3
import sys
import tempfile
import time
from dataclasses import asdict
from pathlib import Path
from statistics import median
from typing import Any

sys.path[:0] = [str(Path(__file__).parents[1])]

from harness.at_work import Shop, writer_of  # noqa: E402
from harness.server import bench  # noqa: E402

ENTRIES, BATCH, ALLOWED, RUNS = 5_000, 500, 6.0, 3


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


def push(shop: Shop, request: bytes) -> bytes:
    """The answer as it came."""
    headers = {"Content-Encoding": "gzip", "Accept-Encoding": "gzip"}
    answer = shop.phone.client.post(
        "/api/sync", data=request, headers=headers, content_type="application/json"
    )
    assert answer.status_code == 200, answer.text
    return bytes(answer.data)


def requests_of(shop: Shop) -> list[bytes]:
    """The ten requests, made before the clock runs: making them is the phone's work."""
    kinds = bodies()
    found = []
    with shop.server.parts.office.log.reading() as reading:
        log = reading.log()
    for start in range(0, ENTRIES, BATCH):
        texts = [shop.writer.write(shop.job, *kinds[at % len(kinds)]) for at in range(BATCH)]
        asked = {
            "protocol": 1, "log": log, "cursors": {shop.job: start + 4}, "entries": texts,
            "heads": [asdict(shop.writer.head(shop.job))], "cards": [],
            "holds": {"entries": ENTRIES - start, "photos": 0}, "reports": [],
        }  # fmt: skip
        found.append(gzip.compress(json.dumps(asked).encode(), 5))
    return found


def time_push(folder: Path) -> tuple[float, list[tuple[Any, ...]], list[str]]:
    """Seconds, and the rows and table definitions that came of it."""
    server = bench(folder / "data")
    phone = server.phone("technician")
    shop = Shop(server, phone, writer_of(server, phone, "technician"), server.job("technician"))
    requests = requests_of(shop)
    began = time.perf_counter()
    answers = [push(shop, request) for request in requests]
    took = time.perf_counter() - began
    for answer in answers:
        fates = json.loads(gzip.decompress(answer))["fates"]
        assert {fate["fate"] for fate in fates} == {"taken"}
    server.close()
    with sqlite3.connect(folder / "data" / "bayleaf.sqlite3") as plain:
        rows = plain.execute("SELECT * FROM entry WHERE device = ?", (phone.device,)).fetchall()
        made = plain.execute("SELECT sql FROM sqlite_master WHERE tbl_name = 'entry' AND sql IS NOT NULL")
        definitions = [line for (line,) in made]
    plain.close()
    assert len(rows) == ENTRIES
    return took, rows, definitions


def time_bare(folder: Path, rows: list[tuple[Any, ...]], definitions: list[str]) -> float:
    """The same rows by sqlite3 alone."""
    plain = sqlite3.connect(folder / "bare.sqlite3", isolation_level=None)
    plain.execute("PRAGMA journal_mode=WAL")
    plain.execute("PRAGMA synchronous=FULL")
    for definition in definitions:
        plain.execute(definition)
    marks = ", ".join("?" * len(rows[0]))
    began = time.perf_counter()
    for start in range(0, ENTRIES, BATCH):
        plain.execute("BEGIN IMMEDIATE")
        plain.executemany(f"INSERT INTO entry VALUES ({marks})", rows[start : start + BATCH])  # noqa: S608
        plain.execute("COMMIT")
    took = time.perf_counter() - began
    plain.close()
    return took


def measure() -> dict[str, float]:
    """Medians of a few runs, and their ratio."""
    pushes, bares = [], []
    for _ in range(RUNS):
        with tempfile.TemporaryDirectory() as folder:
            took, rows, definitions = time_push(Path(folder))
            pushes.append(took)
            bares.append(time_bare(Path(folder), rows, definitions))
    return {"push_s": median(pushes), "bare_s": median(bares), "ratio": median(pushes) / median(bares)}


def main() -> int:
    """Prints the figures; 1 if the ratio is above what is allowed."""
    found = measure()
    print(
        f"push of {ENTRIES} entries: {found['push_s']:.3f} s, bare inserts {found['bare_s']:.3f} s, "
        f"{found['ratio']:.1f} times; allowed {ALLOWED:.0f}"
    )
    return 0 if found["ratio"] <= ALLOWED else 1


if __name__ == "__main__":
    sys.exit(main())
