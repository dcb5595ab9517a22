"""The method commands with the demonstration's two methods: checked, shown, imported, pinned in order."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner, Result

from bayleaf.app import open_parts
from bayleaf.cli import main
from bayleaf.config import Config
from bayleaf.usecases.open_job import NewJob, open_job
from bayleaf.usecases.people import PersonChange, add_person

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
FRAME = SEED / "rear_frame.yaml"


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def test_a_check_tells_both_methods_and_nothing_that_was_taken() -> None:
    told = run("method", "check", FRAME)
    assert told.exit_code == 0
    assert "removal demo-1 (Take the left rear-aperture frame half off): no faults" in told.stdout
    assert "fitting demo-1 (Bond and rivet" in told.stdout
    assert told.stderr == ""


def test_a_check_remarks_what_it_took(tmp_path: Path) -> None:
    for drawing in SEED.glob("*.svg"):
        (tmp_path / drawing.name).write_bytes(drawing.read_bytes())
    less = tmp_path / "less.yaml"
    less.write_text(FRAME.read_text().replace("      gap_max_seconds: 300\n", ""))
    told = run("method", "check", less)
    assert told.exit_code == 0
    assert "scenario.heat_settings.cure: no `gap_max_seconds`; 300 taken (common practice" in told.stderr
    remarks = json.loads(run("method", "check", less, "--json").stdout)["remarks"]
    assert [remark["field"] for remark in remarks] == [
        "scenario.heat_settings.removal",
        "scenario.heat_settings.cure",
    ]


def test_a_method_is_shown_as_people_read_it() -> None:
    told = run("method", "show", FRAME, "--method", "fitting").stdout
    assert told.startswith(
        "fitting demo-1: Bond and rivet the new left rear-aperture frame half on (invented)"
    )
    assert "is pinned after removal" in told
    assert "fit-06  Measure gap and step [hold point]" in told
    assert "- gap for adhesive (reading in mm 0.80 to 1.80, at 6 points)" in told
    assert "(reading in mm -0.5 to 0.5 against rem-40.rising)" in told
    assert "(heat_run: joint, cure, ramp, soak, release, cool down, when cure is warm)" in told
    assert "rem-01  " not in told
    assert run("method", "show", FRAME, "--method", "none").exit_code == 2


def test_both_methods_are_imported_and_a_job_pins_them_in_order(tmp_path: Path) -> None:
    imported = json.loads(run("method", "import", FRAME, "--data", tmp_path, "--json").stdout)["methods"]
    assert [one["id"] for one in imported] == ["removal", "fitting"]
    digests = [one["digest"] for one in imported]
    parts = open_parts(Config(data=tmp_path))
    try:
        office = add_person(parts.doors, PersonChange(name="Office (invented)", roles=("office",)), 1)
        job = open_job(parts.office, office, NewJob(order="TEST-1", methods=digests, invented=True))
        with parts.office.log.reading() as log:
            (pin,) = [json.loads(entry.text)["body"] for entry in log.of_kinds(job, ["pin"])]
        assert pin["methods"] == digests
    finally:
        parts.close()
