"""The file of a logger in the job's dossier, and the verdict from the dossier's entries alone."""

from __future__ import annotations

import hashlib
import json
import zipfile
from pathlib import Path

from click.testing import CliRunner

from bayleaf.cli import main
from unit.readings.shop import HotShop

TO_MIN = 60


def hot_file() -> bytes:
    """A run of the short practice method: a ramp, a soak of four minutes, cold at the end."""
    rows = [(0, 20, 20, 21), (10, 90, 85, 100), (20, 150, 130, 160)]
    rows += [(minute, 152, 131, 161) for minute in range(21, 25)]
    rows += [(44, 40, 38, 41)]
    return (
        "s,a,b,m\n" + "".join(f"{t * TO_MIN},{a},{b},{m}\n" for t, a, b, m in rows) + "later,,,\n"
    ).encode()


def filed(shop: HotShop, folder: Path) -> Path:
    answer = shop.office.post(f"/api/jobs/{shop.job}/file", json={"reason": "to be looked at"})
    assert answer.status_code in (200, 201), answer.text
    dossier = answer.get_json()["dossier"]
    target = folder / "job.zip"
    target.write_bytes(shop.office.get(f"/api/filed/{dossier}/dossier").data)
    return target


def test_the_dossier_holds_the_file_as_it_came_and_is_intact(shop: HotShop, tmp_path: Path) -> None:
    content = hot_file()
    shop.take(shop.kept(content))
    shop.kept(b"handed in and never read in")
    dossier = filed(shop, tmp_path)
    with zipfile.ZipFile(dossier) as bag:
        (name,) = [name for name in bag.namelist() if "/data/readings/" in name]
        assert name.endswith(f"/data/readings/{hashlib.sha256(content).hexdigest()}.csv")
        assert bag.read(name) == content
    checked = CliRunner().invoke(main, ["dossier", "check", str(dossier), "--json"])
    assert checked.exit_code == 0, checked.output


def test_the_verdict_of_the_dossier_is_that_of_the_shop(shop: HotShop, tmp_path: Path) -> None:
    shop.take(shop.kept(hot_file()))
    cold = {"act": "cold", "run": shop.run, "pad": "", "run_ms": 44 * 60_000, "text": ""}
    shop.write("heat", cold | {"run_doubt": False, "typed_time": False})
    of_shop = shop.office.get(f"/api/jobs/{shop.job}/verdicts").get_json()["verdicts"]
    told = CliRunner().invoke(main, ["heat", "verdict", "--dossier", str(filed(shop, tmp_path)), "--json"])
    assert told.exit_code == 0, told.output
    assert [_plain(one) for one in json.loads(told.stdout)["runs"]] == [_plain(one) for one in of_shop]
    (run,) = of_shop
    lines = {one["code"]: (one["figure"]["value"], one["standing"]) for one in run["lines"]}
    assert run["overall"] == "conforming_with_deviations"
    assert lines["soak"] == (40, "conforming")  # tenths of a minute: from 20 to 24 min
    assert lines["release"] == (2, "deviation")  # neither pad was ever lifted
    assert lines["bond_peak"] == (152, "conforming")


def _plain(run: dict[str, object]) -> object:
    """Without the names that each figure carries inside the program."""
    return json.loads(json.dumps(run), object_hook=lambda one: {k: v for k, v in one.items() if k != "name"})
