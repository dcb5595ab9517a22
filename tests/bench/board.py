"""The board, a job's line and the list of the filed, beside 1,000, 10,000 and 100,000 filed jobs.

Figure: the quickest look in each of the two larger shops over the quickest in the smallest; allowed 1.5. The
shops are looked at in turn, and the quickest is taken, since whatever else the machine does only adds.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from sqlalchemy import insert

from bayleaf.adapters.database import open_engine, writing
from bayleaf.adapters.tables import filed, filed_word, job
from bayleaf.app import open_parts
from bayleaf.config import Config
from bayleaf.http.parts import Parts
from bayleaf.usecases.filed_list import Asked, filed_of_job, late_jobs, search_filed
from bayleaf.usecases.open_job import NewJob, open_job
from bayleaf.usecases.people import PersonChange, add_person
from bench.figures import Figure, spread_ms

SHOPS = (1_000, 10_000, 100_000)
OPEN = 5
ROUNDS = 41
ALLOWED = 1.5
EVER = 2**53 - 1
AT_ONCE = 10_000


Acts = dict[str, Callable[[], object]]


def measure() -> Figure:
    """Each act at each size; the worst growth decides."""
    with tempfile.TemporaryDirectory() as folder:
        shops = {size: _shop(Path(folder) / str(size), size) for size in SHOPS}
        told = _looked_at({size: _acts(*shop) for size, shop in shops.items()})
        for parts, _ in shops.values():
            parts.close()
    acts = list(told[SHOPS[0]])
    growth = {
        (act, size): min(told[size][act]) / min(told[SHOPS[0]][act]) for size in SHOPS[1:] for act in acts
    }
    act, size = max(growth, key=lambda key: growth[key])
    return Figure(
        "board with many filed jobs",
        f"{act} with {size} filed {min(told[size][act]):.1f} ms",
        f"with {SHOPS[0]} filed {min(told[SHOPS[0]][act]):.1f} ms",
        growth[act, size],
        ALLOWED,
        tuple(f"{one}, {many} filed: {spread_ms(told[many][one])}" for many in SHOPS for one in acts),
    )


def _looked_at(shops: dict[int, Acts]) -> dict[int, dict[str, list[float]]]:
    told: dict[int, dict[str, list[float]]] = {
        size: {act: [] for act in acts} for size, acts in shops.items()
    }
    for at in range(ROUNDS):
        for size, acts in shops.items():
            for name, act in acts.items():
                took_ms = _ms(act)
                if at > 0:  # the first fills what is kept
                    told[size][name].append(took_ms)
    return told


def _shop(data: Path, size: int) -> tuple[Parts, str]:
    parts = open_parts(Config(data=data))
    ada = add_person(parts.doors, PersonChange(name="Ada Quill", roles=("office",)), 1)
    opened = [open_job(parts.office, ada, NewJob(f"O-{at}", part="frame")) for at in range(OPEN)]
    _file_many(data, size)
    return parts, opened[0]


def _acts(parts: Parts, job_id: str) -> Acts:
    office, filing = parts.office, parts.filing
    return {
        "board": lambda: (parts.board.rows(office), late_jobs(office, filing)),
        "line of a job": lambda: filed_of_job(office, filing, job_id),
        "first page of the filed": lambda: search_filed(office, filing, Asked("", 0, EVER, "")),
        "one lot of the filed": lambda: search_filed(office, filing, Asked("kl77b", 0, EVER, "")),
    }


def _ms(act: Callable[[], object]) -> float:
    began = time.perf_counter()
    act()
    return (time.perf_counter() - began) * 1000


def _file_many(data: Path, size: int) -> None:
    """As rows, without their entries and dossiers: neither list reads those."""
    engine = open_engine(Config(data=data).database)
    for first in range(0, size, AT_ONCE):
        some = range(first, min(first + AT_ONCE, size))
        with writing(engine) as connection:
            connection.execute(insert(job), [_job(at) for at in some])
            connection.execute(insert(filed), [_line(at) for at in some])
            connection.execute(insert(filed_word), [row for at in some for row in _words(at)])
    engine.dispose()


def _job(at: int) -> dict[str, object]:
    return {"id": f"job-{at}", "count": 9, "order": f"F-{at}", "part": "frame", "made_ms": at, "filed_ms": at}


def _line(at: int) -> dict[str, object]:
    known = {"file_hash": "f" * 64, "sha256": "5" * 64, "seal_fingerprint": "5e" * 32, "reason": ""}
    return {"id": f"dossier-{at}", "job": f"job-{at}", "filed_ms": at, "file_number": 9, **known}


def _words(at: int) -> list[dict[str, object]]:
    lot = "kl77b" if at == 0 else f"kl{at + 100}c"
    told = (("order", f"f{at}"), ("part", "frame"), ("lot", lot), ("vin", f"0bayleaf{at:09}"))
    return [{"dossier": f"dossier-{at}", "field": field, "word": word, "said": word} for field, word in told]
