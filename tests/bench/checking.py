"""How long `bayleaf dossier check` takes on a dossier of 60 photos, against `sha256sum` of the same file.

Two programs, each started anew, in turn. The check hashes every member and the whole, compares checksums and
headers, verifies signatures and folds the card anew; what its start costs alone stands beside.
"""

from __future__ import annotations

import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from statistics import median

from bayleaf.adapters.dossier_zip import write_container
from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import dumps
from bayleaf.domain.dossier import Member
from bayleaf.usecases.dossier_contents import FiledPhoto, Gathered, payload_of
from bench.figures import Figure, spread_ms
from unit.dossier.shop import JOB, METHOD, PHOTO, Shop

PHOTOS, PHOTO_BYTES, ALLOWED, RUNS = 60, 3_000_000, 1.5, 7
HASH = "import hashlib, sys; hashlib.file_digest(open(sys.argv[1], 'rb'), 'sha256')"
COMMAND = Path(sys.executable).with_name("bayleaf")


@dataclass
class PhotoShop(Shop):
    """The invented shop, which has taken many large photos."""

    photos: dict[str, bytes] = field(default_factory=dict)

    def photographs(self, count: int) -> PhotoShop:
        """Noise behind the first bytes of a JPEG: a check looks at digests, not at pictures."""
        chance = random.Random(60)
        step = {"method": "tiny", "digest": sha256_hex(dumps(METHOD).encode()), "step": "one"}
        for _ in range(count):
            content = b"\xff\xd8\xff\xe0" + chance.randbytes(PHOTO_BYTES)
            sha256 = sha256_hex(content)
            self.photos[sha256] = content
            body = {
                "sha256": sha256, "bytes": len(content), "type": "image/jpeg", "width": 4000, "height": 3000,
                "thumb": sha256_hex(sha256.encode()), **step, "slot": "seen", "position": "", "caption": "",
            }  # fmt: skip
            self.texts.append(self.mara.write("photo", body))
        return self

    def gathered(self) -> Gathered:
        """With the large photos beside the small one."""
        more = [FiledPhoto(sha256, "image/jpeg", len(content)) for sha256, content in self.photos.items()]
        small = super().gathered()
        return replace(small, photos=sorted([*small.photos, *more], key=lambda photo: photo.sha256))

    def members(self) -> list[Member]:
        """Sealed."""
        small = super().gathered().photos[0].sha256
        everything = {**self.photos, small: PHOTO}
        about, payload = payload_of(self.gathered(), self.fingerprint, lambda sha256: everything[sha256])
        return self.sealed(about, payload)


def measure() -> Figure:
    """The medians of both programs."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "dossier.zip"
        with path.open("w+b") as file:
            shop = PhotoShop()
            shop.work()
            members = shop.photographs(PHOTOS).file().members()
            write_container(file, f"bayleaf-{JOB}", members)
        size = path.stat().st_size
        times: dict[str, list[float]] = {"check": [], "sum": [], "start": [], "own": []}
        for _ in range(RUNS):
            times["check"].append(_ms([str(COMMAND), "dossier", "check", str(path)]))
            times["sum"].append(_ms(["sha256sum", str(path)]))
            times["own"].append(_ms([sys.executable, "-c", HASH, str(path)]))
            times["start"].append(_ms([str(COMMAND), "dossier", "check", "--help"]))
    return Figure(
        name=f"check of a dossier of {PHOTOS} photos ({size / 1_000_000:.0f} MB)",
        measured=spread_ms(times["check"]),
        floor=f"{spread_ms(times['sum'])} for sha256sum of the same file",
        ratio=median(times["check"]) / median(times["sum"]),
        allowed=ALLOWED,
        remarks=(
            f"of it the program's start: {spread_ms(times['start'])}",
            f"Python's own hash of the same file, with its start: {spread_ms(times['own'])}",
            f"against that: {median(times['check']) / median(times['own']):.1f} times",
        ),
    )


def _ms(words: Sequence[str]) -> float:
    began = time.perf_counter()
    subprocess.run(words, check=True, capture_output=True)
    return (time.perf_counter() - began) * 1000
