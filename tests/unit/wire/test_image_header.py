"""Pictures are judged by their first bytes, and nothing is decoded."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from bayleaf.wire.image_header import ImageHeader, read_header, type_of


def picture(form: str, size: tuple[int, int], **options: object) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", size, (90, 120, 30)).save(file, form, **options)
    return file.getvalue()


@pytest.mark.parametrize(
    "options", [{}, {"progressive": True}, {"exif": b"Exif\0\0" + b"x" * 9000}, {"quality": 5}]
)
def test_a_jpeg_says_its_size_however_it_was_written(options: dict[str, object]) -> None:
    assert read_header(picture("JPEG", (37, 21), **options)) == ImageHeader("image/jpeg", 37, 21)


def test_a_png_says_its_size() -> None:
    assert read_header(picture("PNG", (300, 2))) == ImageHeader("image/png", 300, 2)


@pytest.mark.parametrize("form", ["GIF", "BMP", "WEBP", "TIFF"])
def test_other_pictures_are_none(form: str) -> None:
    assert type_of(picture(form, (3, 3))) == ""
    assert read_header(picture(form, (3, 3))) is None


@pytest.mark.parametrize(
    "start", [b"", b"<html><script>", b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xd9"]
)
def test_what_has_no_header_has_no_size(start: bytes) -> None:
    assert read_header(start) is None


def test_no_cut_of_a_picture_reads_beyond_its_end() -> None:
    for whole in (picture("JPEG", (37, 21)), picture("PNG", (37, 21))):
        for length in range(200):
            assert read_header(whole[:length]) in (None, read_header(whole))
