"""The dossier's container: a zip whose every byte follows from its members, written once and read once.

APPNOTE 6.3: stored, no flags, no extra fields, no comments, all times 1980-01-01 00:00, names sorted. Sizes
and offsets stay within 32 bits, so that there is one way to write them. The reader spells each record anew
from what it read and compares; so a container has no byte that could be another.
"""

from __future__ import annotations

import hashlib
import struct
import zlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import IO, Final

from bayleaf.domain.dossier import DossierFault, Member, Seen, room_for

LOCAL: Final = struct.Struct("<4s5H3I2H")
CENTRAL: Final = struct.Struct("<4s6H3I5H2I")
END: Final = struct.Struct("<4s4H2IH")
LOCAL_MARK: Final = b"PK\x03\x04"
CENTRAL_MARK: Final = b"PK\x01\x02"
END_MARK: Final = b"PK\x05\x06"
VERSION: Final = 10  # 1.0: nothing but stored files
DATE: Final = 0x0021  # 1980-01-01
CRC_AT: Final = 14
MOST_BYTES: Final = 0xFFFF_FFFE
MOST_MEMBERS: Final = 0xFFFE
MOST_KEPT: Final = (
    1024 * 1024 * 1024
)  # what a check may hold in memory; a job's words have a thousandth of it
LONGEST_NAME: Final = 200
CHUNK: Final = 1024 * 1024


@dataclass(frozen=True)
class Record:
    """What the container says of a member, beside its bytes."""

    path: str
    crc: int
    size: int
    offset: int

    def local(self) -> bytes:
        """The header before the member's bytes."""
        name = self.path.encode("ascii")
        sizes = (self.crc, self.size, self.size)
        return LOCAL.pack(LOCAL_MARK, VERSION, 0, 0, 0, DATE, *sizes, len(name), 0) + name

    def central(self) -> bytes:
        """The line of the directory at the end."""
        name = self.path.encode("ascii")
        sizes = (self.crc, self.size, self.size)
        head = CENTRAL.pack(
            CENTRAL_MARK, VERSION, VERSION, 0, 0, 0, DATE, *sizes, len(name), 0, 0, 0, 0, 0, self.offset
        )
        return head + name


def directory(records: Iterable[Record], offset: int) -> bytes:
    """Everything after the last member."""
    lines = [record.central() for record in records]
    body = b"".join(lines)
    return body + END.pack(END_MARK, 0, 0, len(lines), len(lines), len(body), offset, 0)


def write_container(file: IO[bytes], folder: str, members: Iterable[Member]) -> None:
    """Writes the members, sorted by name, into a file that can seek; a wrong digest is a fault."""
    records: list[Record] = []
    offset = 0
    for member in members:
        if offset + member.size > MOST_BYTES or len(records) >= MOST_MEMBERS:
            raise DossierFault(f"{member.name}: over {MOST_BYTES} bytes or {MOST_MEMBERS} files by then")
        record = _write_member(file, f"{folder}/{member.name}", member, offset)
        records.append(record)
        offset += len(record.local()) + record.size
    file.seek(offset)
    file.write(directory(records, offset))


def _write_member(file: IO[bytes], path: str, member: Member, offset: int) -> Record:
    """The header is written again once the bytes have gone by and their checksum is known."""
    most, _ = room_for(member.name)
    if member.size > most:
        raise DossierFault(f"{member.name}: {member.size} bytes, allowed are {most}")
    begin = Record(path, 0, member.size, offset).local()
    file.seek(offset)
    file.write(begin)
    crc, size, digest = 0, 0, hashlib.sha256()
    for chunk in member.read():
        crc, size = zlib.crc32(chunk, crc), size + len(chunk)
        digest.update(chunk)
        file.write(chunk)
    if size != member.size or digest.hexdigest() != member.sha256:
        raise DossierFault(f"{member.name}: its bytes are no longer those of {member.sha256}")
    file.seek(offset + CRC_AT)
    file.write(struct.pack("<I", crc))
    return Record(path, crc, size, offset)


class ContainerReader:
    """Reads a container front to back, once; every fault raises DossierFault."""

    def __init__(self, file: IO[bytes]) -> None:
        self._file = file
        self._offset = 0
        self._records: list[Record] = []
        self._kept = 0
        self._digest = hashlib.sha256()
        self.folder = ""

    @property
    def sha256(self) -> str:
        """The digest of all that was read; of the whole file once `members` has ended."""
        return self._digest.hexdigest()

    def members(self) -> Iterator[Seen]:
        """Each member in turn; after the last, the directory has been compared and the file has ended."""
        while True:
            mark = self._take(4, "the container")
            if mark != LOCAL_MARK:
                break
            yield self._member(mark)
        self._end(mark)

    def _take(self, size: int, what: str) -> bytes:
        found = self._file.read(size)
        self._digest.update(found)
        if len(found) != size:
            raise DossierFault(f"{what}: the file ends at byte {self._offset + len(found)}")
        return found

    def _member(self, mark: bytes) -> Seen:
        header = mark + self._take(LOCAL.size - len(mark), "a member's header")
        *_, size, name_length, extra_length = LOCAL.unpack(header)
        if name_length > LONGEST_NAME or extra_length or len(self._records) >= MOST_MEMBERS:
            raise DossierFault(f"byte {self._offset}: not a header of a dossier's member")
        written = self._take(name_length, "a member's name")
        path = self._path(written)
        name = path.partition("/")[2]
        most, kept = room_for(name)
        if size > most or self._offset + size > MOST_BYTES:
            raise DossierFault(f"{name}: {size} bytes, allowed are {most}")
        seen, crc = self._content(name, size, kept=kept)
        self._kept += len(seen.content)
        if self._kept > MOST_KEPT:
            raise DossierFault(f"{name}: what is to be looked into has over {MOST_KEPT} bytes by here")
        record = Record(path, crc, size, self._offset)
        if record.local() != header + written:
            raise DossierFault(f"{name}: its header is not the one that its bytes ask for")
        self._records.append(record)
        self._offset += len(header) + name_length + size
        return seen

    def _path(self, written: bytes) -> str:
        path = written.decode("ascii", "replace")
        folder, slash, name = path.partition("/")
        if not (written.isascii() and slash and name) or (self.folder and folder != self.folder):
            raise DossierFault(f"{path!r}: a name outside the bag's folder")
        if self._records and path <= self._records[-1].path:
            raise DossierFault(f"{name}: out of order, or a second time")
        self.folder = folder
        return path

    def _content(self, name: str, size: int, *, kept: bool) -> tuple[Seen, int]:
        crc, digest, parts, left = 0, hashlib.sha256(), [], size
        while left:
            chunk = self._take(min(left, CHUNK), name)
            left -= len(chunk)
            crc = zlib.crc32(chunk, crc)
            digest.update(chunk)
            if kept:
                parts.append(chunk)
        return Seen(name, digest.hexdigest(), size, b"".join(parts)), crc

    def _end(self, mark: bytes) -> None:
        expected = directory(self._records, self._offset)
        rest = mark + self._file.read(len(expected) - len(mark) + 1)
        self._digest.update(rest[len(mark) :])
        if rest != expected:
            raise DossierFault("the container's directory is not the one that its members ask for")
