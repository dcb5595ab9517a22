"""Photo slots and lots: sets of unstruck entries that stand at an ask of a pinned method.

A lot of another material or past its expiry is marked and found, where its ask is asked. It answers only if
an unstruck deviation names it; it stays in its row, marked, either way.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from bayleaf.domain.asks import LotAsk, PhotoAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Code, Finding, finding
from bayleaf.domain.fold.asked import is_asked
from bayleaf.domain.fold.log import Log
from bayleaf.domain.fold.registers import Registers
from bayleaf.domain.fold.revisions import Pinned
from bayleaf.domain.kinds import place_of
from bayleaf.domain.state import LotState, SlotState

AskKey = tuple[str, str, str]  # (method, step, ask)


@dataclass(frozen=True, slots=True)
class Evidence:
    """Photos and lots that stand, by ask; photos in no slot; and those made under another revision.

    `excused` is what unstruck deviations name.
    """

    photos: Mapping[AskKey, list[Entry]]
    lots: Mapping[AskKey, list[Entry]]
    loose: list[str]
    elsewhere: list[Entry]
    excused: frozenset[str]


def read_evidence(log: Log, pinned: Pinned) -> Evidence:
    """Sorts photos into slots, loose ones and those elsewhere; and lots likewise.

    A photo whose slot is empty, or is no slot of a pinned method, is loose: it still shows something.
    """
    slots = {(m.id, s.id, ask.id) for m, s, ask in pinned.asks() if isinstance(ask, PhotoAsk)}
    in_slots = [entry for entry in log.of("photo") if entry.body["slot"]]
    here = [entry for entry in in_slots + log.of("lot") if _answers(entry, pinned)]
    elsewhere = [entry for entry in in_slots + log.of("lot") if not _answers(entry, pinned)]
    loose = [entry for entry in log.of("photo") if not entry.body["slot"]]
    photos: defaultdict[AskKey, list[Entry]] = defaultdict(list)
    lots: defaultdict[AskKey, list[Entry]] = defaultdict(list)
    for entry in filter(log.stands, here):
        key = _key(entry)
        if entry.kind == "lot":
            lots[key].append(entry)
        elif key in slots:
            photos[key].append(entry)
        else:
            loose.append(entry)
    return Evidence(
        photos=photos,
        lots=lots,
        loose=sorted(entry.hash for entry in loose if log.stands(entry)),
        elsewhere=elsewhere,
        excused=frozenset(named for entry in log.of("deviation") for named in entry.body["about"]),
    )


def _key(entry: Entry) -> AskKey:
    ask = entry.body["ask"] if entry.kind == "lot" else entry.body["slot"]
    return (entry.body["method"], entry.body["step"], ask)


def _answers(entry: Entry, pinned: Pinned) -> bool:
    return pinned.answers(entry.body["method"], entry.body["digest"], entry.body["step"])


def slot_states(evidence: Evidence, pinned: Pinned) -> list[SlotState]:
    """A row for every photo ask of the pinned methods, in their order."""
    return [
        {
            "method": m.id,
            "step": s.id,
            "slot": ask.id,
            "photos": _hashes(evidence.photos, (m.id, s.id, ask.id)),
        }
        for m, s, ask in pinned.asks()
        if isinstance(ask, PhotoAsk)
    ]


def lot_states(evidence: Evidence, pinned: Pinned, registers: Registers) -> list[LotState]:
    """A row for every lot ask of the pinned methods, in their order."""
    return [
        {
            "method": method.id,
            "step": step.id,
            "ask": ask.id,
            "answers": _hashes(evidence.lots, (method.id, step.id, ask.id)),
            "marked": sorted(
                lot.hash
                for lot in evidence.lots.get((method.id, step.id, ask.id), [])
                if is_asked(registers, method.id, step, ask) and any(_faults(lot, ask))
            ),
        }
        for method, step, ask in pinned.asks()
        if isinstance(ask, LotAsk)
    ]


def lot_findings(evidence: Evidence, pinned: Pinned, registers: Registers) -> Iterator[Finding]:
    """Lots of another material than the ask's, and lots used past their expiry."""
    for method, step, ask in pinned.asks():
        if isinstance(ask, LotAsk) and is_asked(registers, method.id, step, ask):
            for lot in evidence.lots.get((method.id, step.id, ask.id), []):
                yield from (finding(code, place_of(lot), [lot.hash]) for code in _faults(lot, ask))


def has_usable_lot(evidence: Evidence, method: str, step: str, ask: LotAsk) -> bool:
    """Whether some lot answers the ask: one that is in order, or that a deviation names."""
    lots = evidence.lots.get((method, step, ask.id), [])
    return any(lot.hash in evidence.excused or not any(_faults(lot, ask)) for lot in lots)


def _faults(lot: Entry, ask: LotAsk) -> Iterator[Code]:
    if lot.body["material"] != ask.of:
        yield "wrong_lot"
    if lot.body["expires_ms"] and lot.at_ms > lot.body["expires_ms"]:
        yield "expired_lot"


def _hashes(by_ask: Mapping[AskKey, list[Entry]], key: AskKey) -> list[str]:
    return sorted(entry.hash for entry in by_ask.get(key, []))
