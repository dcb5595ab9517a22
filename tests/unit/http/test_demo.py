"""The demo pairs each of its origins by itself, on this machine only, and starts anew when asked to."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from bayleaf import demo_plan as plan
from bayleaf.adapters.signatures import PrivateKey
from bayleaf.app import create_app
from bayleaf.config import Config
from bayleaf.demo import prepare_demo
from bayleaf.http.parts import KEY
from bayleaf.serving import ServingFault
from harness.doors import TurnedClock
from harness.server import Bench, Phone, error_of

PORT = 8080
FALLBACK = {"technician": 8081, "photographer": 8082, "second": 8083}


def served(data: Path, ids: dict[str, str]) -> Bench:
    shop = plan.demo_shop(PORT, FALLBACK, ids)
    clock = TurnedClock()
    app = create_app(Config(data=data, hosts=plan.demo_hosts(PORT, shop), demo=shop), clock)
    return Bench(app, clock, app.extensions[KEY], ids)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    data = tmp_path_factory.mktemp("demo") / ".bayleaf-demo"
    made = served(data, prepare_demo(data, fresh=False, practice=True))
    yield made
    made.close()


def test_the_front_page_is_told_people_pins_login_devices_and_job(demo: Bench) -> None:
    facts = demo.client("localhost:8080").get("/api/demo").get_json()
    names = ["Mara Ilves", "Pim Reed", "Oskar Teal", "Ada Quill", "Wim Tann"]
    assert [one["name"] for one in facts["people"]] == names
    assert all(one["pin"].isdigit() and one["does"] for one in facts["people"])
    login = {"name": facts["office"]["name"], "password": facts["office"]["password"]}
    office = demo.client("localhost:8080")
    assert office.post("/api/office/login", json=login).status_code == 200
    row = office.get("/api/jobs").get_json()["jobs"][0]
    assert (row["order"], row["part"]) == (facts["job"]["order"], facts["job"]["part"])
    assert len(row["assigned"]) == 3
    first = facts["devices"][0]
    assert (first["id"], first["url"], first["fallback_url"]) == (
        "technician",
        "http://technician.localhost:8080/",
        "http://localhost:8081/",
    )


@pytest.mark.parametrize(
    ("host", "slug", "name"),
    [
        ("technician.localhost:8080", "technician", "Mara Ilves"),
        ("photographer.localhost:8080", "photographer", "Pim Reed"),
        ("second.localhost:8080", "second", "Oskar Teal"),
        ("localhost:8081", "technician", "Mara Ilves"),
        ("localhost:8082", "photographer", "Pim Reed"),
        ("localhost:8083", "second", "Oskar Teal"),
    ],
)
def test_each_origin_pairs_itself_for_its_person(demo: Bench, host: str, slug: str, name: str) -> None:
    browser = demo.client(host)
    assert browser.get("/api/me").get_json()["slug"] == slug
    answer = browser.post("/api/demo/pair", json={"public_key": PrivateKey.new().public_key})
    found = answer.get_json()
    assert (found["state"], found["person_name"]) == ("paired", name)
    assert answer.headers["Set-Cookie"].startswith(f"bayleaf_device_{slug}=")
    assert browser.get("/api/bundle").status_code == 200


def test_the_same_key_is_the_same_device(demo: Bench) -> None:
    body = {"public_key": PrivateKey.new().public_key}
    devices = [
        demo.client("technician.localhost:8080").post("/api/demo/pair", json=body).get_json()["device"]
        for _ in range(2)
    ]
    assert devices[0] == devices[1]


@pytest.mark.parametrize("host", ["localhost:8080", "office.localhost:8080", "127.0.0.1:8080"])
def test_the_front_page_and_the_office_are_no_devices(demo: Bench, host: str) -> None:
    answer = demo.client(host).post("/api/demo/pair", json={"public_key": PrivateKey.new().public_key})
    assert error_of(answer) == (404, "not_found")


def test_the_demo_pairs_nobody_from_another_machine(demo: Bench) -> None:
    browser = demo.client("technician.localhost:8080")
    browser.environ_base["REMOTE_ADDR"] = "192.0.2.7"
    answer = browser.post("/api/demo/pair", json={"public_key": PrivateKey.new().public_key})
    assert error_of(answer) == (404, "not_found")


def test_another_server_has_no_such_route(server: Bench) -> None:
    assert error_of(server.client().get("/api/demo")) == (404, "not_found")
    assert error_of(server.client().post("/api/demo/pair", json={})) == (404, "not_found")


def test_the_demo_is_kept_between_runs_and_fresh_is_a_new_log_with_new_keys(tmp_path: Path) -> None:
    data, host = tmp_path / ".bayleaf-demo", "technician.localhost:8080"
    key = PrivateKey.new()

    def run(*, fresh: bool) -> tuple[str, str]:
        made = served(data, prepare_demo(data, fresh=fresh, practice=True))
        me = made.client(host).get("/api/me").get_json()
        made.close()
        return me["log"], me["seal_public"]

    first = run(fresh=False)
    assert run(fresh=False) == first
    kept = served(data, prepare_demo(data, fresh=False, practice=True))
    browser = kept.client(host)
    device = browser.post("/api/demo/pair", json={"public_key": key.public_key}).get_json()
    kept.close()
    renewed = run(fresh=True)
    assert renewed[0] != first[0]
    assert renewed[1] != first[1]
    anew = served(data, prepare_demo(data, fresh=False, practice=True))
    phone = Phone(anew.client(host), key, device["device"], device["card"], device["card_signature"])
    assert error_of(anew.renew(phone)) == (404, "unknown_device")
    paired = phone.client.post("/api/demo/pair", json={"public_key": key.public_key}).get_json()
    assert paired["device"] != device["device"]
    anew.close()


def test_fresh_never_removes_a_folder_that_is_no_demo(tmp_path: Path) -> None:
    (tmp_path / "precious.txt").write_text("kept")
    with pytest.raises(ServingFault, match="not a demo's folder"):
        prepare_demo(tmp_path, fresh=True)
    assert (tmp_path / "precious.txt").read_text() == "kept"


def test_a_demo_that_was_stopped_while_it_was_made_is_made_again(tmp_path: Path) -> None:
    data = tmp_path / ".bayleaf-demo"
    half = tmp_path / ".bayleaf-demo.making"
    half.mkdir()
    (half / "bayleaf.sqlite3").write_text("half")
    assert len(prepare_demo(data, fresh=False, practice=True)) == 5
    assert not half.exists()
