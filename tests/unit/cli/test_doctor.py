"""What the doctor finds, and the mend that it names for each."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

from bayleaf.cli import main
from bayleaf.config import PACKAGED_FRONT_END
from bayleaf.usecases.contact import CONTACT
from harness.server import Bench, bench


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Bench]:
    (tmp_path / "data").mkdir(mode=0o700)
    made = bench(tmp_path / "data")
    yield made
    made.close()


def told(data: Path, *words: str) -> dict[str, dict[str, str]]:
    answer = CliRunner().invoke(main, ["doctor", "--data", str(data), *words, "--json"])
    lines = json.loads(answer.stdout)["lines"]
    mends = any(line["state"] == "mend" for line in lines)
    assert answer.exit_code == int(mends)
    return {line["what"]: line for line in lines}


def certificate(folder: Path, name: str, days: int) -> str:
    key, now = ec.generate_private_key(ec.SECP256R1()), datetime.now(UTC)
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])
    made = (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(subject)
        .public_key(key.public_key())
        .serial_number(7)
        .not_valid_before(now - timedelta(days=400))
        .not_valid_after(now + timedelta(days=days, hours=1))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName(name)]), critical=False)
        .sign(key, hashes.SHA256())
    )
    path = folder / "cert.pem"
    path.write_bytes(made.public_bytes(serialization.Encoding.PEM))
    return str(path)


def test_a_shop_that_is_well_has_nothing_to_mend(shop: Bench, tmp_path: Path) -> None:
    shop.parts.calling.settings.put(CONTACT, "mailto:calls@shop.invented")
    cert = certificate(tmp_path, "cards.shop.invented", 60)
    lines = told(tmp_path / "data", "--name", "cards.shop.invented", "--cert", cert)
    sick = [
        line for what, line in lines.items() if line["state"] == "mend" and what not in ("disk", "front end")
    ]
    assert sick == []
    assert lines["store"]["state"] == "well"
    assert lines["front end"]["state"] == (
        "well" if (PACKAGED_FRONT_END / "index.html").is_file() else "mend"
    )
    assert lines["certificate"]["found"] == "good for 60 days"


@pytest.mark.parametrize(
    ("contact", "word"),
    [("", "no address is set"), ("mailto:me@shop.local", "reserved"), ("me", "begins with")],
)
def test_a_contact_that_push_services_refuse_is_told_with_its_mend(
    shop: Bench, tmp_path: Path, contact: str, word: str
) -> None:
    shop.parts.calling.settings.put(CONTACT, contact)
    line = told(tmp_path / "data")["contact address"]
    assert (line["state"], word in line["found"]) == ("mend", True)
    assert "in the office, under Devices" in line["mend"]


def test_keys_that_others_may_read_are_told(shop: Bench, tmp_path: Path) -> None:
    (tmp_path / "data" / "push.pem").chmod(0o644)
    assert told(tmp_path / "data")["key of calls"]["mend"].startswith("chmod 600 ")
    (tmp_path / "data").chmod(0o755)
    assert told(tmp_path / "data")["data folder"]["mend"].startswith("It holds keys: chmod 700 ")


@pytest.mark.parametrize(
    ("name", "days", "state", "word"),
    [
        ("other.shop.invented", 60, "mend", "it is for other.shop.invented"),
        ("cards.shop.invented", -3, "mend", "ended"),
        ("cards.shop.invented", 5, "look", "good for 5 days"),
        ("*.shop.invented", 60, "well", "good for 60 days"),
        ("*.invented", 60, "mend", "it is for *.invented"),
    ],
)
def test_a_certificate_is_for_this_name_and_for_long_enough(
    tmp_path: Path, name: str, days: int, state: str, word: str
) -> None:
    cert = certificate(tmp_path, name, days)
    line = told(tmp_path / "none", "--name", "cards.shop.invented:8443", "--cert", cert)["certificate"]
    assert line["state"] == state
    assert word in line["found"]


def test_a_clock_behind_the_newest_record_was_set_back(shop: Bench, tmp_path: Path) -> None:
    shop.clock.at_ms = 4_000_000_000_000  # the year 2096
    shop.job("technician")
    line = told(tmp_path / "data")["clock"]
    assert line["state"] == "mend"
    assert "NTP" in line["mend"]


def test_heat_plans_that_nobody_makes_or_that_failed_are_told(shop: Bench, tmp_path: Path) -> None:
    heat = shop.parts.office.heat
    assert told(tmp_path / "data")["heat plans"]["found"] == "0 done"
    heat.ask("a" * 64, "plates-1", 1)
    line = told(tmp_path / "data")["heat plans"]
    assert (line["state"], line["found"]) == ("look", "1 asked for over 30 min ago")
    heat.take("plates-1")
    heat.fail("a" * 64, "plates-1", "pads overlap", 2)
    assert told(tmp_path / "data")["heat plans"]["found"] == "one failed: pads overlap"


def test_a_store_that_cannot_be_read_is_told_wherever_it_is_read(tmp_path: Path) -> None:
    data = tmp_path / "torn"
    data.mkdir()
    (data / "bayleaf.sqlite3").write_bytes(b"this is no database, whatever its name says" * 100)
    lines = told(data)
    for what in ("store", "contact address", "clock", "heat plans"):
        assert lines[what]["state"] == "mend"
        assert "not a database" in lines[what]["found"]
        assert "put a backup back" in lines[what]["mend"]


def test_a_store_of_before_there_were_settings_has_no_contact_address(tmp_path: Path) -> None:
    data = tmp_path / "old"
    data.mkdir()
    with closing(sqlite3.connect(data / "bayleaf.sqlite3")) as store:
        store.execute("CREATE TABLE before (it INTEGER)")
    lines = told(data)
    assert "no address is set" in lines["contact address"]["found"]
    assert lines["clock"]["state"] == "look"


def test_no_shop_is_told_and_nothing_is_made(tmp_path: Path) -> None:
    lines = told(tmp_path / "none")
    assert lines["data folder"]["state"] == "mend"
    assert lines["store"]["found"] == "there is no store here"
    assert not (tmp_path / "none").exists()


def test_each_line_that_is_not_well_names_a_mend_for_people_to_read(tmp_path: Path) -> None:
    shown = CliRunner().invoke(main, ["doctor", "--data", str(tmp_path / "none")])
    assert shown.exit_code == 1
    lines = shown.stdout.splitlines()
    for place, line in enumerate(lines):
        if line.startswith(("MEND", "LOOK")):
            assert lines[place + 1].startswith("      ")
