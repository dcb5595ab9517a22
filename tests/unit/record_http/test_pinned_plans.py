"""Heat plans of a job by the routes: pinned, told to its phones, ended, and kept in its dossier."""

from __future__ import annotations

import hashlib
import io
import json
import zipfile
from pathlib import Path
from typing import Any

import pytest

from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.signatures import verifies
from bayleaf.domain.dossier import Seen, heat_names
from bayleaf.domain.dossier_contents import Contents
from bayleaf.usecases.check_dossier import check_dossier
from bayleaf.usecases.dossier_faults import heat_faults
from bayleaf.usecases.heat_plans import plans_of
from bayleaf.usecases.import_methods import import_methods
from harness.at_work import Shop
from harness.server import METHOD_FOLDER, Bench, error_of
from unit.record_http.planning_office import FIGURES, added, listed, planned, zone_named


@pytest.fixture(scope="module")
def methods(server: Bench) -> list[str]:
    """The methods that have heat zones, imported once."""
    drawings = {path.name: path.read_bytes() for path in METHOD_FOLDER.glob("*.svg")}
    yaml = (METHOD_FOLDER / "rear_frame.yaml").read_text("utf-8")
    parts = server.parts
    return [one.digest for one in import_methods(parts.office.methods, server.clock, yaml, drawings)]


@pytest.fixture
def job(shop: Shop, methods: list[str]) -> str:
    """A job with these methods."""
    new = {"order": "H-1", "methods": methods, "people": [shop.server.people["technician"]]}
    return str(shop.server.office().post("/api/jobs", json=new).get_json()["job"])


def pin(shop: Shop, job: str, digest: str, **named: str) -> Any:
    body = {"method": "removal", "zone": "upper", "plan": digest, **named}
    return shop.server.office().post(f"/api/jobs/{job}/heat_plans", json=body)


def told(shop: Shop, job: str) -> list[dict[str, Any]]:
    plans = shop.phone.client.get("/api/bundle").get_json()["plans"]
    return [one for one in plans if one["job"] == job]


def version(shop: Shop) -> str:
    return str(shop.phone.client.get("/api/bundle").get_json()["version"])


def test_a_pinned_plan_is_in_the_bundle_and_its_response_set_is_served_by_hash(shop: Shop, job: str) -> None:
    digest = planned(shop, "pinned")
    before = version(shop)
    assert pin(shop, job, digest).status_code == 201
    assert version(shop) != before
    (row,) = told(shop, job)
    sha256 = hashlib.sha256(b"gzipped set").hexdigest()
    assert (row["method"], row["zone"], row["plan"]) == ("removal", "upper", digest)
    assert (row["sha256"], row["bytes"], row["figures"]) == (sha256, len(b"gzipped set"), FIGURES)
    got = shop.phone.client.get(f"/api/heat/responses/{sha256}")
    assert (got.data, got.mimetype) == (b"gzipped set", "application/gzip")
    (found,) = plans_of(shop.server.parts.office, [job])
    assert (found.pin.method, found.pin.zone, found.pin.digest) == ("removal", "upper", digest)


def test_a_phone_that_is_not_on_the_job_is_not_told(shop: Shop, job: str) -> None:
    digest = planned(shop, "foreign")
    pin(shop, job, digest)
    other = shop.server.phone("photographer").client
    assert [one for one in other.get("/api/bundle").get_json()["plans"] if one["job"] == job] == []


def test_an_unpinned_plan_leaves_the_bundle(shop: Shop, job: str) -> None:
    digest = planned(shop, "unpinned")
    office = shop.server.office()
    pin(shop, job, digest)
    assert listed(shop, digest)["jobs"] == [job]
    assert office.delete(f"/api/jobs/{job}/heat_plans/removal/upper").status_code == 204
    assert told(shop, job) == []
    gone = office.delete(f"/api/jobs/{job}/heat_plans/removal/upper")
    assert error_of(gone) == (404, "not_found")
    assert error_of(office.delete(f"/api/heat/zones/{digest}")) == (409, "zone_in_use")


def test_the_same_plan_again_is_the_same_pin_and_another_takes_its_place(shop: Shop, job: str) -> None:
    digest, other = planned(shop, "first"), planned(shop, "second")
    first = pin(shop, job, digest).get_json()
    assert pin(shop, job, digest).get_json() == first
    pin(shop, job, other)
    plans = shop.server.office().get(f"/api/jobs/{job}/heat_plans").get_json()["plans"]
    assert [one["plan"] for one in plans] == [other]


@pytest.mark.parametrize(
    ("named", "code"),
    [
        ({"method": "spine"}, (404, "unknown_method")),
        ({"zone": "cellar"}, (404, "unknown_zone")),
        ({"plan": "0" * 64}, (404, "unknown_zone")),
    ],
)
def test_a_pin_that_fits_nowhere_is_refused(
    shop: Shop, job: str, named: dict[str, str], code: tuple[int, str]
) -> None:
    digest = planned(shop, "fits nowhere")
    assert error_of(pin(shop, job, digest, **named)) == code


def test_a_plan_that_is_not_done_is_not_pinned(shop: Shop, job: str) -> None:
    digest = added(shop, "not done")
    shop.server.office().post("/api/heat/plans", json={"zone": digest})
    assert error_of(pin(shop, job, digest)) == (409, "not_planned")
    shop.server.office().delete(f"/api/heat/plans/{digest}")


def filed(shop: Shop, job: str) -> bytes:
    """The dossier of a job, filed as it stands."""
    office = shop.server.office()
    answer = office.post(f"/api/jobs/{job}/file", json={"reason": "as it stands"})
    assert answer.status_code == 200, answer.text
    return bytes(office.get(f"/api/filed/{answer.get_json()['dossier']}/dossier").data)


def test_a_dossier_keeps_the_plan_its_zone_and_its_response_set(shop: Shop, job: str, tmp_path: Path) -> None:
    digest = planned(shop, "filed")
    pin(shop, job, digest)
    shop.server.office().delete(f"/api/jobs/{job}/heat_plans/removal/upper")
    content = filed(shop, job)
    folder = f"bayleaf-{job}/data/heat/{hashlib.sha256(b'gzipped set').hexdigest()}"
    with zipfile.ZipFile(io.BytesIO(content)) as bag:
        assert bag.read(f"{folder}/response.json.gz") == b"gzipped set"
        assert json.loads(bag.read(f"{folder}/plan.json"))["sentence"] == "Workable in 9 min."
        assert json.loads(bag.read(f"{folder}/zone.yaml")) == zone_named("filed")
        (row,) = json.loads(bag.read(f"bayleaf-{job}/data/about.json"))["heat"]
    assert (row["method"], row["zone"], row["digest"]) == ("removal", "upper", digest)
    assert row["ended_ms"] >= row["pinned_ms"] > 0
    file = tmp_path / "dossier.zip"
    file.write_bytes(content)
    with file.open("rb") as opened:
        assert check_dossier(ContainerReader(opened), verifies).faults == ()


def test_a_plan_of_a_filed_job_is_neither_pinned_nor_unpinned(shop: Shop, job: str) -> None:
    digest = planned(shop, "too late")
    pin(shop, job, digest)
    filed(shop, job)
    assert error_of(pin(shop, job, digest)) == (409, "already_filed")
    gone = shop.server.office().delete(f"/api/jobs/{job}/heat_plans/removal/upper")
    assert error_of(gone) == (409, "already_filed")


def test_a_member_of_a_plan_that_is_changed_missing_or_strange_is_told() -> None:
    """What the check says of `data/heat/`, with `about.json` as it was sealed."""
    response = "ab" * 32
    document, answer, packed = heat_names(response)
    row = {"document_sha256": "01" * 32, "answer_sha256": "02" * 32, "response_sha256": response}
    sealed = Contents({"heat": [row]}, (), (), {}, {}, {})
    strange = heat_names("cd" * 32)[0]
    seen = {
        name: Seen(name, sha256, 1)
        for name, sha256 in ((document, "01" * 32), (answer, "03" * 32), (strange, "04" * 32))
    }
    assert list(heat_faults(seen, sealed)) == [
        f"{packed}: named by about.json and not here",
        f"{strange}: not named by about.json",
        f"{answer}: its bytes have the digest {'03' * 32}",
    ]
