"""Acknowledged means on disk: every connection syncs fully, and nothing is answered before it is there."""

from __future__ import annotations

import sqlite3
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import text

from bayleaf.adapters.database import open_engine, reading, writing
from bayleaf.adapters.disk_photos import DiskPhotos
from bayleaf.adapters.tables import db, metadata
from bayleaf.photo_ports import Upload
from bayleaf.ports import Caller
from bayleaf.usecases.fates import Brought, DeviceClock
from bayleaf.usecases.receive_photo import add_to_upload, begin_upload, put_thumb
from bayleaf.usecases.sync import SyncRequest, sync
from harness.pictures import jpeg, sha
from harness.record import record_on_disk
from harness.recording import FullDiskLog, RecordingDisk, RecordingLog
from harness.server import bench

FULL = 2
PRAGMAS = {"synchronous": FULL, "journal_mode": "wal", "foreign_keys": 1}


def test_every_connection_writes_ahead_and_syncs_fully(tmp_path: Path) -> None:
    engine = open_engine(f"sqlite:///{tmp_path / 'store.sqlite3'}")
    with ExitStack() as stack:
        connections = [stack.enter_context(how(engine)) for how in [reading] * 9 + [writing]]
        for connection in connections:
            found = {name: connection.scalar(text(f"PRAGMA {name}")) for name in PRAGMAS}
            assert found == PRAGMAS
    engine.dispose()


def test_the_connections_of_the_app_do_so_too(tmp_path: Path) -> None:
    made = bench(tmp_path / "data")
    with made.app.app_context(), ExitStack() as stack:
        for _ in range(5):
            connection = stack.enter_context(db.engine.connect())
            found = {name: connection.scalar(text(f"PRAGMA {name}")) for name in PRAGMAS}
            assert found == PRAGMAS
    made.close()


def test_a_new_file_is_written_ahead_from_its_first_connection(tmp_path: Path) -> None:
    engine = open_engine(f"sqlite:///{tmp_path / 'store.sqlite3'}")
    metadata.create_all(engine)
    engine.dispose()
    with sqlite3.connect(tmp_path / "store.sqlite3") as plain:
        assert plain.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    plain.close()


def test_a_sync_is_answered_after_its_entries_are_on_disk(tmp_path: Path) -> None:
    record = record_on_disk(tmp_path)
    mara = record.phone(record.person("Mara Ilves", "technician"), "technician")
    job = record.job(mara.person)
    acts: list[str] = []
    record.office = replace(record.office, log=RecordingLog(record.office.log, acts))
    answer = record.sync(mara, {job: 2}, texts=[mara.write(job)], heads=[mara.head(job)])
    acts.append("answer")
    assert [fate["fate"] for fate in answer["fates"]] == ["taken"]
    assert acts == ["write entries", "sync entries", "answer"]


def test_a_sync_that_cannot_be_committed_acknowledges_and_keeps_nothing(tmp_path: Path) -> None:
    record = record_on_disk(tmp_path)
    mara = record.phone(record.person("Mara Ilves", "technician"), "technician")
    job, log = record.job(mara.person), record.office.log
    record.office = replace(record.office, log=FullDiskLog(log, []))
    texts = [mara.write(job), "no entry at all"]
    with pytest.raises(OSError, match="no space"):
        record.sync(mara, {job: 2}, texts=texts, heads=[mara.head(job)])
    record.office = replace(record.office, log=log)
    assert record.kinds(job) == ["open", "assign"]
    assert record.said(mara, texts, [mara.head(job)]) == ["taken", "not_json"]


def test_a_photo_is_answered_after_bytes_name_and_row_are_on_disk(tmp_path: Path) -> None:
    record = record_on_disk(tmp_path)
    mara = record.phone(record.person("Mara Ilves", "technician"), "technician")
    job, photo, disk = record.job(mara.person), jpeg(3), RecordingDisk()
    engine = open_engine(f"sqlite:///{tmp_path / 'bayleaf.sqlite3'}")
    record.office = replace(record.office, photos=DiskPhotos(engine, tmp_path, disk))
    caller = Caller("device", mara.device, mara.person)
    claimed = Upload("", sha(photo), len(photo), "image/jpeg", job, mara.device, 0)
    begun = begin_upload(record.office, caller, claimed)
    disk.acts.clear()
    add_to_upload(record.office, caller, begun.id, 0, [photo[:900]])
    assert disk.acts == ["write upload", "sync upload"]
    disk.acts.clear()
    add_to_upload(record.office, caller, begun.id, 900, [photo[900:]])
    assert disk.acts == [
        "write upload",
        "sync upload",
        "sync folder photos",
        "sync upload",
        "rename upload to photo",
        "sync folder photos",
    ]
    assert record.office.photos.held([sha(photo)])
    engine.dispose()


def test_a_thumbnail_is_on_disk_when_it_is_answered(tmp_path: Path) -> None:
    record, thumb, disk = record_on_disk(tmp_path), jpeg(4, (20, 20)), RecordingDisk()
    engine = open_engine(f"sqlite:///{tmp_path / 'bayleaf.sqlite3'}")
    record.office = replace(record.office, photos=DiskPhotos(engine, tmp_path, disk))
    disk.acts.clear()
    put_thumb(record.office, sha(thumb), thumb)
    assert [act.split()[0] for act in disk.acts] == ["write", "sync", "sync", "rename", "sync"]
    assert disk.acts[-1] == "sync folder thumbs"
    engine.dispose()


def test_each_sync_records_what_the_clocks_of_the_device_showed(tmp_path: Path) -> None:
    record = record_on_disk(tmp_path)
    mara = record.phone(record.person("Mara Ilves", "technician"), "technician")
    brought = Brought((), clock=DeviceClock("00000000-0000-4000-8000-0000000010ad", 41, 7))
    sync(record.office, mara.caller(), SyncRequest(1, record.name(), {}, brought))
    with sqlite3.connect(tmp_path / "bayleaf.sqlite3") as kept:
        rows = kept.execute("SELECT device, load, at_ms, mono_ms, server_ms FROM clock_sync").fetchall()
    assert rows == [(mara.device, "00000000-0000-4000-8000-0000000010ad", 41, 7, record.clock.now_ms())]
