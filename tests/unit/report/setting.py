"""Sets made-up jobs in type: real pictures, the real typesetter, text read back out of the PDF."""

from __future__ import annotations

import io
import re
from collections.abc import Mapping
from typing import Any

from PIL import Image
from pypdf import PdfReader

from bayleaf.canonical.digest import sha256_hex
from bayleaf.report.contents import contents_of
from bayleaf.report.typesetting import TypstTypesetter
from bayleaf.report_ports import Pictures, SetReport, nowhere
from unit.report.made_up import DRAWING, Log

DRAWINGS = {sha256_hex(DRAWING): DRAWING}


def jpeg(width: int = 400, height: int = 300, *, shade: int = 120) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (width, height), (shade, shade, 90)).save(file, "JPEG")
    return file.getvalue()


def typeset(log: Log, photos: Mapping[str, bytes] | None = None, **filed: Any) -> SetReport:
    contents = contents_of(log.source(**(filed or {"filed": "9 10:00"})))
    held = dict(photos or {})
    return TypstTypesetter().typeset(
        contents, Pictures(nowhere, lambda sha256: held.get(sha256, b""), DRAWINGS)
    )


def by_hash(*photos: bytes) -> dict[str, bytes]:
    return {sha256_hex(photo): photo for photo in photos}


def text_of(pdf: bytes) -> str:
    """All words of all pages; line ends, room to break and doubled blanks are one blank or nothing."""
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]
    return re.sub(r"\s+", " ", "\n".join(pages).replace("\u200b", "")).strip()
