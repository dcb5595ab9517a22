"""The fold: from (methods by digest, entries) to card state, the same in any order of arrival.

Pure and total: no clock, no I/O, no float, no division, no date, no sorting of free text; well-formed
entries in any order and number never raise. Each module of this package states the rules of its part.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from bayleaf.canonical.digest import value_digest
from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Finding, finding, listed
from bayleaf.domain.fold.answers import Card
from bayleaf.domain.fold.conditions import condition_findings, condition_states
from bayleaf.domain.fold.countersigns import (
    Recorded,
    countersign_findings,
    countersign_states,
    read_countersigns,
)
from bayleaf.domain.fold.evidence import lot_findings, lot_states, read_evidence, slot_states
from bayleaf.domain.fold.log import Log, read_log
from bayleaf.domain.fold.registers import (
    Register,
    Registers,
    Standing,
    read_registers,
    register_findings,
    register_states,
    shown_of,
    standing_values,
)
from bayleaf.domain.fold.revisions import Pinned, pinned_of
from bayleaf.domain.fold.runs import read_runs, run_findings, run_states
from bayleaf.domain.fold.steps import step_findings, step_states
from bayleaf.domain.fold.tally import counts_of, pieces_of, position_states, read_tally
from bayleaf.domain.fold.tally_findings import tally_findings
from bayleaf.domain.kinds import place_of
from bayleaf.domain.method import MethodDoc
from bayleaf.domain.state import CardState, JobState, StepState

FOLD_VERSION: Final = 2
_PIN: Final = ("pin", "", "", "", "")


def fold(methods: Mapping[str, MethodDoc], entries: Iterable[Entry]) -> CardState:
    """The card state of a job's entries, under the methods held (by digest)."""
    log = read_log(entries)
    standing = standing_values(log)
    pinned = _pinned(standing, methods)
    registers = read_registers(standing, log, pinned)
    tally = read_tally(log)
    recorded = Recorded(log, pinned, registers, tally)
    countersigns, signed_elsewhere = read_countersigns(recorded)
    card = Card(recorded, read_evidence(log, pinned), read_runs(log, methods), countersigns)
    return _state(card, _elsewhere(card, signed_elsewhere))


def state_digest(state: CardState) -> str:
    """The digest of all that the fold returns, findings included."""
    return value_digest(state)


def _pinned(standing: Standing, methods: Mapping[str, MethodDoc]) -> Pinned:
    pin = shown_of(standing.get(_PIN, ()))
    return pinned_of(pin.body["methods"] if pin else [], methods)


def _elsewhere(card: Card, countersigns: Sequence[Entry]) -> list[Entry]:
    """Every entry that would answer a step, were it not made under another revision of it."""
    pinned = card.recorded.pinned
    values = [entry for register in card.recorded.registers.values() for entry in register.elsewhere]
    deviations = [
        entry
        for entry in card.recorded.log.of("deviation")
        if entry.body["step"]
        and not pinned.answers(entry.body["method"], entry.body["digest"], entry.body["step"])
    ]
    return [*values, *card.evidence.elsewhere, *deviations, *countersigns]


def _state(card: Card, elsewhere: Sequence[Entry]) -> CardState:
    log, pinned, registers = card.recorded.log, card.recorded.pinned, card.recorded.registers
    steps = step_states(card)
    positions = position_states(card.recorded.tally, pinned)
    return {
        "fold": FOLD_VERSION,
        "count": log.count,
        "aside": log.aside,
        "unknown": log.unknown,
        "struck": [{"target": target, "by": log.struck[target]} for target in sorted(log.struck)],
        "job": _job(registers, log),
        "missing_methods": pinned.missing,
        "registers": register_states(registers),
        "elsewhere": sorted(entry.hash for entry in elsewhere),
        "steps": steps,
        "slots": slot_states(card.evidence, pinned),
        "loose_photos": card.evidence.loose,
        "lots": lot_states(card.evidence, pinned, registers),
        "positions": positions,
        "counts": counts_of(positions),
        "pieces": pieces_of(card.recorded.tally),
        "runs": run_states(card.runs),
        "conditions": condition_states(card),
        "deviations": log.hashes("deviation"),
        "notes": log.hashes("note"),
        "countersigns": countersign_states(list(card.countersigns)),
        "heard": log.hashes("heard"),
        "clock": log.hashes("clock"),
        "findings": listed(_findings(card, steps, elsewhere), log.of("accept")),
    }


def _job(registers: Registers, log: Log) -> JobState:
    life = registers.get(("life", "", "", "", ""))
    return {
        "open": _shown(registers, "open"),
        "place": _shown(registers, "place"),
        "pin": _shown(registers, "pin"),
        "life": _shown(registers, "life"),
        "closed": bool(life and life.shown and life.shown.kind == "close"),
        "filed": log.hashes("file"),
        "assigned": sorted(key[4] for key, register in registers.items() if _is_assigned(key[0], register)),
    }


def _shown(registers: Registers, kind: str) -> str:
    register = registers.get((kind, "", "", "", ""))
    return register.shown.hash if register and register.shown else ""


def _is_assigned(kind: str, register: Register) -> bool:
    return kind == "assign" and register.shown is not None and register.shown.body["on"] is True


def _findings(card: Card, steps: Sequence[StepState], elsewhere: Sequence[Entry]) -> Iterator[Finding]:
    log, pinned = card.recorded.log, card.recorded.pinned
    pin = _shown(card.recorded.registers, "pin")
    yield from log.findings
    yield from register_findings(card.recorded.registers, log)
    yield from (finding("missing_method", [digest], [pin]) for digest in pinned.missing)
    yield from (finding("made_under_other_revision", place_of(entry), [entry.hash]) for entry in elsewhere)
    yield from step_findings(card, steps)
    yield from lot_findings(card.evidence, pinned, card.recorded.registers)
    yield from tally_findings(card.recorded.tally, pinned)
    yield from run_findings(card.runs, log)
    yield from condition_findings(card.recorded.registers)
    yield from countersign_findings(list(card.countersigns), card.recorded)
