"""How long 40 photos of 2.5 MB take to the office, against write, hash and fsync of the same bytes.

Through a demo of its own over loopback, in the phone's pieces, each synced before it is answered; the floor
writes each photo whole, hashes it and syncs it. A photo of the one comes after the same photo of the other,
so that both find the same disk. Memory: resident bytes of server and worker, shared pages counted once;
beside it the most that each held at any time of the uploads.
"""

from __future__ import annotations

import base64
import hashlib
import os
import random
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import urlsplit

from bayleaf.adapters.signatures import PrivateKey
from bench.figures import Figure, spread_ms
from bench.fsync_trace import TracedPhone
from browser.demo_server import DemoServer
from harness.pictures import PIECE, TUS, jpeg, sha

PHOTOS, PHOTO_BYTES, CHUNK_BYTES = 40, 2_500_000, 4 * 1024 * 1024
WARM_UP, ALLOWED, ALLOWED_MB = 3, 4.0, 200
MB = 1_000_000


def measure() -> Figure:
    """The sums over all photos."""
    with TemporaryDirectory() as folder:
        demo = DemoServer(Path(folder))
        demo.start()
        try:
            _forget_peaks(demo.session)
            ours, bare = _sent(TracedPhone(demo.port), Path(folder))
            held, most = _held(demo.session)
        finally:
            demo.stop()
    in_bounds = "met" if held / MB < ALLOWED_MB else "MISSED"
    each = " and ".join(f"{one / MB:.0f}" for one in most)
    return Figure(
        name=f"upload of {PHOTOS} photos of {PHOTO_BYTES / MB:.1f} MB",
        measured=f"{sum(ours):.2f} s",
        floor=f"{sum(bare):.2f} s for write, hash and fsync of the same bytes",
        ratio=sum(ours) / sum(bare),
        allowed=ALLOWED,
        remarks=(
            f"a photo {spread_ms([one * 1000 for one in ours])}",
            f"its floor {spread_ms([one * 1000 for one in bare])}",
            f"server and worker hold {held / MB:.0f} MB after it, under {ALLOWED_MB}: {in_bounds}",
            f"the most that each held meanwhile, shared pages in both: {each} MB",
        ),
    )


def _sent(phone: TracedPhone, folder: Path) -> tuple[list[float], list[float]]:
    phone.tell("/api/demo/pair", {"public_key": PrivateKey.new().public_key})
    job = phone.tell("/api/sync", _nothing())["jobs"][0]["job"]
    chance, head = random.Random(40), jpeg()
    ours, bare = [], []
    for at in range(WARM_UP + PHOTOS):
        picture = head + chance.randbytes(PHOTO_BYTES - len(head))
        ours.append(_upload(phone, job, picture))
        bare.append(_written(folder / f"bare-{at}", picture))
    return ours[WARM_UP:], bare[WARM_UP:]


def _nothing() -> dict[str, Any]:
    nothing: dict[str, Any] = {"cursors": {}, "entries": [], "heads": [], "cards": []}
    return {"protocol": 1, "log": "", "holds": {"entries": 0, "photos": 0}, **nothing}


def _upload(phone: TracedPhone, job: str, picture: bytes) -> float:
    told = {"sha256": sha(picture), "type": "image/jpeg", "job": job}
    pairs = [f"{name} {base64.b64encode(value.encode()).decode()}" for name, value in told.items()]
    begun = {**TUS, "Upload-Length": str(len(picture)), "Upload-Metadata": ",".join(pairs)}
    began = time.perf_counter()
    place = urlsplit(phone.ask("POST", "/api/photos", b"", **begun)[0]["Location"]).path
    for offset in range(0, len(picture), CHUNK_BYTES):
        headers = {**TUS, "Upload-Offset": str(offset), "Content-Type": PIECE}
        phone.ask("PATCH", place, picture[offset : offset + CHUNK_BYTES], **headers)
    return time.perf_counter() - began


def _written(path: Path, picture: bytes) -> float:
    began = time.perf_counter()
    with path.open("wb") as file:
        file.write(picture)
        hashlib.sha256(picture).hexdigest()
        file.flush()
        os.fsync(file.fileno())
    return time.perf_counter() - began


def _held(session: int) -> tuple[int, list[int]]:
    """Bytes of both processes with shared pages counted once, and the peak of resident bytes of each."""
    processes = _processes(session)
    once = sum(_bytes(process / "smaps_rollup", "Pss:") for process in processes)
    return once, [_bytes(process / "status", "VmHWM:") for process in processes]


def _forget_peaks(session: int) -> None:
    """What making the demo took is not the uploads' (proc(5), clear_refs)."""
    for process in _processes(session):
        (process / "clear_refs").write_text("5", encoding="ascii")


def _processes(session: int) -> list[Path]:
    everybody = [process for process in Path("/proc").glob("[0-9]*") if process.is_dir()]
    return [process for process in everybody if _session(process) == session]


def _session(process: Path) -> int:
    try:
        return os.getsid(int(process.name))
    except ProcessLookupError:
        return 0  # it ended meanwhile


def _bytes(file: Path, name: str) -> int:
    lines = file.read_text(encoding="utf-8").splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith(name)) * 1024
