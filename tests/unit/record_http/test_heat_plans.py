"""Heat zones and plans by the routes: faults, progress, cancelling, restart, the store, pins, the bundle."""

from __future__ import annotations

import gzip
import hashlib
import io
import json
import zipfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.heat_process import ProcessPlanner
from bayleaf.adapters.signatures import verifies
from bayleaf.domain.dossier import Seen, heat_names
from bayleaf.domain.dossier_contents import Contents
from bayleaf.heat.model import MODEL_ID
from bayleaf.heat_ports import NotPlanned, Planned
from bayleaf.seed_folder import SEED_FOLDER
from bayleaf.usecases.check_dossier import check_dossier
from bayleaf.usecases.dossier_faults import heat_faults
from bayleaf.usecases.heat_plans import plans_of
from bayleaf.usecases.import_methods import import_methods
from bayleaf.usecases.plan_heat import begin_planning, plan_next
from harness.at_work import Shop
from harness.server import METHOD_FOLDER, Bench, error_of
from unit.heat.zones import joint

FIGURES = {"model": MODEL_ID, "workable_s": 540}


@dataclass
class Prompt:
    """A planner that answers at once, and tells what it is asked."""

    model: str = MODEL_ID
    asked: list[str] = field(default_factory=list)
    meanwhile: Callable[[], object] = lambda: None

    def plan(self, text: str, told: Callable[[str, int], None], stop: Callable[[], bool]) -> Planned:
        self.asked.append(text)
        told("family", 600)
        self.meanwhile()
        if stop():
            raise NotPlanned("stopped", stopped=True)
        answer = json.dumps({"sentence": "Workable in 9 min."})
        return Planned(
            "Workable in 9 min.", json.dumps(FIGURES), answer, b"gzipped set", gzip.compress(b"{}")
        )


def zone_named(name: str) -> dict[str, Any]:
    return joint(id=name.replace(" ", "-"))


def added(shop: Shop, name: str) -> str:
    answer = shop.server.office().post("/api/heat/zones", json={"document": zone_named(name)})
    assert answer.status_code == 201, answer.text
    return str(answer.get_json()["digest"])


def work(shop: Shop, planner: Prompt) -> None:
    office = shop.server.parts.office
    plan_next(office.heat, planner, office.clock)


def planned(shop: Shop, name: str) -> str:
    digest = added(shop, name)
    shop.server.office().post("/api/heat/plans", json={"zone": digest})
    work(shop, Prompt())
    return digest


def listed(shop: Shop, digest: str) -> dict[str, Any]:
    rows = shop.server.office().get("/api/heat/zones").get_json()["zones"]
    return next(row for row in rows if row["digest"] == digest)


def test_a_zone_is_kept_and_says_what_it_leaves_out(shop: Shop) -> None:
    office = shop.server.office()
    answer = office.post("/api/heat/zones", json={"document": zone_named("kept")}).get_json()
    assert any(remark.startswith("supply:") for remark in answer["remarks"])
    assert not answer["known"]
    found = office.get(f"/api/heat/zones/{answer['digest']}").get_json()
    assert found["document"] == zone_named("kept")
    assert found["plan"]["state"] == "none"
    row = listed(shop, answer["digest"])
    assert (row["id"], row["invented"], row["state"], row["jobs"]) == ("kept", True, "none", [])
    assert office.post("/api/heat/zones", json={"document": zone_named("kept")}).get_json()["known"]


def test_a_zone_with_faults_is_refused_with_line_field_and_mend(shop: Shop) -> None:
    text = (SEED_FOLDER / "zones" / "upper.yaml").read_text("utf-8")
    wrong = text.replace("thickness_mm: 3\n", "thickness_mm: -3\n", 1)
    line = 1 + next(n for n, one in enumerate(wrong.splitlines()) if "thickness_mm: -3" in one)
    refused = shop.server.office().post("/api/heat/zones", json={"text": wrong})
    assert error_of(refused) == (422, "zone_faults")
    fault = refused.get_json()["faults"][0]
    assert (fault["line"], fault["field"]) == (line, "layers[0].thickness_mm")
    assert "above 0" in fault["mend"]


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"text": "a: [1,"}, "zone_faults"),
        ({"text": "a: &x [1]\nb: *x\n"}, "zone_faults"),
        ({"document": {k: v for k, v in joint().items() if k != "bondline"}}, "zone_faults"),
        ({}, "broken_request"),
        ({"text": "a: 1", "document": {}}, "broken_request"),
    ],
)
def test_what_is_no_zone_is_refused(shop: Shop, given: dict[str, Any], code: str) -> None:
    assert error_of(shop.server.office().post("/api/heat/zones", json=given))[1] == code


def test_a_plan_is_waited_for_with_its_progress_and_then_answered(shop: Shop) -> None:
    office, digest = shop.server.office(), added(shop, "progress")
    asked = office.post("/api/heat/plans", json={"zone": digest})
    assert (asked.status_code, asked.get_json()["state"]) == (202, "waiting")
    seen: list[dict[str, Any]] = []
    work(shop, Prompt(meanwhile=lambda: seen.append(office.get(f"/api/heat/plans/{digest}").get_json())))
    assert [(one["state"], one["doing"], one["share"]) for one in seen] == [("running", "family", 0.6)]
    done = office.get(f"/api/heat/plans/{digest}").get_json()
    assert (done["state"], done["share"], done["current"]) == ("done", 1.0, True)
    assert done["answer"]["sentence"] == "Workable in 9 min."
    assert office.get(f"/api/heat/plans/{digest}/field").get_json() == {}
    assert listed(shop, digest)["sentence"] == "Workable in 9 min."


def test_the_same_zone_again_comes_from_the_store(shop: Shop) -> None:
    digest, planner = planned(shop, "again"), Prompt()
    answer = shop.server.office().post("/api/heat/plans", json={"zone": digest}).get_json()
    work(shop, planner)
    assert answer["state"] == "done"
    assert planner.asked == []


def test_a_plan_that_runs_is_cancelled_and_one_that_is_done_stays(shop: Shop) -> None:
    office, digest = shop.server.office(), added(shop, "cancelled")
    office.post("/api/heat/plans", json={"zone": digest})
    work(shop, Prompt(meanwhile=lambda: office.delete(f"/api/heat/plans/{digest}")))
    assert office.get(f"/api/heat/plans/{digest}").get_json()["state"] == "cancelled"
    assert error_of(office.get(f"/api/heat/plans/{digest}/field")) == (409, "not_planned")
    done = planned(shop, "not cancelled")
    assert office.delete(f"/api/heat/plans/{done}").get_json()["state"] == "done"


def test_a_plan_that_ran_when_the_server_ended_goes_on_after_its_restart(shop: Shop) -> None:
    digest, office = added(shop, "restart"), shop.server.parts.office
    shop.server.office().post("/api/heat/plans", json={"zone": digest})
    assert office.heat.take(MODEL_ID) is not None
    begin_planning(office.heat, Prompt())
    work(shop, Prompt())
    assert listed(shop, digest)["state"] == "done"


def test_a_plan_that_is_stopped_with_the_server_is_put_back(shop: Shop) -> None:
    digest, office = added(shop, "stopped"), shop.server.parts.office
    shop.server.office().post("/api/heat/plans", json={"zone": digest})
    plan_next(office.heat, Prompt(), office.clock, ends=lambda: True)
    assert listed(shop, digest)["state"] == "waiting"
    work(shop, Prompt())
    assert listed(shop, digest)["state"] == "done"


def test_what_is_not_there_is_refused(shop: Shop) -> None:
    office, nobody = shop.server.office(), "0" * 64
    digest = added(shop, "not asked for")
    assert error_of(office.get(f"/api/heat/zones/{nobody}")) == (404, "unknown_zone")
    assert error_of(office.post("/api/heat/plans", json={"zone": nobody})) == (404, "unknown_zone")
    assert error_of(office.get(f"/api/heat/plans/{digest}")) == (404, "unknown_plan")
    assert error_of(office.delete(f"/api/heat/plans/{digest}")) == (404, "unknown_plan")
    assert error_of(office.get(f"/api/heat/responses/{nobody}")) == (404, "not_found")


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


def test_a_zone_that_no_job_uses_is_taken_away(shop: Shop) -> None:
    digest, office = added(shop, "taken away"), shop.server.office()
    assert office.delete(f"/api/heat/zones/{digest}").status_code == 204
    assert error_of(office.get(f"/api/heat/zones/{digest}")) == (404, "unknown_zone")


def test_the_child_process_plans_a_short_joint_and_tells_how_far_it_is() -> None:
    said: list[str] = []
    text = json.dumps(joint(mesh={"cells_mm": [40, 20]}))
    made = ProcessPlanner().plan(text, lambda doing, _: said.append(doing), lambda: False)
    assert made.sentence == json.loads(made.answer)["sentence"]
    document = json.loads(gzip.decompress(made.response))
    assert document["form"] == 2
    assert json.loads(made.figures)["workable_s"] == document["answer"]["workable_s"]
    field = json.loads(gzip.decompress(made.field))
    assert {len(frame) for layer in field["layers"] for frame in layer["frames"]} == {60 * 24}
    assert len(made.field) < 300_000
    assert "family" in said


def test_the_child_process_ends_when_somebody_stops_it() -> None:
    with pytest.raises(NotPlanned) as why:
        ProcessPlanner().plan(json.dumps(joint()), lambda _doing, _share: None, lambda: True)
    assert why.value.stopped


def test_the_child_process_says_why_a_zone_cannot_be_planned() -> None:
    with pytest.raises(NotPlanned, match="pads") as why:
        ProcessPlanner().plan(json.dumps(joint(pads=3)), lambda _doing, _share: None, lambda: False)
    assert not why.value.stopped


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
