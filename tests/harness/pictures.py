"""Invented pictures, and a phone's way of sending them."""

from __future__ import annotations

import base64
import hashlib
import io
import random
from dataclasses import dataclass

from flask.testing import FlaskClient
from PIL import Image
from werkzeug.test import TestResponse

TUS = {"Tus-Resumable": "1.0.0"}
PIECE = "application/offset+octet-stream"


def jpeg(seed: int = 1, size: tuple[int, int] = (240, 180)) -> bytes:
    """A picture of noise, so that it does not compress to nothing."""
    chance = random.Random(seed)
    image = Image.frombytes("RGB", size, chance.randbytes(size[0] * size[1] * 3))
    file = io.BytesIO()
    image.save(file, "JPEG", quality=90)
    return file.getvalue()


def pdf(words: bytes = b"", pages: int = 1) -> bytes:
    """The least that is a PDF (ISO 32000-2, 7.5): empty pages, and a comment of its own in each file."""
    kids = b" ".join(b"%d 0 R" % (3 + n) for n in range(pages))
    page = b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] >>"
    catalog, tree = b"<< /Type /Catalog /Pages 2 0 R >>", b"<< /Type /Pages /Kids [%s] /Count %d >>"
    bodies = [catalog, tree % (kids, pages), *[page] * pages]
    out, places = b"%PDF-1.7\n%" + base64.b64encode(words) + b"\n", []
    for number, body in enumerate(bodies, 1):
        places.append(len(out))
        out += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    rows = b"".join(b"%010d 00000 n \n" % place for place in places)
    table = b"xref\n0 %d\n0000000000 65535 f \n%s" % (len(bodies) + 1, rows)
    trailer = b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (len(bodies) + 1, len(out))
    return out + table + trailer


def sha(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


@dataclass
class TusClient:
    """The phone's end of tus, as small as a test can have it."""

    client: FlaskClient
    job: str

    def create(self, content: bytes, **other: object) -> TestResponse:
        told = {"sha256": sha(content), "type": "image/jpeg", "job": self.job, **other}
        length = told.pop("length", len(content))
        metadata = ",".join(
            f"{key} {base64.b64encode(str(value).encode()).decode()}" for key, value in told.items()
        )
        headers = {**TUS, "Upload-Length": str(length), "Upload-Metadata": metadata}
        return self.client.post("/api/photos", headers=headers)

    def patch(self, place: str, offset: int, piece: bytes, announced: int | None = None) -> TestResponse:
        """A piece; where more is announced than comes, the line breaks."""
        length = len(piece) if announced is None else announced
        headers = {**TUS, "Upload-Offset": str(offset), "Content-Length": str(length)}
        return self.client.patch(place, input_stream=io.BytesIO(piece), headers=headers, content_type=PIECE)

    def offset(self, place: str) -> int:
        answer = self.client.head(place, headers=TUS)
        assert answer.status_code == 200
        return int(answer.headers["Upload-Offset"])

    def send(self, content: bytes) -> str:
        """The whole photo in one piece; where it lies."""
        place = self.create(content).headers["Location"]
        assert self.patch(place, 0, content).status_code == 204
        return place
