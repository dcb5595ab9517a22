"""The PDF report in its dossier, and as a preview before filing."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from bayleaf.domain import dossier
from bayleaf.report_ports import NotSet, Pictures, SetReport
from bayleaf.usecases.dossier_contents import payload_of
from bayleaf.usecases.file_job import Filing, file_job
from bayleaf.usecases.make_report import Previews
from bayleaf.usecases.refusal import Refusal
from unit.dossier.filing_shop import FilingShop
from unit.dossier.shop import PHOTO, Shop, container
from unit.dossier.test_dossier_bytes import check


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[FilingShop]:
    made = FilingShop(tmp_path / "data")
    yield made
    made.parts.close()


def words_of(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(pdf)).pages)


class Broken:
    """A typesetter that cannot."""

    def typeset(self, *_: object) -> SetReport:
        raise NotSet("It took over 180 s, and was ended.")


class Counting:
    """A typesetter that counts, and gives the number of entries as its report."""

    def __init__(self) -> None:
        self.times = 0

    def typeset(self, contents: Mapping[str, Any], pictures: Pictures, told: object = None) -> SetReport:
        self.times += 1
        return SetReport(f"report {self.times}".encode(), 0, {})


def test_a_filed_dossier_holds_the_report_and_checks(shop: FilingShop) -> None:
    shop.bring(shop.tick("spn-01"), shop.photo())
    outcome = shop.file()
    words = words_of(shop.member(outcome, dossier.REPORT_PDF))
    row = shop.filing.register.all()[0]
    assert "Job D-1" in words
    assert "INVENTED" in words
    assert "PREVIEW" not in words
    assert "Filed incomplete" in words
    assert row.seal_fingerprint[:4] in words
    assert "not a repair instruction" in words
    assert shop.check(outcome).good


def test_the_plain_report_stays_beside_it(shop: FilingShop) -> None:
    shop.bring(shop.tick("spn-01"))
    outcome = shop.file()
    assert b"BAYLEAF DOSSIER" in shop.member(outcome, dossier.REPORT)


def test_a_dossier_without_a_pdf_as_they_were_filed_before_is_intact() -> None:
    shop = Shop().work().file()
    about, payload = payload_of(shop.gathered(), shop.fingerprint, lambda _: PHOTO)
    assert dossier.REPORT_PDF not in [member.name for member in payload]
    assert check(container(shop.sealed(about, payload))).intact


def test_a_dossier_with_a_pdf_is_intact_and_one_byte_of_it_changed_is_found() -> None:
    shop = Shop().work().file()
    about, payload = payload_of(shop.gathered(), shop.fingerprint, lambda _: PHOTO, b"%PDF-1.7 made up")
    file = container(shop.sealed(about, payload))
    assert check(file).intact
    assert not check(file.replace(b"%PDF-1.7 made up", b"%PDF-1.7 made uP")).intact


def test_a_report_that_cannot_be_set_stops_the_filing_with_its_reason(shop: FilingShop) -> None:
    shop.bring(shop.tick("spn-01"))
    broken = Filing(shop.filing.dossiers, shop.filing.register, Broken())
    with pytest.raises(Refusal) as told:
        file_job(shop.office, broken, shop.job, shop.ada.id, "reason")
    assert told.value.code == "not_sealed"
    assert "It took over 180 s" in str(told.value)
    assert shop.filing.register.all() == []


def test_a_preview_is_marked_on_every_page_and_never_looks_filed(shop: FilingShop) -> None:
    shop.bring(shop.tick("spn-01"))
    shop.file()
    pdf = shop.parts.previews.pdf(shop.office, shop.job)
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]
    assert all("PREVIEW" in page for page in pages)


def test_a_preview_is_kept_until_the_job_grows(shop: FilingShop) -> None:
    typesetter = Counting()
    previews = Previews(typesetter)
    shop.bring(shop.tick("spn-01"))
    first = [previews.pdf(shop.office, shop.job) for _ in range(3)]
    shop.bring(shop.tick("spn-02"))
    assert first == [b"report 1"] * 3
    assert previews.pdf(shop.office, shop.job) == b"report 2"


def test_a_preview_of_no_job_and_one_that_cannot_be_set_are_refused(shop: FilingShop) -> None:
    with pytest.raises(Refusal) as unknown:
        shop.parts.previews.pdf(shop.office, "00000000-0000-4000-8000-00000000dead")
    shop.bring(shop.tick("spn-01"))
    with pytest.raises(Refusal) as broken:
        Previews(Broken()).pdf(shop.office, shop.job)
    assert (unknown.value.code, broken.value.code) == ("unknown_job", "not_set")
