"""Receives photos in pieces, resumable, by SHA-256: whole only at full length and with the right hash."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from bayleaf.photo_ports import Busy, NotThere, StoredPhoto, Upload
from bayleaf.ports import Caller
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sync import jobs_of
from bayleaf.wire.image_header import MAGIC_BYTES, ImageHeader, read_header, type_of

TYPES = ("image/jpeg", "image/png")
MOST_BYTES = 64_000_000
MOST_ACROSS = 20_000
MOST_PIXELS = 200_000_000
THUMB_BYTES = 400_000
ABANDONED_MS = 30 * 24 * 3600 * 1000  # a phone that comes back later begins its photo anew
HEADER_BYTES = 2_000_000  # the frame header of a JPEG may stand behind large segments
START_BYTES = 64_000  # and rarely does


@dataclass(frozen=True)
class Progress:
    """How far an upload is."""

    id: str
    offset: int
    bytes: int


def begin_upload(office: Office, caller: Caller, claimed: Upload) -> Progress:
    """A place for a photo of this hash and length; at its end already if the photo is here."""
    if claimed.type not in TYPES:
        said = f"type: found {claimed.type[:40]}, allowed are JPEG and PNG. Send the photo as JPEG."
        raise Refusal("wrong_type", said, "type")
    if not 0 < claimed.bytes <= MOST_BYTES:
        said = f"Upload-Length: found {claimed.bytes}, allowed are 1 to {MOST_BYTES} bytes."
        raise Refusal("too_large" if claimed.bytes > MOST_BYTES else "broken_request", said, "Upload-Length")
    _require_a_job(office, caller, claimed)
    now_ms = office.clock.now_ms()
    office.photos.sweep(now_ms - ABANDONED_MS)
    stored = office.photos.find(claimed.sha256)
    length = stored.bytes if stored is not None else claimed.bytes
    begun = Upload(
        id=office.ids.uuid(),
        sha256=claimed.sha256,
        bytes=length,
        type=claimed.type,
        job=claimed.job,
        device=caller.device,
        made_ms=now_ms,
        whole=stored is not None,
    )
    office.photos.begin(begun)
    return Progress(begun.id, length if begun.whole else 0, length)


def upload_progress(office: Office, caller: Caller, upload_id: str) -> Progress:
    """Where to go on."""
    found = _upload(office, caller, upload_id)
    return Progress(found.id, found.bytes if found.whole else office.photos.size(found.id), found.bytes)


def add_to_upload(
    office: Office, caller: Caller, upload_id: str, offset: int, chunks: Iterable[bytes]
) -> Progress:
    """Keep what came, on disk; at full length, check the whole and give it its name.

    One request at a time from the look at the row to the name: the second finds it whole, or asks again.
    """
    _upload(office, caller, upload_id)  # a lock is made for nothing that is not here
    try:
        with office.photos.alone(upload_id):
            return _add(office, _upload(office, caller, upload_id), offset, chunks)
    except Busy as error:
        raise Refusal("busy_upload", "Another request is writing this upload; ask again soon.") from error


def _add(office: Office, found: Upload, offset: int, chunks: Iterable[bytes]) -> Progress:
    if found.whole:
        raise _wrong_offset(found.bytes)
    passing = Passing(_bounded(chunks, found.bytes - offset))
    try:
        size = office.photos.add(found.id, offset, passing)
    except NotThere as error:
        raise _wrong_offset(error.size) from error
    in_one = passing if offset == 0 and passing.bytes == size else None
    if size >= MAGIC_BYTES > offset:
        _require_magic(office, found, in_one or _looked_at(office, found.id, MAGIC_BYTES))
    if size == found.bytes:
        _finish(office, found, in_one or _looked_at(office, found.id, size))
    return Progress(found.id, size, found.bytes)


def put_thumb(office: Office, sha256: str, thumb: bytes) -> None:
    """A thumbnail by the hash of its own bytes, at once."""
    if len(thumb) > THUMB_BYTES:
        raise Refusal("too_large", f"A thumbnail has at most {THUMB_BYTES} bytes, found {len(thumb)}.")
    if hashlib.sha256(thumb).hexdigest() != sha256:
        raise Refusal("wrong_digest", "The bytes have another SHA-256 than the address names.", "sha256")
    _require_picture(read_header(thumb))
    if not office.photos.thumbs_held([sha256]):
        office.photos.put_thumb(sha256, thumb)


def may_see(office: Office, caller: Caller, sha256: str) -> bool:
    """The office sees every photo, a device those of its jobs."""
    if caller.kind == "office":
        return True
    with office.log.reading() as log:
        mine = jobs_of(log, caller.person, office.clock.now_ms())
        return bool(log.naming(sha256) & set(mine))


def _upload(office: Office, caller: Caller, upload_id: str) -> Upload:
    found = office.photos.upload(upload_id)
    if found is None or found.device != caller.device:
        raise Refusal("unknown_upload", "No upload of this device has this id; begin it again.", "id")
    return found


def _require_a_job(office: Office, caller: Caller, claimed: Upload) -> None:
    """Bytes are kept for a job of the device, and for whatever an entry already names."""
    if caller.kind == "office":
        return
    with office.log.reading() as log:
        if claimed.job in log.jobs_of(caller.person, log.settled_ms(caller.device)):
            return
        if claimed.job in jobs_of(log, caller.person, office.clock.now_ms()) or log.naming(claimed.sha256):
            return
    raise Refusal("foreign_job", "job: not a job of this device, and no entry names this photo yet.", "job")


def _bounded(chunks: Iterable[bytes], most: int) -> Iterable[bytes]:
    """Nothing beyond the length that was announced."""
    for chunk in chunks:
        yield chunk[:most]
        most -= len(chunk)
        if most <= 0:
            return


class Passing:
    """Bytes on their way, hashed and counted as they pass; the first of them are kept."""

    def __init__(self, chunks: Iterable[bytes]) -> None:
        self._chunks = chunks
        self._digest = hashlib.sha256()
        self._kept = bytearray()
        self.bytes = 0

    def __iter__(self) -> Iterator[bytes]:
        for chunk in self._chunks:
            self._digest.update(chunk)
            self.bytes += len(chunk)
            if len(self._kept) < START_BYTES:
                self._kept += chunk
            yield chunk

    @property
    def start(self) -> bytes:
        """Long enough for what most pictures begin with."""
        return bytes(self._kept)

    @property
    def sha256(self) -> str:
        """Of all that passed."""
        return self._digest.hexdigest()


def _looked_at(office: Office, upload_id: str, most: int) -> Passing:
    """An upload that came in pieces, read from its file as far as `most`."""
    passing = Passing(office.photos.read(upload_id))
    for _ in passing:
        if passing.bytes >= most:
            break
    return passing


def _require_magic(office: Office, upload: Upload, seen: Passing) -> None:
    if type_of(seen.start) != upload.type:
        office.photos.drop(upload.id)
        said = f"The bytes are no {upload.type}, whatever the file is called. Send a JPEG or PNG."
        raise Refusal("not_a_photo", said, "type")


def _finish(office: Office, upload: Upload, seen: Passing) -> None:
    try:
        _require_digest(seen.sha256, upload)
        header = _require_picture(read_header(seen.start) or read_header(_start_of(office, upload.id)))
    except Refusal:
        office.photos.drop(upload.id)
        raise
    now_ms = office.clock.now_ms()
    stored = StoredPhoto(upload.sha256, upload.bytes, header.type, header.width, header.height, now_ms)
    office.photos.finish(upload, stored)


def _start_of(office: Office, upload_id: str) -> bytes:
    """All of it that may come before the header of a picture."""
    start = bytearray()
    for chunk in office.photos.read(upload_id):
        start += chunk
        if len(start) >= HEADER_BYTES:
            break
    return bytes(start)


def _require_digest(found: str, upload: Upload) -> None:
    if found != upload.sha256:
        said = "The bytes have another SHA-256 than was announced. Begin the upload again."
        raise Refusal("wrong_digest", said, "sha256")


def _require_picture(header: ImageHeader | None) -> ImageHeader:
    if header is None:
        raise Refusal("not_a_photo", "No JPEG or PNG header was found. Send a JPEG or PNG.", "type")
    across, pixels = max(header.width, header.height), header.width * header.height
    if not 0 < pixels <= MOST_PIXELS or across > MOST_ACROSS:
        said = f"The header claims {header.width} x {header.height} pixels, allowed are {MOST_ACROSS} across."
        raise Refusal("too_many_pixels", said, "width")
    return header


def _wrong_offset(size: int) -> Refusal:
    said = f"Upload-Offset: the bytes here end at {size}."
    return Refusal("wrong_offset", said, "Upload-Offset", named={"offset": size})
