"""A job's entries as the fold reads them: each once, sorted into set aside, unknown, struck and live."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Finding, finding
from bayleaf.domain.fold.asides import set_aside
from bayleaf.domain.fold.strikes import read_strikes
from bayleaf.domain.kinds import Kind, is_known, is_run_reading

_SENT_BACK_KINDS = ("tick", "text", "choice", "reading", "result", "photo", "lot")


@dataclass(frozen=True, slots=True)
class Log:
    """`live` are the entries that fold: known and not set aside; `unstruck` are those of them by kind."""

    count: int
    aside: list[str]
    unknown: list[str]
    live: Mapping[str, Entry]
    everything: Mapping[str, Entry]
    struck: Mapping[str, list[str]]
    unstruck: Mapping[str, list[Entry]]
    sent_back: frozenset[str]
    findings: list[Finding]

    def of(self, kind: Kind) -> list[Entry]:
        """The unstruck live entries of a kind."""
        return self.unstruck.get(kind, [])

    def hashes(self, kind: Kind) -> list[str]:
        """The sorted hashes of the unstruck live entries of a kind."""
        return sorted(entry.hash for entry in self.of(kind))

    def stands(self, entry: Entry) -> bool:
        """Whether an entry that is a member of a set answers: not struck, not sent back."""
        return entry.hash not in self.struck and entry.hash not in self.sent_back


def read_log(entries: Iterable[Entry]) -> Log:
    """Reads entries in any order and number; the same hash counts once."""
    everything = {entry.hash: entry for entry in entries}
    aside = set_aside(everything)
    present = {key: entry for key, entry in everything.items() if key not in aside}
    live = {key: entry for key, entry in present.items() if is_known(entry.v, entry.kind)}
    struck, idle = read_strikes((entry for entry in live.values() if entry.kind == "strike"), present)
    unstruck = _by_kind(entry for entry in live.values() if entry.hash not in struck)
    return Log(
        count=len(everything),
        aside=sorted(key for key in everything if key in aside),
        unknown=sorted(present.keys() - live.keys()),
        live=live,
        everything=everything,
        struck=struck,
        unstruck=unstruck,
        sent_back=_sent_back(unstruck.get("send_back", []), live),
        findings=idle + _forks(present.values()) + _clocks(unstruck.get("clock", [])),
    )


def _by_kind(entries: Iterable[Entry]) -> dict[str, list[Entry]]:
    by_kind: defaultdict[str, list[Entry]] = defaultdict(list)
    for entry in entries:
        by_kind[entry.kind].append(entry)
    return dict(by_kind)


def _sent_back(sendings: Iterable[Entry], live: Mapping[str, Entry]) -> frozenset[str]:
    """What was sent back; readings of a run answer no ask, so they cannot be."""
    named = (live.get(key) for sending in sendings for key in sending.body["hashes"])
    return frozenset(
        entry.hash
        for entry in named
        if entry is not None and entry.kind in _SENT_BACK_KINDS and not is_run_reading(entry)
    )


def _forks(present: Iterable[Entry]) -> list[Finding]:
    """Two entries with one number: both are folded, and both are named."""
    by_number: defaultdict[tuple[str, str, int], list[str]] = defaultdict(list)
    for entry in present:
        by_number[(entry.job, entry.device, entry.seq)].append(entry.hash)
    return [
        finding("fork", (device, str(seq)), hashes)
        for (_, device, seq), hashes in by_number.items()
        if len(hashes) > 1
    ]


def _clocks(clocks: Iterable[Entry]) -> list[Finding]:
    return [finding("clock_changed", (entry.device, str(entry.seq)), [entry.hash]) for entry in clocks]
