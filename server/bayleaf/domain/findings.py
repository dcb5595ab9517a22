"""Findings: the shortcomings of the record, listed and never raised, and who accepted which."""

from collections.abc import Iterable
from typing import Final, Literal, NamedTuple, get_args

from bayleaf.domain.entries import Entry
from bayleaf.domain.state import FindingState

Code = Literal[
    "two_values",
    "over_without_effect",
    "strike_without_effect",
    "fork",
    "open_ask",
    "outside_limits",
    "stop_option",
    "wrong_lot",
    "expired_lot",
    "lost_piece",
    "damaged_hole",
    "found_without_lost",
    "void_countersign",
    "two_runs",
    "soak_short",
    "over_maximum",
    "clock_changed",
    "picked_person",
    "same_device",
    "run_unknown",
    "unknown_position",
    "stale_result",
    "missing_method",
    "made_under_other_revision",
    "position_beyond",
    "condition_gone",
    "nothing_to_compare",
]
CODES: Final[tuple[Code, ...]] = get_args(Code)


class Finding(NamedTuple):
    """A shortcoming: what (`code`), where (`at`, ids), and the entries that show it (sorted hashes)."""

    code: Code
    at: tuple[str, ...]
    hashes: tuple[str, ...]


def finding(code: Code, at: Iterable[str], hashes: Iterable[str]) -> Finding:
    """A finding with its hashes sorted, each once."""
    return Finding(code, tuple(at), tuple(sorted(set(hashes))))


def listed(findings: Iterable[Finding], accepts: Iterable[Entry]) -> list[FindingState]:
    """The findings, each once, sorted by (code, at, hashes), with the accept that holds for each.

    An accept holds while code, at and hashes are all equal to its own; of several the one with the
    greatest (at_ms, hash) is named.
    """
    accepted = {_accepted_by(accept): accept.hash for accept in sorted(accepts, key=_order)}
    return [
        {
            "code": code,
            "at": list(at),
            "hashes": list(hashes),
            "accepted": accepted.get((code, at, hashes), ""),
        }
        for code, at, hashes in sorted(set(findings))
    ]


def _accepted_by(accept: Entry) -> tuple[str, tuple[str, ...], tuple[str, ...]]:
    return (accept.body["code"], tuple(accept.body["at"]), tuple(accept.body["hashes"]))


def _order(entry: Entry) -> tuple[int, str]:
    return (entry.at_ms, entry.hash)
