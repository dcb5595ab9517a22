"""Makes a backup while the shop serves: the database as of one moment, then every file that it names."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from bayleaf.photo_ports import PhotoStore
from bayleaf.ports import Clock

SAID_EVERY = 200


class BackupFault(Exception):
    """Why a backup was not made or is not finished, and what mends it."""


@dataclass(frozen=True)
class Contents:
    """What the database of a backup names: photos with their sizes, and filed dossiers with their digests."""

    photos: Sequence[tuple[str, int]]
    dossiers: Sequence[tuple[str, str]]
    entries: int
    jobs: int


@dataclass(frozen=True)
class Report:
    """A finished backup."""

    entries: int
    jobs: int
    photos: int
    copied: int
    dossiers: int


class Copying(Protocol):
    """A backup folder and the data folder that it is of."""

    def begin(self) -> None:
        """Claim the folder; BackupFault if it holds anything but a backup of this shop."""

    def snapshot(self) -> Contents:
        """Copy the database as of one moment, beside the one of an earlier backup."""

    def copy_photo(self, sha256: str, size: int) -> bool:
        """False if the backup held it; BackupFault where its bytes are not those of its name."""

    def copy_dossier(self, dossier: str, sha256: str) -> bool: ...
    def copy_rest(self) -> None:
        """Thumbnails, papers, seal key and secret."""

    def finish(self, report: Report, now_ms: int) -> None:
        """Put the new database in place and write the manifest, all of it synced."""


def make_backup(
    copying: Copying, photos: PhotoStore, clock: Clock, say: Callable[[str], None] = lambda _: None
) -> Report:
    """A consistent copy, and word to the phones which photos it covers.

    The database comes first and the files after it: a photo is on disk before its row is written and is never
    taken away while its row stands, so every photo that the copied database names can be copied. What arrives
    meanwhile is in neither. The old database of an earlier backup stands until all files of the new one are
    there, so a backup that breaks off leaves the earlier one whole.
    """
    copying.begin()
    say("copying the database ...")
    found = copying.snapshot()
    copied = _copy_photos(copying, found.photos, say)
    _all_or_fault(copying.copy_dossier(*one) for one in found.dossiers)
    copying.copy_rest()
    report = Report(found.entries, found.jobs, len(found.photos), copied, len(found.dossiers))
    copying.finish(report, clock.now_ms())
    _cover(photos, [sha256 for sha256, _ in found.photos], clock)
    return report


def _copy_photos(copying: Copying, photos: Sequence[tuple[str, int]], say: Callable[[str], None]) -> int:
    """How many were new; every photo is tried before a fault is told."""
    copied, faults = 0, []
    for number, (sha256, size) in enumerate(photos, 1):
        try:
            copied += copying.copy_photo(sha256, size)
        except BackupFault as fault:
            faults.append(str(fault))
        if number % SAID_EVERY == 0:
            say(f"photos: {number} of {len(photos)}")
    if faults:
        raise BackupFault("\n".join(faults))
    return copied


def _all_or_fault(copies: Iterable[bool]) -> int:
    return sum(copies)


def _cover(photos: PhotoStore, hashes: Sequence[str], clock: Clock) -> None:
    """Only now may a phone let go of them."""
    new = set(hashes) - photos.covered(hashes)
    photos.cover(sorted(new), clock.now_ms())
