"""A backup is a consistent copy, made while the shop writes on, and a plain copy puts it back."""

from __future__ import annotations

import json
import shutil
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from bayleaf.adapters.backup_folder import MANIFEST, BackupFolder
from bayleaf.adapters.disk import Disk
from bayleaf.usecases.backup import BackupFault, make_backup
from unit.backup.shop_folder import ShopFolder


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[ShopFolder]:
    made = ShopFolder(tmp_path / "data")
    yield made
    made.close()


def backed_up(shop: ShopFolder, folder: Path, disk: Disk | None = None) -> dict[str, object]:
    make_backup(BackupFolder(shop.data, folder, disk), shop.photos, shop.clock)
    found: dict[str, object] = json.loads((folder / MANIFEST).read_text())
    return found


def rows(folder: Path, query: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(folder / "bayleaf.sqlite3")) as database:
        return database.execute(query).fetchall()


def test_the_copy_holds_database_photos_thumbnails_and_keys(shop: ShopFolder, tmp_path: Path) -> None:
    photo = shop.add_photo(b"first")
    shop.photos.put_thumb(shop.sha256(b"small"), b"small")
    manifest = backed_up(shop, tmp_path / "copy")
    assert (manifest["state"], manifest["photos"], manifest["copied"]) == ("finished", 1, 1)
    assert (tmp_path / "copy" / "photos" / photo[:2] / photo).read_bytes() == b"first"
    assert rows(tmp_path / "copy", "SELECT sha256 FROM photo") == [(photo,)]
    for name in (
        "seal.pem",
        "secret",
        "push.pem",
        f"thumbs/{shop.sha256(b'small')[:2]}/{shop.sha256(b'small')}",
    ):
        assert (tmp_path / "copy" / name).read_bytes() == (shop.data / name).read_bytes()


def test_writes_go_on_during_a_backup_and_every_photo_that_the_copy_names_is_in_it(
    shop: ShopFolder, tmp_path: Path
) -> None:
    for number in range(20):
        shop.add_photo(f"before {number}".encode())
    stop = threading.Event()
    written: list[str] = []

    def write_on() -> None:
        while not stop.is_set():
            written.append(shop.add_photo(f"during {len(written)}".encode()))

    writer = threading.Thread(target=write_on)
    writer.start()
    try:
        for turn in range(5):
            before = len(written)
            backed_up(shop, tmp_path / f"copy{turn}")
            assert len(written) > before, "the writer was stopped by the backup"
    finally:
        stop.set()
        writer.join()
    for turn in range(5):
        copy = tmp_path / f"copy{turn}"
        named = rows(copy, "SELECT sha256 FROM photo")
        assert len(named) >= 20
        assert all((copy / "photos" / str(sha)[:2] / str(sha)).is_file() for (sha,) in named)
        assert rows(copy, "PRAGMA integrity_check") == [("ok",)]


def test_only_a_finished_backup_covers_photos(shop: ShopFolder, tmp_path: Path) -> None:
    photo, lost = shop.add_photo(b"kept"), shop.add_photo(b"lost")
    (shop.data / "photos" / lost[:2] / lost).unlink()
    with pytest.raises(BackupFault, match=f"{lost}: named by the database and not in the data folder"):
        backed_up(shop, tmp_path / "copy")
    assert shop.photos.covered([photo, lost]) == set()
    assert json.loads((tmp_path / "copy" / MANIFEST).read_text())["state"] == "begun"
    (shop.data / "photos" / lost[:2] / lost).write_bytes(b"lost")
    backed_up(shop, tmp_path / "copy")
    assert shop.photos.covered([photo, lost]) == {photo, lost}


def test_a_photo_whose_bytes_are_not_those_of_its_name_is_told(shop: ShopFolder, tmp_path: Path) -> None:
    photo = shop.add_photo(b"whole")
    (shop.data / "photos" / photo[:2] / photo).write_bytes(b"wh0le")
    with pytest.raises(BackupFault, match="its bytes are not those of its name"):
        backed_up(shop, tmp_path / "copy")


def test_a_second_backup_copies_only_what_is_new(shop: ShopFolder, tmp_path: Path) -> None:
    shop.add_photo(b"one")
    backed_up(shop, tmp_path / "copy")
    shop.add_photo(b"two")
    manifest = backed_up(shop, tmp_path / "copy")
    assert (manifest["photos"], manifest["copied"]) == (2, 1)


def test_a_backup_that_breaks_off_leaves_the_earlier_one_whole(shop: ShopFolder, tmp_path: Path) -> None:
    first = shop.add_photo(b"one")
    backed_up(shop, tmp_path / "copy")
    shop.add_photo(b"two")
    with pytest.raises(OSError, match="no space"):
        backed_up(shop, tmp_path / "copy", FullDisk())
    assert rows(tmp_path / "copy", "SELECT sha256 FROM photo") == [(first,)]
    assert json.loads((tmp_path / "copy" / MANIFEST).read_text())["state"] == "finished"


class FullDisk(Disk):
    """A disk that is full when a photo comes."""

    def append(self, path: Path, offset: int, chunks: object) -> int:
        raise OSError(28, "no space", str(path))


def test_the_database_is_put_in_place_only_after_all_files_are_synced(
    shop: ShopFolder, tmp_path: Path
) -> None:
    photo = shop.add_photo(b"one")
    disk = Recording()
    backed_up(shop, tmp_path / "copy", disk)
    named = disk.acts.index("rename bayleaf.sqlite3.part")
    assert disk.acts.index(f"sync {photo}.part") < disk.acts.index(f"rename {photo}.part") < named
    assert disk.acts.index("sync bayleaf.sqlite3.part") < named
    assert disk.acts.index(f"sync {photo[:2]}") < named
    assert disk.acts[-1] == "sync copy"


class Recording(Disk):
    """A disk that remembers what it was asked."""

    def __init__(self) -> None:
        self.acts: list[str] = []

    def sync(self, path: Path) -> None:
        self.acts.append(f"sync {path.name}")
        super().sync(path)

    def rename(self, old: Path, new: Path) -> None:
        self.acts.append(f"rename {old.name}")
        super().rename(old, new)


@pytest.mark.parametrize("inside", ["", "backup", "../"])
def test_the_data_folder_and_its_neighbourhood_are_refused(shop: ShopFolder, inside: str) -> None:
    with pytest.raises(BackupFault, match="lies with the data folder itself"):
        backed_up(shop, shop.data / inside)


def test_a_folder_with_other_things_in_it_is_refused_and_left_alone(shop: ShopFolder, tmp_path: Path) -> None:
    (tmp_path / "foreign").mkdir()
    (tmp_path / "foreign" / "letter.txt").write_text("mine")
    with pytest.raises(BackupFault, match="not empty, and no backup of Bayleaf"):
        backed_up(shop, tmp_path / "foreign")
    assert [path.name for path in (tmp_path / "foreign").iterdir()] == ["letter.txt"]


def test_the_backup_of_another_shop_is_refused(shop: ShopFolder, tmp_path: Path) -> None:
    other = ShopFolder(tmp_path / "other")
    backed_up(other, tmp_path / "copy")
    other.close()
    with pytest.raises(BackupFault, match="holds the backup of another shop"):
        backed_up(shop, tmp_path / "copy")


def test_a_plain_copy_of_the_backup_is_a_shop_again(shop: ShopFolder, tmp_path: Path) -> None:
    photo = shop.add_photo(b"one")
    log = shop.log_name()
    backed_up(shop, tmp_path / "copy")
    shutil.copytree(tmp_path / "copy", tmp_path / "put back")
    again = ShopFolder(tmp_path / "put back")
    assert again.photos.photo_bytes(photo) == b"one"
    assert again.log_name() == log
    assert again.seal_public_key == shop.seal_public_key
    again.add_photo(b"more")
    again.close()
