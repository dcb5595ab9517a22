"""What each command says, prints for scripts, and exits with."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bayleaf.cli import main
from unit.dossier.shop import tiny_dossier

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
SPINE = SEED / "spine.yaml"
COMMANDS = [
    "demo",
    "serve",
    "backup",
    "doctor",
    "method check",
    "method import",
    "method show",
    "dossier check",
    "handin import",
]


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.mark.parametrize("command", COMMANDS)
def test_help_says_when_to_use_a_command_gives_an_example_and_its_exit_status(command: str) -> None:
    told = run(*command.split(), "--help")
    assert told.exit_code == 0
    assert f"bayleaf {command}" in told.output
    assert "Example" in told.output
    assert "Exit status: 0" in told.output


def test_a_method_file_without_faults_is_named_with_its_digest() -> None:
    told = run("method", "check", SPINE)
    assert told.exit_code == 0
    assert told.output.startswith("spine demo-1 (Take off a bracket half): no faults; digest ")


def test_every_fault_of_a_method_file_is_told_with_its_line(tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.yaml"
    wrong.write_text(SPINE.read_text().replace("max: 0.30", "max: 0.305").replace("unit: km, ", ""))
    told = run("method", "check", wrong)
    assert told.exit_code == 1
    assert "spn-07.gap.max: found 0.305, a limit with 3 decimals" in told.stderr
    assert "spn-01.odometer: found no `unit`" in told.stderr
    assert "3 faults" in told.stderr  # the drawing is not beside it either
    scripted = json.loads(run("method", "check", wrong, "--json").stdout)
    assert scripted["ok"] is False
    assert {fault["field"] for fault in scripted["faults"]} >= {"spn-07.gap.max", "spn-01.odometer"}


def test_a_method_file_that_is_no_text_is_a_usage_error(tmp_path: Path) -> None:
    binary = tmp_path / "method.yaml"
    binary.write_bytes(b"\xff\xfe\x00")
    assert run("method", "check", binary).exit_code == 2
    assert run("method", "check", tmp_path / "none.yaml").exit_code == 2
    assert run("method", "check").exit_code == 2


def test_the_schema_is_printed_for_an_editor() -> None:
    assert json.loads(run("method", "check", "--schema").stdout)["title"] == "Bayleaf method file"


def test_a_dossier_is_checked_without_and_with_the_seal(tmp_path: Path) -> None:
    shop, content = tiny_dossier()
    file = tmp_path / "job.zip"
    file.write_bytes(content)
    plain = run("dossier", "check", file)
    assert plain.exit_code == 0
    assert f"{file}: intact" in plain.output
    assert "seal not compared" in plain.output
    groups = " ".join(shop.fingerprint[start : start + 4] for start in range(0, 64, 4)).upper()
    same = run("dossier", "check", file, "--seal", groups)
    assert same.exit_code == 0
    assert "sealed by this fingerprint" in same.output
    other = run("dossier", "check", file, "--seal", "0" * 64, "--json")
    assert other.exit_code == 1
    found = json.loads(other.stdout)
    assert (found["intact"], found["good"], found["seal"]) == (True, False, "sealed by another fingerprint")


def test_a_changed_dossier_exits_with_1_and_names_the_member(tmp_path: Path) -> None:
    file = tmp_path / "job.zip"
    _, content = tiny_dossier()
    at = content.index(b'"kind":"tick"')
    file.write_bytes(content[:at] + b"X" + content[at + 1 :])
    told = run("dossier", "check", file)
    assert told.exit_code == 1
    assert "NOT INTACT" in told.output
    assert "data/entries.jsonl" in told.output


def test_a_fingerprint_that_is_none_is_a_usage_error(tmp_path: Path) -> None:
    file = tmp_path / "job.zip"
    file.write_bytes(b"")
    told = run("dossier", "check", file, "--seal", "12 34")
    assert told.exit_code == 2
    assert "found 4 characters; needed are 64 hex digits" in told.output
    assert run("dossier", "check", tmp_path / "none.zip").exit_code == 2


@pytest.mark.parametrize("words", [["backup", "copy"], ["handin", "import", "FILE"]])
def test_a_data_folder_that_holds_no_shop_is_told_and_stays_empty(words: list[str], tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_bytes(b"x")
    (tmp_path / "empty").mkdir()
    named = [str(file) if word == "FILE" else word for word in words]
    told = run(*named, "--data", tmp_path / "empty")
    assert told.exit_code == 2
    assert "no shop's data folder" in told.output
    assert list((tmp_path / "empty").iterdir()) == []


def test_a_method_is_imported_once_and_a_backup_follows(tmp_path: Path) -> None:
    data = tmp_path / "shop"
    data.mkdir()
    first = json.loads(run("method", "import", SPINE, "--data", data, "--json").stdout)
    again = json.loads(run("method", "import", SPINE, "--data", data, "--json").stdout)
    assert [first["methods"][0]["known"], again["methods"][0]["known"]] == [False, True]
    told = run("backup", tmp_path / "copy", "--data", data, "--json")
    assert told.exit_code == 0, told.output
    assert json.loads(told.stdout)["photos"] == 0
    assert run("backup", data / "inside", "--data", data).exit_code == 1


def test_a_backup_of_a_store_elsewhere_is_refused_and_names_the_way(tmp_path: Path) -> None:
    data = tmp_path / "shop"
    data.mkdir()
    run("method", "import", SPINE, "--data", data)
    for url in ("postgresql+psycopg://me:hidden@db/shop", f"sqlite:///{tmp_path / 'other.sqlite3'}"):
        told = run("backup", tmp_path / "copy", "--data", data, "--database", url)
        assert (told.exit_code, "pg_dump" in told.output, "hidden" in told.output) == (2, True, False)
    assert run("backup", tmp_path / "copy", "--data", data, "--database", "nowhere").exit_code == 2
    assert not (tmp_path / "copy").exists()
    own = f"sqlite:///{data / 'bayleaf.sqlite3'}"
    assert run("backup", tmp_path / "copy", "--data", data, "--database", own).exit_code == 0


def test_a_hand_in_goes_into_the_database_that_is_named(tmp_path: Path) -> None:
    data, file = tmp_path / "shop", tmp_path / "hand-in"
    data.mkdir()
    named: list[str | Path] = ["--data", data, "--database", f"sqlite:///{tmp_path / 'other.sqlite3'}"]
    lists: dict[str, object] = {
        name: [] for name in ("cards", "heads", "entries", "refused", "photos", "thumbs")
    }
    told_by = {"device": "00000000-0000-4000-8000-000000000001", "made_ms": 1, **lists}
    file.write_text(f"bayleaf-handin-1\n{json.dumps(told_by)}\n")
    assert "seal.pem missing" in run("handin", "import", file, *named).output
    run("method", "import", SPINE, *named)
    told = run("handin", "import", file, *named)
    assert (told.exit_code, (data / "bayleaf.sqlite3").exists()) == (0, False), told.output


def test_a_file_that_is_no_hand_in_exits_with_1(tmp_path: Path) -> None:
    data = tmp_path / "shop"
    data.mkdir()
    assert run("method", "import", SPINE, "--data", data).exit_code == 0
    file = tmp_path / "letter.txt"
    file.write_text("not a hand-in")
    told = run("handin", "import", file, "--data", data)
    assert told.exit_code == 1
    assert str(file) in told.output
