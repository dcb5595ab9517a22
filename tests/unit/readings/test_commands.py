"""A logger's file read into a run by command, beside the server; the verdict by command."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bayleaf.cli import main
from harness.server import bench
from unit.readings.shop import HotShop, hot_shop

CONTENT = b"s;a;b;m\n0;20,4;20,5;21\n60;31,6;28,0;40\nx;1;1;1\n"


@pytest.fixture
def shop(tmp_path: Path) -> HotShop:
    return hot_shop(bench(tmp_path / "data"))


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def readings(tmp_path: Path, *more: str) -> Result:
    file = tmp_path / "run.csv"
    file.write_bytes(CONTENT)
    asked = ("--job", "T-1", "--by", "A office", "--logger", "Logger 7", "--data", tmp_path / "data")
    return run("heat", "readings", file, *asked, *more)


def test_a_file_is_shown_first_and_read_in_on_demand(shop: HotShop, tmp_path: Path) -> None:
    shown = readings(tmp_path, "--at-on", "0")
    assert shown.exit_code == 1, shown.output  # a line could not be read
    assert "time is column 1 (seconds), a is column 2, b is column 3, m is column 4" in shown.stdout
    assert "line 4 : no time x" in shown.stdout
    assert "nothing recorded" in shown.stdout
    assert shop.points() == {}
    taken = readings(tmp_path, "--at-on", "0", "--take")
    assert "6 readings recorded" in taken.stdout
    assert shop.points()["a"] == [[0, 20], [60_000, 32]]
    again = json.loads(readings(tmp_path, "--at-on", "0", "--take", "--json").stdout)
    assert (again["known"], again["taken"]) == (6, 0)
    shop.server.close()


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--at-on", ""), "--at-on is missing"),
        (("--at-on", "noon"), "Say what the logger showed at switch-on"),
        (("--at-on", "0", "--column", "a"), "needed is SENSOR=NUMBER"),
        (("--at-on", "0", "--zone", "sill"), "no heat run of zone sill"),
        (("--at-on", "0", "--by", "Nobody"), "nobody of the office is called so; there are A office"),
        (("--at-on", "0", "--job", "T-9"), "no job of the order or id 'T-9'"),
    ],
)
def test_what_is_missing_is_named_with_its_mend(
    shop: HotShop, tmp_path: Path, more: tuple[str, ...], said: str
) -> None:
    told = readings(tmp_path, *more)
    shop.server.close()
    assert (told.exit_code, said in told.output) == (2, True), told.output


def test_the_verdict_is_told_line_by_line(shop: HotShop, tmp_path: Path) -> None:
    readings(tmp_path, "--at-on", "0", "--take")
    shop.server.close()
    told = run("heat", "verdict", "--job", "T-1", "--data", tmp_path / "data")
    assert told.exit_code == 0, told.output
    assert told.stdout.splitlines()[0].endswith("step spn-09: So far: conforms")
    assert "  Hottest bond: 32\u00a0\u00b0C, at most 185\u00a0\u00b0C: within" in told.stdout
    assert "  Soak: 0.0\u00a0min, at least 1.5\u00a0min: not over yet" in told.stdout


def test_one_of_file_job_and_dossier_is_named(tmp_path: Path) -> None:
    assert run("heat", "verdict").exit_code == 2
    assert run("heat", "verdict", "--job", "T-1", "--data", tmp_path / "nowhere").exit_code == 2
