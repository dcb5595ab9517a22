"""How long report and sealed dossier of 60 photos take, against zipping and hashing the same photos.

The two shipped methods are played to the end, with 60 photos of 12 megapixels. The floor is what anybody
would do by hand: a zip of the photos as zip programs make it (deflated), and its SHA-256, synced. Beside it
stands the same for a zip that only stores.
"""

from __future__ import annotations

import hashlib
import io
import os
import resource
import tempfile
import time
import zipfile
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from PIL import Image, ImageChops

from bayleaf.adapters.dossier_folder import DossierFolder
from bayleaf.adapters.signatures import PrivateKey
from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import dumps
from bayleaf.domain import dossier
from bayleaf.domain.dossier import Member, member_of, text_member
from bayleaf.report.contents import contents_of
from bayleaf.report.typesetting import TypstTypesetter
from bayleaf.report_ports import Pictures, SetReport
from bench.figures import Figure
from unit.report.made_up import JOB, Log
from unit.report.played import rear_frame

PHOTOS, ALLOWED, RUNS = 60, 2.0, 3
MOST_S, MOST_BYTES = 5.0, 20_000_000
MB = 1_000_000
MIB = 1024 * 1024


@dataclass(frozen=True)
class Took:
    """Seconds of one run, and what came of it."""

    report_s: float
    dossier_s: float
    deflated_s: float
    stored_s: float
    report: SetReport

    @property
    def ratio(self) -> float:
        return (self.report_s + self.dossier_s) / self.deflated_s


def measure() -> Figure:
    """The run whose ratio is the median."""
    with tempfile.TemporaryDirectory() as folder:
        photos = Path(folder) / "photos"
        photos.mkdir()
        job = _job(photos)
        runs = sorted((_run(Path(folder), job) for _ in range(RUNS)), key=lambda took: took.ratio)
    middle = runs[RUNS // 2]
    return Figure(
        name=f"report and dossier of {PHOTOS} photos ({job.bytes / MB:.0f} MB)",
        measured=f"{middle.report_s + middle.dossier_s:.2f} s",
        floor=f"{middle.deflated_s:.2f} s for a deflated zip and its SHA-256",
        ratio=median(took.ratio for took in runs),
        allowed=ALLOWED,
        remarks=_remarks(middle),
    )


def _remarks(took: Took) -> tuple[str, ...]:
    size, own = len(took.report.pdf), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    in_time = "met" if took.report_s <= MOST_S else "MISSED"
    in_size = "met" if size <= MOST_BYTES else "MISSED"
    stored = (took.report_s + took.dossier_s) / took.stored_s
    return (
        f"report alone {took.report_s:.2f} s, at most {MOST_S:.0f} s: {in_time}",
        f"report {size / MB:.1f} MB, at most {MOST_BYTES // MB} MB: {in_size}",
        f"its child process held at most {took.report.peak_bytes // MIB} MiB, this process {own} MiB",
        f"a zip that only stores, and its SHA-256: {took.stored_s:.2f} s, ratio {stored:.1f}",
    )


@dataclass(frozen=True)
class Job:
    """A job with its photos on disk."""

    log: Log
    drawings: Mapping[str, bytes]
    paths: Mapping[str, Path]
    bytes: int


def _job(folder: Path) -> Job:
    """60 photos that differ: one field of noise, each time seen from another corner."""
    noise = Image.effect_noise((1600, 1200), 22).convert("RGB").resize((4000, 3000), Image.Resampling.BICUBIC)
    paths: dict[str, Path] = {}

    def made(number: int) -> bytes:
        file = io.BytesIO()
        ImageChops.offset(noise, 61 * number, 37 * number).save(file, "JPEG", quality=84)
        sha256 = sha256_hex(file.getvalue())
        paths[sha256] = folder / f"{sha256}.jpg"
        paths[sha256].write_bytes(file.getvalue())
        return file.getvalue()

    log, drawings = rear_frame(made)
    for number in range(len(paths) + 1, PHOTOS + 1):
        log.photo("pim", "6 09:00", "rem-02", "damage_wide", made(number))
    return Job(log, drawings, paths, sum(path.stat().st_size for path in paths.values()))


def _run(folder: Path, job: Job) -> Took:
    source = job.log.source(filed="20 10:00")
    begun = time.perf_counter()
    pictures = Pictures(lambda sha256: str(job.paths[sha256]), lambda _: b"", job.drawings)
    report = TypstTypesetter().typeset(contents_of(source), pictures)
    report_s = time.perf_counter() - begun
    return Took(
        report_s,
        _timed(lambda: _dossier(folder, job, report.pdf)),
        _timed(lambda: _zip(folder, job, zipfile.ZIP_DEFLATED)),
        _timed(lambda: _zip(folder, job, zipfile.ZIP_STORED)),
        report,
    )


def _timed(act: Callable[[], None]) -> float:
    begun = time.perf_counter()
    act()
    return time.perf_counter() - begun


def _dossier(folder: Path, job: Job, pdf: bytes) -> None:
    """Entries, report and photos, sealed, written and synced as filing does."""
    seal = PrivateKey.new()
    about = {"filed_ms": 0, "job": JOB, "file": "0" * 64}
    entries = "".join(f"{dumps(dict(one.body))}\n" for one in job.log.entries)
    payload = [text_member(dossier.ENTRIES, entries), member_of(dossier.REPORT_PDF, pdf)]
    payload += [
        Member(dossier.photo_name(sha256, "image/jpeg"), sha256, path.stat().st_size, _reader(path))
        for sha256, path in job.paths.items()
    ]
    members = dossier.sealed(about, payload, lambda text: dossier.seal_of(seal.public_key, seal.sign(text)))
    DossierFolder(folder / "dossiers").write("bench", dossier.bag_name(JOB), members)


def _reader(path: Path) -> Callable[[], Iterable[bytes]]:
    return lambda: (path.read_bytes(),)


def _zip(folder: Path, job: Job, method: int) -> None:
    target = folder / "floor.zip"
    with zipfile.ZipFile(target, "w", method) as made:
        for path in job.paths.values():
            made.write(path, path.name)
    with target.open("rb") as file:
        hashlib.file_digest(file, "sha256")
        os.fsync(file.fileno())
