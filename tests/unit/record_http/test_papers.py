"""The maker's own instruction: handed in by the office, fetched by the phones, kept in the dossier."""

from __future__ import annotations

import io
import json
import zipfile
from pathlib import Path
from typing import Any

import pypdf
import pytest

from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.signatures import verifies
from bayleaf.domain.dossier import paper_name
from bayleaf.usecases.check_dossier import check_dossier
from bayleaf.usecases.papers import MOST_BYTES
from harness.at_work import Shop
from harness.pictures import pdf, sha
from harness.server import error_of

PDF = "application/pdf"
NAME = "Maker's instruction 7"


def hand_in(shop: Shop, content: bytes, **named: str) -> Any:
    query = {"name": NAME, **named}
    return shop.server.office().post("/api/papers", query_string=query, data=content, content_type=PDF)


def told(shop: Shop) -> list[dict[str, Any]]:
    """What the phone's bundle says."""
    papers: list[dict[str, Any]] = shop.phone.client.get("/api/bundle").get_json()["papers"]
    return papers


def test_the_pdf_of_the_tests_is_one() -> None:
    assert len(pypdf.PdfReader(io.BytesIO(pdf(b"x", 3)), strict=True).pages) == 3


def test_a_phone_of_the_job_is_told_and_gets_the_bytes_in_a_sandbox(shop: Shop) -> None:
    content = pdf(b"of the job")
    kept = hand_in(shop, content, job=shop.job)
    assert kept.status_code == 201, kept.text
    known = {"sha256": sha(content), "name": NAME, "job": shop.job, "method": ""}
    assert [paper for paper in told(shop) if paper["job"] == shop.job] == [{**known, "bytes": len(content)}]

    got = shop.phone.client.get(f"/api/papers/{sha(content)}")

    assert got.data == content
    assert got.mimetype == PDF
    assert got.headers["X-Content-Type-Options"] == "nosniff"
    assert got.headers["Content-Security-Policy"] == "default-src 'none'; sandbox"


def test_a_phone_that_is_not_on_the_job_is_neither_told_nor_served(shop: Shop) -> None:
    content = pdf(b"of another job")
    other = shop.server.job("photographer")
    assert hand_in(shop, content, job=other).status_code == 201
    assert other not in [paper["job"] for paper in told(shop)]
    assert error_of(shop.phone.client.get(f"/api/papers/{sha(content)}")) == (404, "not_found")


def test_what_a_method_has_every_phone_gets(shop: Shop) -> None:
    shop.server.method()
    content = pdf(b"of the method")
    assert hand_in(shop, content, method="spine").status_code == 201
    assert shop.phone.client.get(f"/api/papers/{sha(content)}").data == content


def test_a_new_instruction_makes_a_new_bundle_and_a_removed_one_too(shop: Shop) -> None:
    def version() -> str:
        return str(shop.phone.client.get("/api/bundle").get_json()["version"])

    before = version()
    kept = hand_in(shop, pdf(b"for a while"), job=shop.job).get_json()
    assert version() != before
    assert shop.server.office().delete(f"/api/papers/{kept['id']}").status_code == 204
    assert version() == before
    assert error_of(shop.phone.client.get(f"/api/papers/{kept['sha256']}")) == (404, "not_found")
    assert error_of(shop.server.office().delete(f"/api/papers/{kept['id']}")) == (404, "not_found")


def test_the_same_file_for_the_same_job_is_there_once_and_stays_while_another_job_needs_it(
    shop: Shop,
) -> None:
    content, other = pdf(b"twice"), shop.server.job("technician")
    first = hand_in(shop, content, job=shop.job).get_json()
    assert hand_in(shop, content, job=shop.job).get_json()["id"] == first["id"]
    hand_in(shop, content, job=other)
    shop.server.office().delete(f"/api/papers/{first['id']}")
    assert shop.phone.client.get(f"/api/papers/{sha(content)}").data == content


@pytest.mark.parametrize(
    ("content", "named", "refused"),
    [
        (b"<html>%PDF-1.7 %%EOF", {}, (422, "not_a_pdf")),
        (pdf()[:-8], {}, (422, "not_a_pdf")),
        (b"", {}, (422, "not_a_pdf")),
        (pdf(), {"job": ""}, (400, "broken_request")),
        (pdf(), {"job": "10000000-0000-4000-8000-0000000000ee"}, (404, "unknown_job")),
        (pdf(), {"method": "no_such"}, (404, "unknown_method")),
        (pdf(), {"name": "two\nlines"}, (400, "broken_request")),
    ],
)
def test_what_is_no_pdf_or_belongs_nowhere_is_refused(
    shop: Shop, content: bytes, named: dict[str, str], refused: tuple[int, str]
) -> None:
    query = {name: text for name, text in {"job": shop.job, **named}.items() if text}
    assert error_of(hand_in(shop, content, **query)) == refused


def test_one_that_is_too_large_is_refused_before_it_is_kept(shop: Shop) -> None:
    content = b"%PDF-1.7\n" + bytes(MOST_BYTES) + b"%%EOF"
    assert error_of(hand_in(shop, content, job=shop.job)) == (413, "too_large")


def test_the_dossier_keeps_what_the_job_had_and_keeps_it_when_it_is_removed(
    shop: Shop, tmp_path: Path
) -> None:
    content, elsewhere = pdf(b"for the dossier"), pdf(b"of no method of this job")
    kept = hand_in(shop, content, job=shop.job).get_json()
    hand_in(shop, elsewhere, job=shop.server.job("technician"))
    office = shop.server.office()
    filed = office.post(f"/api/jobs/{shop.job}/file", json={"reason": "as it stands"})
    assert filed.status_code == 200, filed.text
    office.delete(f"/api/papers/{kept['id']}")

    dossier = office.get(f"/api/filed/{filed.get_json()['dossier']}/dossier")

    with zipfile.ZipFile(io.BytesIO(dossier.data)) as bag:
        papers = {name.split("/", 1)[1]: name for name in bag.namelist() if "/papers/" in name}
        assert bag.read(papers[paper_name(sha(content))]) == content
        assert paper_name(sha(elsewhere)) not in papers
        about = json.loads(bag.read(f"bayleaf-{shop.job}/data/about.json"))
    assert {paper["sha256"]: paper["name"] for paper in about["papers"]}[sha(content)] == NAME
    file = tmp_path / "dossier.zip"
    file.write_bytes(dossier.data)
    with file.open("rb") as opened:
        assert check_dossier(ContainerReader(opened), verifies).faults == ()
