"""Two requests for one upload at once: one of them finishes it, and neither finds a fault of the server."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.disk_photos import DiskPhotos
from bayleaf.photo_ports import Upload
from bayleaf.ports import Caller
from bayleaf.usecases.receive_photo import Progress, add_to_upload, begin_upload
from bayleaf.usecases.refusal import Refusal
from harness.pictures import jpeg
from harness.record import Record, record_on_disk

PHOTO = jpeg(1, (64, 48))
SHA = hashlib.sha256(PHOTO).hexdigest()


class InterruptedPhotos(DiskPhotos):
    """Photos on disk; in the midst of one request, before it reads what came, another is heard."""

    other: Callable[[], None] | None = None

    def read(self, upload_id: str) -> Iterable[bytes]:
        other, self.other = self.other, None
        if other is not None:
            other()
        return super().read(upload_id)


@dataclass
class Uploading:
    """A phone in the midst of an upload, with all but the last bytes on disk."""

    record: Record
    photos: InterruptedPhotos
    caller: Caller
    id: str
    refused: str = ""

    def ask(self, offset: int) -> Progress:
        return add_to_upload(self.record.office, self.caller, self.id, offset, [PHOTO[offset:]])

    def ask_meanwhile(self, offset: int) -> None:
        """The other request, whose own answer is kept."""
        with pytest.raises(Refusal) as refused:
            self.ask(offset)
        self.refused = refused.value.code


@pytest.fixture
def uploading(tmp_path: Path) -> Uploading:
    record = record_on_disk(tmp_path)
    photos = InterruptedPhotos(open_engine(f"sqlite:///{tmp_path / 'bayleaf.sqlite3'}"), tmp_path)
    record.office = replace(record.office, photos=photos)
    mara = record.phone(record.person("Mara Ilves", "technician"), "technician")
    claimed = Upload("", SHA, len(PHOTO), "image/jpeg", record.job(mara.person), "", 0)
    begun = begin_upload(record.office, mara.caller(), claimed)
    return Uploading(record, photos, mara.caller(), begun.id)


@pytest.mark.parametrize("sent", [len(PHOTO), len(PHOTO) - 5])
def test_a_second_request_while_one_finishes_is_told_to_ask_again(uploading: Uploading, sent: int) -> None:
    uploading.photos.add(uploading.id, 0, [PHOTO[:sent]])
    uploading.photos.other = lambda: uploading.ask_meanwhile(len(PHOTO))
    assert uploading.ask(sent).offset == len(PHOTO)
    assert uploading.refused == "busy_upload"
    assert uploading.photos.photo_bytes(SHA) == PHOTO


def test_a_second_request_after_one_has_finished_is_told_where_the_bytes_end(uploading: Uploading) -> None:
    uploading.ask(0)
    with pytest.raises(Refusal) as refused:
        uploading.ask(0)
    assert (refused.value.code, refused.value.named) == ("wrong_offset", {"offset": len(PHOTO)})
