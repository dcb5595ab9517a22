"""What a dossier's entries show by themselves: whole chains, signed heads, what `file` names."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from bayleaf.canonical.digest import NO_ENTRY
from bayleaf.domain.entries import Entry


@dataclass(frozen=True)
class Gap:
    """Numbers of a chain that no entry has, from first to last."""

    device: str
    first: int
    last: int

    def row(self) -> dict[str, Any]:
        """As `about.json` keeps it."""
        return {"device": self.device, "first": self.first, "last": self.last}


def by_device(entries: Iterable[Entry]) -> dict[str, list[Entry]]:
    """The entries of each device, by seq."""
    chains: dict[str, list[Entry]] = defaultdict(list)
    for entry in entries:
        chains[entry.device].append(entry)
    return {
        device: sorted(chains[device], key=lambda entry: (entry.seq, entry.hash)) for device in sorted(chains)
    }


def gaps_of(entries: Iterable[Entry]) -> list[Gap]:
    """Numbers that are missing below each chain's newest entry, in order."""
    return [gap for device, chain in by_device(entries).items() for gap in _gaps(device, chain)]


def _gaps(device: str, chain: Sequence[Entry]) -> Iterator[Gap]:
    expected = 1
    for entry in chain:
        if entry.seq > expected:
            yield Gap(device, expected, entry.seq - 1)
        expected = max(expected, entry.seq + 1)


def unlinked(entries: Iterable[Entry]) -> list[str]:
    """Hashes of entries whose `prev` is none of the entries numbered before, though such are here."""
    return sorted(digest for chain in by_device(entries).values() for digest in _unlinked(chain))


def _unlinked(chain: Sequence[Entry]) -> Iterator[str]:
    hashes: dict[int, set[str]] = defaultdict(set, {0: {NO_ENTRY}})
    for entry in chain:
        hashes[entry.seq].add(entry.hash)
    for entry in chain:
        before = hashes.get(entry.seq - 1)
        if before and entry.prev not in before:
            yield entry.hash


def covered(entries: Iterable[Entry], heads: Iterable[tuple[str, int, str]]) -> set[str]:
    """Hashes that the signed heads (device, seq, hash) cover through `prev`."""
    by_hash = {entry.hash: entry for entry in entries}
    reached: set[str] = set()
    for device, seq, digest in heads:
        entry = by_hash.get(digest)
        if entry is None or (entry.device, entry.seq) != (device, seq):
            continue
        while entry is not None and entry.device == device and entry.hash not in reached:
            reached.add(entry.hash)
            entry = by_hash.get(entry.prev)
    return reached


def tips(entries: Sequence[Entry]) -> list[dict[str, Any]]:
    """Every chain's last seq and hash by device, as `file` names it: of a fork, the last to come."""
    newest: dict[str, Entry] = {}
    for entry in entries:
        held = newest.get(entry.device)
        if held is None or entry.seq >= held.seq:
            newest[entry.device] = entry
    return [
        {"device": device, "seq": newest[device].seq, "hash": newest[device].hash}
        for device in sorted(newest)
    ]


def filed_heads_faults(entries: Sequence[Entry], filed: Mapping[str, Any], own: str) -> Iterator[str]:
    """Chains that `file` names otherwise than the entries show; `own` is the chain that holds `file`."""
    found = {head["device"]: head for head in tips(entries) if head["device"] != own}
    named = {head["device"]: head for head in filed.get("heads", []) if isinstance(head, dict)}
    for device in sorted(named.keys() - found.keys()):
        yield f"chain {device}: named by the file entry, not in the dossier: a chain was removed"
    for device in sorted(found.keys() - named.keys()):
        yield f"chain {device}: in the dossier, not named by the file entry"
    for device in sorted(named.keys() & found.keys()):
        if named[device] != found[device]:
            wanted, here = named[device].get("seq"), found[device]["seq"]
            yield f"chain {device}: ends with entry {here}, the file entry names {wanted}: the tail differs"


def irregular(entries: Sequence[Entry], heads: Iterable[tuple[str, int, str]]) -> dict[str, Any]:
    """What is not whole in the chains as they came: `about.json` keeps it, the check finds it anew.

    A gap or an unsigned entry decides no fate, so a dossier may hold them; what it may not do is differ from
    what was so at filing.
    """
    signed = covered(entries, heads)
    return {
        "gaps": [gap.row() for gap in gaps_of(entries)],
        "unlinked": unlinked(entries),
        "unsigned": sorted(entry.hash for entry in entries if entry.hash not in signed),
    }
