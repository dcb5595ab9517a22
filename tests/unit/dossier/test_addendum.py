"""What a phone from a drawer brings for a filed job: taken, marked, and filed as an addendum."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bayleaf.domain import dossier
from bayleaf.usecases.fates import Fate
from bayleaf.usecases.file_job import Outcome, file_addendum
from bayleaf.usecases.filed_list import Asked, filed_of_job, late_jobs, search_filed
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.server_pen import Draft
from bayleaf.usecases.write_office_entry import write_office_entries
from unit.dossier.filing_shop import REASON, FilingShop

EVER = 2**53 - 1
LATE_REASON = "A phone lay in a drawer."


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[FilingShop]:
    made = FilingShop(tmp_path / "data")
    made.filing = replace(made.filing, typesetter=None)  # its report in letters is enough here
    yield made
    made.parts.close()


def fourteen_and_a_rivet_mark(shop: FilingShop) -> list[str]:
    notes = [{**shop.step("spn-01"), "text": f"late note {number}", "about": []} for number in range(14)]
    mark = {"position": "H4", "generation": 0, "mark": "damaged_hole", "piece": "", "lost": ""}
    return [*(shop.phone.write("note", note) for note in notes), shop.phone.write("tally", mark)]


def add(shop: FilingShop, reason: str = LATE_REASON) -> Outcome:
    return file_addendum(shop.office, shop.filing, shop.job, shop.ada.id, reason)


def refused(shop: FilingShop) -> str:
    with pytest.raises(Refusal) as told:
        add(shop)
    return told.value.code


def test_archived_then_late_entries(shop: FilingShop) -> None:
    """They are taken, the dossier is marked, an addendum names it, and nobody's file is rewritten."""
    shop.bring(shop.tick("spn-01"))
    first = shop.file()
    sealed = shop.path(first).read_bytes()

    assert shop.bring(*fourteen_and_a_rivet_mark(shop)) == [Fate.TAKEN] * 15
    (late,) = late_jobs(shop.office, shop.filing)
    assert (late["dossier"], late["after_filing"]) == (first.dossier, 15)
    assert late["late_ms"]

    second = add(shop)
    verdict = shop.check(second)
    assert verdict.good, verdict.faults
    assert verdict.notes[0] == f"addendum: follows dossier {first.dossier}, SHA-256 {first.sha256}"
    about = json.loads(shop.member(second, dossier.ABOUT))
    filing = json.loads(shop.member(first, dossier.ABOUT))["file"]
    assert about["supersedes"] == [{"dossier": first.dossier, "sha256": first.sha256, "file": filing}]
    assert set(shop.member(first, dossier.ENTRIES).splitlines()) < set(
        shop.member(second, dossier.ENTRIES).splitlines()
    )
    assert shop.member(second, dossier.ENTRIES).count(b"late note") == 14
    assert shop.path(first).read_bytes() == sealed
    assert shop.check(first).good
    assert late_jobs(shop.office, shop.filing) == []


def test_the_list_shows_the_addendum_with_the_dossier_before_it(shop: FilingShop) -> None:
    first = shop.file()
    shop.bring(shop.tick("spn-01"))
    second = add(shop)
    (row,) = filed_of_job(shop.office, shop.filing, shop.job)
    assert (row["dossier"], row["after_filing"], row["reason"]) == (second.dossier, 0, LATE_REASON)
    earlier = row["earlier"]
    assert isinstance(earlier, list)
    assert [(one["dossier"], one["reason"]) for one in earlier] == [(first.dossier, REASON)]


def test_an_addendum_follows_an_addendum_and_names_all_before_it(shop: FilingShop) -> None:
    outcomes = [shop.file()]
    for step in ("spn-01", "spn-02"):
        shop.bring(shop.tick(step))
        outcomes.append(add(shop))
    about = json.loads(shop.member(outcomes[-1], dossier.ABOUT))
    assert [one["dossier"] for one in about["supersedes"]] == [one.dossier for one in outcomes[:2]]
    assert all(shop.check(one).good for one in outcomes)
    found = search_filed(shop.office, shop.filing, Asked("", 0, EVER, ""))["filed"]
    assert isinstance(found, list)
    assert [row["dossier"] for row in found] == [outcomes[-1].dossier]


def test_without_late_entries_or_without_a_dossier_there_is_no_addendum(shop: FilingShop) -> None:
    assert refused(shop) == "not_filed"
    shop.file()
    assert refused(shop) == "nothing_late"


def test_an_addendum_of_an_incomplete_job_needs_a_written_reason(shop: FilingShop) -> None:
    shop.file()
    shop.bring(shop.tick("spn-01"))
    with pytest.raises(Refusal) as told:
        add(shop, reason=" ")
    assert told.value.code == "incomplete"
    assert len(shop.filing.register.all()) == 1


def test_a_deviation_that_nobody_accepted_is_missing_and_an_accepted_one_is_not(shop: FilingShop) -> None:
    about = {**shop.step("spn-04"), "text": "bracket in the way", "about": [], "passes_hold": False}
    shop.bring(shop.phone.write("deviation", about))
    deviation = shop.phone.last
    first = json.loads(shop.member(shop.file(), dossier.ABOUT))
    assert "deviation spn-04 not accepted" in first["missing"]
    accept = {"code": "deviation", "at": ["spine", "spn-04"], "hashes": [deviation], "reason": "seen"}
    write_office_entries(shop.office, shop.job, shop.ada.id, [Draft("accept", accept)])
    second = add(shop)
    assert "deviation spn-04 not accepted" not in json.loads(shop.member(second, dossier.ABOUT))["missing"]
    assert shop.check(second).good


def test_what_comes_while_the_dossier_is_written_makes_it_late_at_once(
    shop: FilingShop, monkeypatch: pytest.MonkeyPatch
) -> None:
    write = shop.filing.dossiers.write

    def then_a_phone_syncs(*named: object) -> object:
        shop.bring(shop.tick("spn-01"))
        return write(*named)  # type: ignore[arg-type]

    monkeypatch.setattr(shop.filing.dossiers, "write", then_a_phone_syncs)
    outcome = shop.file()
    (late,) = late_jobs(shop.office, shop.filing)
    assert (late["dossier"], late["after_filing"]) == (outcome.dossier, 1)


def test_entries_that_are_set_aside_make_a_dossier_late_too(shop: FilingShop) -> None:
    shop.bring(shop.tick("spn-01"))
    shop.file()
    assert shop.bring(shop.tick("spn-02"), signed=False) == [Fate.SET_ASIDE]
    (late,) = late_jobs(shop.office, shop.filing)
    assert late["after_filing"] == 2  # the entry, and the office's word that it is set aside


def test_an_addendum_that_leaves_out_what_it_follows_is_found(shop: FilingShop) -> None:
    """Its `file` entries are what the check can see of it."""
    from bayleaf.adapters.dossier_zip import ContainerReader
    from bayleaf.domain.dossier_contents import read_contents
    from bayleaf.usecases.dossier_faults import content_faults

    shop.file()
    shop.bring(shop.tick("spn-01"))
    with shop.path(add(shop)).open("rb") as file:
        seen = {member.name: member for member in ContainerReader(file).members()}
    contents = read_contents(seen)
    about = {**contents.about, "supersedes": [{"dossier": "d", "sha256": "0" * 64, "file": "0" * 64}]}
    object.__setattr__(contents, "about", about)
    faults = list(content_faults(seen, contents, "", lambda *_: True))
    assert any("file entries of what it supersedes" in fault for fault in faults)
