"""Filing: the file entry first, then a dossier that anyone can check, then the register."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bayleaf.adapters.signatures import PrivateKey
from bayleaf.canonical.digest import sha256_hex
from bayleaf.domain import dossier
from bayleaf.usecases.fates import Fate
from bayleaf.usecases.file_job import file_job
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.server_pen import Draft
from bayleaf.usecases.write_office_entry import write_office_entries
from unit.dossier.filing_shop import REASON, FilingShop
from unit.dossier.shop import PHOTO


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[FilingShop]:
    made = FilingShop(tmp_path / "data")
    yield made
    made.parts.close()


def test_a_filed_job_is_a_dossier_that_checks_with_the_registers_seal_and_digest(shop: FilingShop) -> None:
    assert shop.bring(shop.tick("spn-01"), shop.photo()) == [Fate.TAKEN, Fate.TAKEN]
    shop.store_photo()
    outcome = shop.file()
    verdict = shop.check(outcome)
    assert verdict.good, verdict.faults
    assert (verdict.photos, verdict.devices) == (1, 2)
    reason, missing = verdict.notes
    assert reason == f"filed incomplete, the reason written: {REASON}"
    assert missing.startswith(
        "missing when it was filed: not closed, step spn-02 open, hold point spn-02 not"
    )
    assert verdict.sha256 == outcome.sha256 == sha256_hex(shop.path(outcome).read_bytes())
    row = shop.filing.register.all()[0]
    assert (row.id, row.sha256, row.seal_fingerprint) == (
        outcome.dossier,
        outcome.sha256,
        verdict.fingerprint,
    )
    assert shop.office.photos.covered([sha256_hex(PHOTO)]) == {sha256_hex(PHOTO)}


def test_names_stand_beside_the_entries_and_never_in_them(shop: FilingShop) -> None:
    shop.bring(shop.tick("spn-01"))
    outcome = shop.file()
    people = json.loads(shop.member(outcome, dossier.PEOPLE))["people"]
    assert sorted(people.values()) == ["Ada Quill", "Mara Ilves"]
    assert b"Mara" not in shop.member(outcome, dossier.ENTRIES)


def test_the_file_entry_is_last_and_names_every_other_chains_head(shop: FilingShop) -> None:
    shop.bring(shop.tick("spn-01"))
    outcome = shop.file()
    last = json.loads(shop.member(outcome, dossier.ENTRIES).splitlines()[-1])
    assert last["kind"] == "file"
    assert last["body"] == {
        "heads": [{"device": shop.phone.id, "seq": 1, "hash": shop.phone.last}],
        "reason": REASON,
    }


def test_an_incomplete_job_is_filed_only_with_a_written_reason(shop: FilingShop) -> None:
    shop.bring(shop.photo())
    with pytest.raises(Refusal) as told:
        shop.file(reason="  ")
    assert told.value.code == "incomplete"
    missing: Any = told.value.named["missing"]
    assert {"not closed", "step spn-01 open", "hold point spn-02 not passed"} <= set(missing)
    assert f"photo {sha256_hex(PHOTO)[:12]} not here" in missing
    assert shop.filing.register.all() == []
    verdict = shop.check(shop.file())
    assert verdict.good, verdict.faults
    assert "photos that never arrived: 1" in verdict.notes


def test_what_comes_after_filing_is_taken_and_is_not_in_the_dossier(shop: FilingShop) -> None:
    shop.bring(shop.tick("spn-01"))
    outcome = shop.file()
    before = shop.path(outcome).read_bytes()
    assert shop.bring(shop.tick("spn-02")) == [Fate.TAKEN]
    assert shop.path(outcome).read_bytes() == before
    assert shop.check(outcome).entries == len(shop.member(outcome, dossier.ENTRIES).splitlines())


def test_entries_set_aside_and_refused_texts_are_kept_in_the_dossier(shop: FilingShop) -> None:
    assert shop.bring(shop.tick("spn-01")) == [Fate.TAKEN]
    stranger = PrivateKey.new()
    unsigned = shop.tick("spn-02")
    shop.phone.key, kept = stranger, shop.phone.key
    assert shop.bring(unsigned, signed=False) == [Fate.SET_ASIDE]
    shop.phone.key = kept
    assert shop.bring('{"not":"an entry"}', signed=False) == [Fate.REFUSED]
    outcome = shop.file()
    verdict = shop.check(outcome)
    assert verdict.good, verdict.faults
    assert "entries without a signed head: 1" in verdict.notes
    assert unsigned.encode() in shop.member(outcome, dossier.ENTRIES)


def test_a_job_is_filed_once(shop: FilingShop) -> None:
    shop.file()
    with pytest.raises(Refusal) as told:
        shop.file()
    assert told.value.code == "already_filed"


def test_a_job_that_is_not_here_and_a_reason_without_end_are_refused(shop: FilingShop) -> None:
    shop.job = "00000000-0000-4000-8000-00000000dead"
    with pytest.raises(Refusal) as unknown:
        shop.file()
    with pytest.raises(Refusal) as endless:
        shop.file(reason="x" * 4001)
    assert (unknown.value.code, endless.value.code) == ("unknown_job", "broken_body")


def test_a_photo_that_rotted_on_disk_stops_the_dossier_and_leaves_no_file(shop: FilingShop) -> None:
    shop.bring(shop.photo())
    shop.store_photo()
    path = Path(shop.office.photos.photo_path(sha256_hex(PHOTO)))
    path.write_bytes(PHOTO[:-1] + b"!")
    with pytest.raises(Refusal) as told:
        shop.file()
    assert told.value.code == "not_sealed"
    assert "its bytes are no longer those of" in str(told.value)
    assert shop.filing.register.all() == []
    assert list((shop.data / "dossiers").glob("*.zip")) == []
    path.write_bytes(PHOTO)
    assert shop.check(shop.file()).good


def test_after_a_dossier_that_could_not_be_written_the_job_is_not_filed(shop: FilingShop) -> None:
    shop.bring(shop.photo())
    shop.store_photo()
    path = Path(shop.office.photos.photo_path(sha256_hex(PHOTO)))
    path.write_bytes(PHOTO[:-1] + b"!")
    with pytest.raises(Refusal):
        shop.file()
    assert shop.filed() == (False, [])
    path.write_bytes(PHOTO)
    outcome = shop.file()
    last = json.loads(shop.member(outcome, dossier.ENTRIES).splitlines()[-1])
    assert shop.filed() == (True, [last["hash"]])


def test_two_office_people_who_file_at_once_make_one_dossier(
    shop: FilingShop, monkeypatch: pytest.MonkeyPatch
) -> None:
    write, codes = shop.filing.dossiers.write, list[str]()

    def other_one_files(*named: Any) -> Any:
        with pytest.raises(Refusal) as told:
            shop.file()
        codes.append(told.value.code)
        return write(*named)

    monkeypatch.setattr(shop.filing.dossiers, "write", other_one_files)
    outcome = shop.file()
    assert codes == ["being_filed"]
    assert [row.id for row in shop.filing.register.all()] == [outcome.dossier]
    assert len(shop.filed()[1]) == 1


def test_a_file_entry_without_a_dossier_does_not_make_a_job_filed(shop: FilingShop) -> None:
    draft = Draft("file", {"heads": [], "reason": "none"})
    with pytest.raises(Refusal) as told:
        write_office_entries(shop.office, shop.job, shop.ada.id, [draft])
    assert (told.value.code, told.value.field) == ("use_file_route", "kind")
    shop.phone.roles = ("office", "technician")
    shop.office.people.set_roles(shop.phone.person, shop.phone.roles, (), shop.office.clock.now_ms())
    assert shop.bring(shop.phone.write("file", draft.body)) == [Fate.TAKEN]
    assert not shop.filed()[0]
    assert shop.check(shop.file()).good


def test_the_dossier_is_on_disk_before_the_register_names_it(
    shop: FilingShop, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[int] = []
    real = os.fsync

    def noting(descriptor: int) -> None:
        real(descriptor)
        synced.append(os.fstat(descriptor).st_ino)

    monkeypatch.setattr(os, "fsync", noting)
    register = Watching(shop, synced)
    outcome = file_job(shop.office, replace(shop.filing, register=register), shop.job, shop.ada.id, REASON)
    assert register.was_synced
    assert shop.path(outcome).is_file()


class Watching:
    """The register, noting whether the dossier and its folder were synced when it was told."""

    def __init__(self, shop: FilingShop, synced: list[int]) -> None:
        self._shop, self._synced = shop, synced
        self.was_synced = False

    def add(self, filed: Any, words: Any) -> None:
        folder = self._shop.data / "dossiers"
        wanted = {(folder / f"{filed.id}.zip").stat().st_ino, folder.stat().st_ino}
        self.was_synced = wanted <= set(self._synced)
        self._shop.filing.register.add(filed, words)

    def all(self) -> Any:
        return self._shop.filing.register.all()

    def find(self, name: str) -> Any:
        return self._shop.filing.register.find(name)

    def of_job(self, job: str) -> Any:
        return self._shop.filing.register.of_job(job)

    def late(self) -> Any:
        return self._shop.filing.register.late()

    def search(self, search: Any) -> Any:
        return self._shop.filing.register.search(search)
