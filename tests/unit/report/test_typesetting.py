"""The set report: a PDF/A that says what the contents say, the same bytes each time, with any photos."""

from __future__ import annotations

import io
import json
import re
import struct
import zlib
from pathlib import Path
from typing import Any

import page as pdf_rules  # PyPI: page-validation
import pytest
from pypdf import PdfReader

from bayleaf.report.contents import contents_of
from bayleaf.report.typesetting import Limits, OverLimit, Told, TypstTypesetter, run_press
from bayleaf.report_ports import NotSet, Pictures, nowhere
from unit.report.jobs import well
from unit.report.made_up import Log
from unit.report.setting import DRAWINGS, by_hash, jpeg, text_of, typeset

PHOTO = jpeg()
PNG_HEAD = b"\x89PNG\r\n\x1a\n"


@pytest.fixture(scope="module")
def pdf() -> bytes:
    return typeset(well(PHOTO), by_hash(PHOTO)).pdf


def test_the_words_of_the_first_page_stand_in_the_file(pdf: bytes) -> None:
    text = text_of(pdf)
    for words in (
        "INVENTED: demonstration data. Not a repair of a real vehicle, and not a repair instruction.",
        "The record conforms: every step is done, every hold point passed, nothing deviates.",
        "0123 4567 89ab cdef",
        "bayleaf dossier check FILE --seal FINGERPRINT",
        "countersigned, by PIN",
        "All 9 pieces of the rivets taken out are accounted for.",
        "181 \u00b0C at sensor m, at most 190 \u00b0C",
        "The vehicle maker\u2019s instruction and the product\u2019s data sheet come first.",
    ):
        assert words in text


def test_every_page_bears_its_number_of_how_many_and_the_job(pdf: bytes) -> None:
    reader = PdfReader(io.BytesIO(pdf))
    for number, page in enumerate(reader.pages, 1):
        text = " ".join(page.extract_text().split())
        assert f"{number} of {len(reader.pages)}" in text
        assert "Job T-7" in text


@pytest.mark.parametrize(
    "profile", [pdf_rules.ValidationProfile.PDF_A_2A, pdf_rules.ValidationProfile.PDF_UA_1]
)
def test_the_file_conforms_to_the_standards_that_it_declares(
    pdf: bytes, profile: pdf_rules.ValidationProfile, tmp_path: Path
) -> None:
    file = tmp_path / "report.pdf"
    file.write_bytes(pdf)
    found = pdf_rules.validate_pdf(str(file), profile=profile)
    assert found.is_compliant, [str(one) for one in found.failures]
    assert found.rules.total > 100


def test_it_declares_pdf_a_2a_and_every_font_is_embedded(pdf: bytes) -> None:
    assert b"<pdfaid:part>2</pdfaid:part>" in pdf
    assert b"<pdfaid:conformance>A</pdfaid:conformance>" in pdf
    resources: list[Any] = [page["/Resources"] for page in PdfReader(io.BytesIO(pdf)).pages]
    faces = [font.get_object() for one in resources for font in one["/Font"].values()]
    fonts = {str(face["/BaseFont"]).split("+")[-1] for face in faces}
    assert {name.split("-")[0] for name in fonts} == {"AtkinsonHyperlegibleNext", "Besley"}


def test_the_same_contents_give_the_same_bytes(pdf: bytes) -> None:
    assert typeset(well(PHOTO), by_hash(PHOTO)).pdf == pdf
    assert b"D:20261109100000Z" in pdf


def test_a_photo_of_many_pixels_is_made_small(tmp_path: Path) -> None:
    large = jpeg(4000, 3000)
    path = tmp_path / "large.jpg"
    path.write_bytes(large)
    contents = contents_of(well(large).source(filed="9 10:00"))
    told: list[tuple[int, int]] = []
    found = TypstTypesetter().typeset(
        contents,
        Pictures(lambda _: str(path), lambda _: b"", DRAWINGS),
        lambda done, of: told.append((done, of)),
    )
    (image,) = (image for page in PdfReader(io.BytesIO(found.pdf)).pages for image in page.images)
    assert image.image is not None
    assert image.image.size == (1000, 750)
    assert told == [(1, 1)]


def bomb() -> bytes:
    """A PNG of 30,000 by 30,000 pixels in a few hundred bytes."""
    head = struct.pack(">IIBBBBB", 30_000, 30_000, 8, 2, 0, 0, 0)

    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    return (
        PNG_HEAD + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 90_001)) + chunk(b"IEND", b"")
    )


BAD = {
    "cut short": (PHOTO[: len(PHOTO) // 2], "It cannot be decoded"),
    "not a picture": (b"GIF89a" + bytes(100), "It cannot be decoded"),
    "empty": (b"", "It cannot be decoded"),
    "too many pixels": (bomb(), "It has 30000 x 30000 pixels; at most 40000000 are decoded."),
}


@pytest.mark.parametrize("name", BAD)
def test_a_photo_that_cannot_be_shown_is_a_box_with_the_reason_and_its_hash(name: str) -> None:
    photo, reason = BAD[name]
    log = well(photo)
    found = typeset(log, by_hash(photo))
    (digest,) = found.faults
    text = text_of(found.pdf)
    assert reason in text
    assert f"SHA-256 {digest[:12]}" in text


def test_a_photo_whose_bytes_are_others_is_not_shown_under_its_hash() -> None:
    log = well(PHOTO)
    (digest,) = by_hash(PHOTO)
    found = typeset(log, {digest: jpeg(shade=3)})
    assert found.faults == {digest: "Its bytes are no longer those of this hash."}


def test_a_photo_that_never_arrived_says_so() -> None:
    log = Log()
    log.open()
    log.photo("pim", "3 09:30", "one", "damage", b"on a phone", held=False)
    text = text_of(typeset(log, filed="9 10:00", reason="gone").pdf)
    assert "The picture never reached the office." in text


def test_a_drawing_that_cannot_be_drawn_is_left_out_and_stops_nothing() -> None:
    contents = contents_of(well(PHOTO).source(filed="9 10:00"))
    broken = dict.fromkeys(DRAWINGS, b"<svg><no end")
    held = by_hash(PHOTO)
    pdf = TypstTypesetter().typeset(contents, Pictures(nowhere, held.__getitem__, broken)).pdf
    assert "Fastener map" in text_of(pdf)


def test_a_report_that_takes_too_long_is_ended_with_a_sentence() -> None:
    contents = contents_of(Log(entries=well(PHOTO).entries).source(filed="9 10:00"))
    with pytest.raises(NotSet, match="It took over 0 s or over 2048 MB, and was ended"):
        TypstTypesetter(Limits(time_s=0)).typeset(contents, Pictures(nowhere, lambda _: b"", DRAWINGS))


def test_a_report_that_needs_too_much_memory_is_ended_with_a_sentence() -> None:
    contents = contents_of(Log(entries=well(PHOTO).entries).source(filed="9 10:00"))
    with pytest.raises(NotSet, match=r"memory|ended|failed"):
        TypstTypesetter(Limits(memory_bytes=60_000_000)).typeset(
            contents, Pictures(nowhere, lambda _: b"", DRAWINGS)
        )


def too_small_for_photos(folder: Path, limits: Limits, told: Told | None) -> dict[str, Any]:
    """A machine on which a report is set only if no photo has to be decoded."""
    if any(json.loads((folder / "job.json").read_text())["photos"]):
        raise OverLimit("too much")
    return run_press(folder, limits, told)


def test_photos_that_are_too_much_for_the_limits_are_left_out_and_the_report_is_set() -> None:
    contents, held = contents_of(well(PHOTO).source(filed="9 10:00")), by_hash(PHOTO)
    pictures = Pictures(nowhere, held.__getitem__, DRAWINGS)
    found = TypstTypesetter(press=too_small_for_photos).typeset(contents, pictures)
    assert list(found.faults) == list(held)
    assert "Left out, so that the report fits into its memory" in text_of(found.pdf)


def test_a_step_leads_to_the_page_of_its_photo_and_the_photo_back_to_the_step() -> None:
    photo = jpeg()
    said = text_of(typeset(well(photo), by_hash(photo)).pdf)
    assert re.search(r"Damage Photo 1, page \d", said)
    assert re.search(r"1 Step 1 one, page \d, Damage", said)
