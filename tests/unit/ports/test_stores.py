"""The promises of the photo store, the method store and the office's log, asked of every adapter."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path

import pytest

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.disk_photos import DiskPhotos
from bayleaf.adapters.memory_photos import MemoryMethods, MemoryOfficeLog, MemoryPhotos
from bayleaf.adapters.sql_methods import SqlMethods
from bayleaf.adapters.sql_office_log import SqlOfficeLog
from bayleaf.adapters.tables import metadata
from bayleaf.photo_ports import Busy, NotThere, PhotoStore, StoredPhoto, Upload
from bayleaf.ports import MethodStore, OfficeLine, OfficeLog

CONTENT = b"some bytes that play a photo"
SHA = hashlib.sha256(CONTENT).hexdigest()
UPLOAD = Upload("up-1", SHA, len(CONTENT), "image/jpeg", "job", "device", 1)
STORED = StoredPhoto(SHA, len(CONTENT), "image/jpeg", 4, 3, 2)


def breaking(first: bytes) -> Iterator[bytes]:
    yield first
    raise ConnectionError("the line broke")


def check_photo_store(store: PhotoStore) -> None:
    """Pieces stay where they are put; a photo is here once it is finished, and once only."""
    store.begin(UPLOAD)
    assert (store.upload("up-1"), store.upload("up-2"), store.size("up-1")) == (UPLOAD, None, 0)
    assert store.add("up-1", 0, [CONTENT[:5], CONTENT[5:9]]) == 9
    with pytest.raises(NotThere) as refused:
        store.add("up-1", 5, [b"x"])
    assert refused.value.size == 9
    with pytest.raises(ConnectionError):
        store.add("up-1", 9, breaking(CONTENT[9:12]))
    assert store.size("up-1") == 12, "what came before a break is kept"
    store.add("up-1", 12, [CONTENT[12:]])
    assert b"".join(store.read("up-1")) == CONTENT
    assert (store.held([SHA]), store.find(SHA)) == (set(), None)
    with store.alone("up-1"), pytest.raises(Busy), store.alone("up-1"):
        raise AssertionError("two within")
    with store.alone("up-1"):
        store.finish(UPLOAD, STORED)
    store.finish(UPLOAD, STORED)
    assert (store.held([SHA, "x"]), store.find(SHA), store.photo_bytes(SHA)) == ({SHA}, STORED, CONTENT)
    found = store.upload("up-1")
    assert found is not None
    assert found.whole
    _check_thumbs_and_covers(store)


def _check_thumbs_and_covers(store: PhotoStore) -> None:
    assert (store.thumb(SHA), store.thumbs_held([SHA])) == (None, set())
    store.put_thumb(SHA, b"thumb")
    store.put_thumb(SHA, b"thumb")
    assert (store.thumb(SHA), store.thumbs_held([SHA, "0" * 64])) == (b"thumb", {SHA})
    assert store.covered([SHA]) == set()
    store.cover([SHA, "0" * 64], 7)
    store.cover([SHA], 8)
    assert store.covered([SHA]) == {SHA}
    photo = store.find(SHA)
    assert photo is not None
    assert photo.covered_ms == 7
    store.begin(Upload("up-3", "1" * 64, 3, "image/png", "job", "device", 1))
    store.add("up-3", 0, [b"abc"])
    store.drop("up-3")
    assert (store.upload("up-3"), store.size("up-3")) == (None, 0)
    _check_sweep(store)


def _check_sweep(store: PhotoStore) -> None:
    store.begin(Upload("up-4", "1" * 64, 3, "image/png", "job", "device", 10))
    store.begin(Upload("up-5", "1" * 64, 3, "image/png", "job", "device", 11))
    store.add("up-4", 0, [b"ab"])
    store.add("up-5", 0, [b"a"])
    store.sweep(11)
    assert (store.upload("up-4"), store.size("up-4"), store.upload("up-1")) == (None, 0, None)
    assert (store.size("up-5"), store.photo_bytes(SHA)) == (1, CONTENT)


def check_method_store(store: MethodStore) -> None:
    """Once is enough, and the newest comes first."""
    assert store.texts([]) == {}
    assert store.put("d1", "{}", "yaml: 1", 5)
    assert not store.put("d1", "other", "", 6)
    assert store.put("d2", "[]", "", 9)
    assert store.texts(["d1", "d3"]) == {"d1": "{}"}
    assert list(store.digests()) == ["d2", "d1"]
    assert (store.yaml("d1"), store.imported_ms("d1")) == ("yaml: 1", 5)
    assert store.drawing("w") is None
    store.put_drawing("w", b"<svg/>")
    store.put_drawing("w", b"<svg/>")
    assert (store.drawing("w"), store.drawings_held(["w", "v"])) == (b"<svg/>", {"w"})


def check_office_log(log: OfficeLog) -> None:
    """The newest first."""
    lines = [OfficeLine(at, "device", "job", f"line {at}") for at in range(3)]
    for line in lines:
        log.add(line)
    assert list(log.lines(2)) == lines[:0:-1]


@pytest.fixture(params=["disk", "memory"])
def stores(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[PhotoStore, MethodStore, OfficeLog]:
    if request.param == "memory":
        return MemoryPhotos(), MemoryMethods(), MemoryOfficeLog()
    engine = open_engine(f"sqlite:///{tmp_path / 'store.sqlite3'}")
    metadata.create_all(engine)
    return DiskPhotos(engine, tmp_path), SqlMethods(engine), SqlOfficeLog(engine)


def test_every_photo_store_keeps_the_promise(stores: tuple[PhotoStore, MethodStore, OfficeLog]) -> None:
    check_photo_store(stores[0])


def test_every_method_store_keeps_the_promise(stores: tuple[PhotoStore, MethodStore, OfficeLog]) -> None:
    check_method_store(stores[1])


def test_every_office_log_keeps_the_promise(stores: tuple[PhotoStore, MethodStore, OfficeLog]) -> None:
    check_office_log(stores[2])
