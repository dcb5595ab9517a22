"""Moment 7. The office files the job; a phone from a drawer brings 14 entries and a rivet mark, damaged hole.

They are taken, the dossier is marked as superseded by an addendum, nobody's file is rewritten.
"""

from __future__ import annotations

import zipfile
from io import BytesIO
from typing import Any

from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.signatures import verifies
from bayleaf.canonical.digest import sha256_hex
from bayleaf.demo_scenario.cast import MARA, OSKAR, OSKARS_PHONE
from bayleaf.demo_scenario.deeds import Away, Back, Mark, Note
from bayleaf.usecases.check_dossier import check_dossier
from moments.day import Day, findings

REASON = "Handed over to another shop as it stands."


def row_of(day: Day) -> dict[str, Any]:
    rows = day.server.office().get(f"/api/jobs/{day.job}/filed").get_json()["filed"]
    (row,) = rows
    return dict(row)


def dossier_of(day: Day, dossier: str) -> bytes:
    answer = day.server.office().get(f"/api/filed/{dossier}/dossier")
    assert answer.status_code == 200
    return bytes(answer.data)


def entries_in(content: bytes) -> int:
    with zipfile.ZipFile(BytesIO(content)) as opened:
        (name,) = (one for one in opened.namelist() if one.endswith("/data/entries.jsonl"))
        return len(opened.read(name).splitlines())


def test_what_a_phone_brings_after_filing_is_taken_and_filed_beside_it(day: Day) -> None:
    day.upto("rem-04")
    day.do("rem-03", "1 09:00", OSKAR, Away(OSKARS_PHONE))
    notes = [Note(f"Seen while I held the lamp, {number} of 14.") for number in range(1, 15)]
    day.do("rem-03", "1 09:10", OSKAR, *notes, Mark("H2", "damaged_hole", name="hole"))

    day.turn_to("3 10:00")
    filed = day.server.office().post(f"/api/jobs/{day.job}/file", json={"reason": REASON})
    assert filed.status_code == 200, filed.text
    first = filed.get_json()
    before = dossier_of(day, first["dossier"])
    assert sha256_hex(before) == first["sha256"]
    held = len(day.entries())
    assert (row_of(day)["after_filing"], entries_in(before)) == (0, held)

    day.do("rem-03", "9 08:00", MARA, Back(OSKARS_PHONE))
    assert set(day.pens.fates) == {("taken", "")}
    assert len(day.entries()) == held + 15
    assert ("damaged_hole", "H2") in findings(day.state())
    late = row_of(day)
    assert (late["dossier"], late["after_filing"], late["late_ms"] is not None) == (
        first["dossier"],
        15,
        True,
    )

    reason = {"reason": "Oskar's phone was found in a drawer."}
    added = day.server.office().post(f"/api/jobs/{day.job}/addendum", json=reason)
    assert added.status_code == 200, added.text
    second = added.get_json()
    row = row_of(day)
    assert (row["dossier"], row["after_filing"]) == (second["dossier"], 0)
    assert [(one["dossier"], one["sha256"]) for one in row["earlier"]] == [
        (first["dossier"], first["sha256"])
    ]
    assert dossier_of(day, first["dossier"]) == before
    both = (before, dossier_of(day, second["dossier"]))
    assert entries_in(both[1]) == held + 16  # the fifteen, and the `file` entry of the addendum
    for content in both:
        verdict = check_dossier(ContainerReader(BytesIO(content)), verifies, first["seal_fingerprint"])
        assert verdict.good, verdict.faults
