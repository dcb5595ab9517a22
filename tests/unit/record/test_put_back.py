"""Reconciling, and a server that was put back from an older copy: its phones make it whole again."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import pytest

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.memory_entry_log import MemoryEntryLog, MemoryLogWriting
from bayleaf.adapters.sql_entry_log import SqlEntryLog
from bayleaf.canonical.digest import set_digest
from bayleaf.ports import SignedHead
from bayleaf.usecases.fates import ShownCard
from bayleaf.usecases.reconcile import ReconcileRequest, reconcile
from harness.record import Record, Writer, record_in_memory, record_on_disk


@dataclass
class Phone:
    """As much of a phone as sync needs: it keeps what it wrote and heard, and reconciles when told to."""

    record: Record
    writer: Writer
    log: str = ""
    cursors: dict[str, int] = field(default_factory=dict)
    held: dict[str, dict[str, str]] = field(default_factory=dict)
    heads: dict[str, SignedHead] = field(default_factory=dict)
    cards: dict[str, ShownCard] = field(default_factory=dict)
    unsent: list[str] = field(default_factory=list)

    def write(self, job: str, *args: Any, **named: Any) -> str:
        text = self.writer.write(job, *args, **named)
        self.unsent.append(text)
        return self._keep(job, text)

    def sync(self) -> dict[str, Any]:
        jobs = {json.loads(text)["job"] for text in self.unsent}
        heads = [self.writer.head(job) for job in sorted(jobs)]
        answer = self._exchange(self.unsent, heads)
        self.unsent = []
        changed = self.log not in ("", answer["log"])
        if not changed:
            self.log = answer["log"]
            self.cursors |= {one["job"]: one["cursor"] for one in answer["jobs"]}
        for job in answer["reconcile"]:
            self.reconcile(job)
        if changed:
            self.log = answer["log"]
        return answer

    def reconcile(self, job: str) -> None:
        for _ in range(9):
            hashes = sorted(self.held.get(job, {}))
            request = ReconcileRequest(self.log, job, hashes, set_digest(hashes))
            answer = reconcile(self.record.office, self.writer.caller(), request)
            self._hear(job, answer)
            if not answer["missing_here"] and not answer["entries"]:
                self.cursors[job] = answer["cursor"]
                return
            texts = [self.held[job][found] for found in answer["missing_here"]]
            self._exchange(texts, [head for head in self.heads.values() if head.job == job])
        raise AssertionError("no end of reconciling")

    def _exchange(self, texts: Sequence[str], heads: Sequence[SignedHead]) -> dict[str, Any]:
        cards = tuple(self.cards.values())
        answer = self.record.sync(
            self.writer, self.cursors, log=self.log, texts=texts, heads=heads, cards=cards
        )
        for one in answer["jobs"]:
            self._hear(one["job"], one)
        self.heads |= {head.hash: head for head in heads}
        for card in answer["cards"]:
            self.cards[card["card"]] = ShownCard(card["card"], card["signature"])
        return answer

    def _hear(self, job: str, answer: dict[str, Any]) -> None:
        for one in answer["entries"]:
            self._keep(job, one["text"])
        for head in answer["heads"]:
            if head["signature"]:
                signed = SignedHead(job, head["device"], head["seq"], head["hash"], head["signature"])
                self.heads[head["hash"]] = signed
        for card in answer.get("cards", ()):
            self.cards[card["card"]] = ShownCard(card["card"], card["signature"])

    def _keep(self, job: str, text: str) -> str:
        found = str(json.loads(text)["hash"])
        self.held.setdefault(job, {})[found] = text
        return found


@dataclass
class Shop:
    """A record on disk that can be put back from a copy of its folder."""

    folder: Path
    record: Record

    def phone(self, name: str, *roles: str) -> Phone:
        writer = self.record.phone(self.record.person(name, *roles), *roles)
        return Phone(self.record, writer)

    def copy(self) -> None:
        shutil.copytree(self.folder / "store", self.folder / "copy", dirs_exist_ok=True)

    def put_back(self, *phones: Phone) -> None:
        """By plain file copy."""
        shutil.rmtree(self.folder / "store")
        shutil.copytree(self.folder / "copy", self.folder / "store")
        engine = open_engine(f"sqlite:///{self.folder / 'store' / 'bayleaf.sqlite3'}")
        self.record.office = replace(self.record.office, log=SqlEntryLog(engine))
        for phone in phones:
            phone.record = self.record

    def held(self, job: str) -> set[str]:
        with self.record.office.log.reading() as log:
            return set(log.hashes(job))

    def server(self) -> str:
        with self.record.office.log.reading() as log:
            return log.own_device().id


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    (tmp_path / "store").mkdir()
    return Shop(tmp_path, record_on_disk(tmp_path / "store"))


def test_a_put_back_server_is_made_whole_and_writes_under_a_new_name(shop: Shop) -> None:
    mara = shop.phone("Mara Ilves", "technician")
    job = shop.record.job(mara.writer.person)
    mara.sync()
    shop.copy()
    name, device = shop.record.name(), shop.server()
    mara.write(job)
    mara.sync()
    shop.record.write(job, "place", {"place": "bay 2", "over": []})
    mara.sync()
    before = shop.held(job)
    shop.put_back(mara)
    mara.sync()
    assert shop.held(job) == before
    assert shop.record.name() != name
    assert shop.server() != device
    assert set(mara.held[job]) == before
    shop.record.write(job, "place", {"place": "bay 3", "over": []})
    with shop.record.office.log.reading() as log:
        assert log.tip(job, device) == (3, log.tip(job, device)[1])  # type: ignore[index]
        assert log.tip(job, shop.server()) is not None


def test_a_job_that_the_copy_never_had_is_made_again_from_its_opening(shop: Shop) -> None:
    mara = shop.phone("Mara Ilves", "technician")
    shop.copy()
    job = shop.record.job(mara.writer.person)
    mara.sync()
    mara.write(job)
    mara.sync()
    before = shop.held(job)
    shop.put_back(mara)
    mara.reconcile(job)
    assert shop.held(job) >= before
    with shop.record.office.log.reading() as log:
        row = log.job(job)
        assert row is not None
        assert (row.shell, row.order) == (False, "T-1")
        assert log.jobs_of(mara.writer.person, 0) == [job]
        assert not [mark for mark in log.asides(job) if not mark.admitted]


def test_other_phones_may_write_first_and_all_agree_in_the_end(shop: Shop) -> None:
    mara, oskar = shop.phone("Mara Ilves", "technician"), shop.phone("Oskar Teal", "technician")
    job = shop.record.job(mara.writer.person, oskar.writer.person)
    for phone in (mara, oskar):
        phone.sync()
    shop.copy()
    mara.write(job)
    shop.record.write(job, "place", {"place": "bay 2", "over": []})
    mara.sync()
    shop.put_back(mara, oskar)
    oskar.write(job)
    oskar.sync()
    shop.record.write(job, "place", {"place": "bay 7", "over": []})
    for phone in (oskar, mara, oskar, mara, oskar):
        phone.sync()
        phone.reconcile(job)
    assert set(mara.held[job]) == set(oskar.held[job]) == shop.held(job)
    assert mara.cursors[job] == oskar.cursors[job] == len(shop.held(job))


def test_a_phone_whose_device_was_forgotten_is_known_again_by_its_card(shop: Shop) -> None:
    mara, oskar = shop.phone("Mara Ilves", "technician"), shop.phone("Oskar Teal", "technician")
    job = shop.record.job(mara.writer.person, oskar.writer.person)
    card = shop.record.card(mara.writer)
    shop.record.office.devices.devices.pop(mara.writer.device)  # type: ignore[attr-defined]
    text = mara.writer.write(job)
    assert shop.record.said(oskar.writer, [text], [mara.writer.head(job)]) == ["unsigned"]
    answer = shop.record.sync(oskar.writer, {}, texts=[text], heads=[mara.writer.head(job)], cards=[card])
    assert [fate["fate"] for fate in answer["fates"]] == ["taken"]


def test_a_card_that_the_seal_did_not_sign_lets_nobody_in(shop: Shop) -> None:
    stranger = Writer(shop.record.ids.uuid(), shop.record.ids.uuid(), ("technician",))
    card = shop.record.card(stranger)
    shop.record.sync(stranger, {}, cards=[replace(card, signature="0" * 128)])
    assert shop.record.office.devices.find(stranger.device) is None


def test_a_forged_head_of_the_servers_chain_does_not_rename_the_store(shop: Shop) -> None:
    mara = shop.phone("Mara Ilves", "technician")
    job = shop.record.job(mara.writer.person)
    name = shop.record.name()
    forged = Writer(shop.server(), mara.writer.person, ("office",))
    text = forged.write(job, "close", {"reason": "", "over": []})
    assert shop.record.said(mara.writer, [text], [forged.head(job)]) == ["unsigned"]
    assert shop.record.name() == name


def test_reconciling_two_equal_sets_ends_at_once_and_sets_the_cursor(shop: Shop) -> None:
    mara = shop.phone("Mara Ilves", "technician")
    job = shop.record.job(mara.writer.person)
    mara.sync()
    mara.cursors[job] = 0
    mara.reconcile(job)
    assert mara.cursors[job] == 2


def test_a_differing_digest_of_equal_sets_is_reported(shop: Shop) -> None:
    mara = shop.phone("Mara Ilves", "technician")
    job = shop.record.job(mara.writer.person)
    mara.sync()
    request = ReconcileRequest(mara.log, job, sorted(mara.held[job]), "f" * 64)
    reconcile(shop.record.office, mara.writer.caller(), request)
    assert "ffff" in shop.record.office.office_log.lines(1)[0].text


def test_a_foreign_phone_is_told_nothing_of_a_job(shop: Shop) -> None:
    mara, oskar = shop.phone("Mara Ilves", "technician"), shop.phone("Oskar Teal", "technician")
    job = shop.record.job(mara.writer.person)
    answer = reconcile(shop.record.office, oskar.writer.caller(), ReconcileRequest("", job, [], ""))
    assert (answer["entries"], answer["heads"], answer["cards"]) == ([], [], [])


class LogWithAnother(MemoryEntryLog):
    """A log in memory; just before one transaction begins, another phone is heard."""

    other: Callable[[], None] | None = None

    @contextmanager
    def writing(self) -> Iterator[MemoryLogWriting]:
        other, self.other = self.other, None
        if other is not None:
            other()
        with super().writing() as log:
            yield log


def test_two_phones_at_once_rename_a_store_that_was_put_back_only_once() -> None:
    log = LogWithAnother()
    record = record_in_memory(log)
    mara, oskar = (
        record.phone(record.person(name, "technician"), "technician") for name in ("Mara", "Oskar")
    )
    job = record.job(mara.person, oskar.person)
    older = log.state
    record.write(job, "place", {"place": "lift 2", "over": []})
    name, heard, told = record.name(), {job: 4}, []
    log.state = older
    log.other = lambda: told.append(record.sync(oskar, heard, log=name)["log"])
    told.append(record.sync(mara, heard, log=name)["log"])
    assert told[0] == told[1] == record.name() != name
