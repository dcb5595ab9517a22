"""Stale results: the records have moved on from what the computation rested on.

A reconciliation rests on exactly the deciding entries and marks of the rivets that it counts. A result whose
ask names answers is stale when an entry that it used is struck, sent back, set aside or no longer what is
shown, and when an answer that the ask names is shown and was not used. What a run, a lot or a photo adds
later makes nothing stale; an entry that has not arrived is no reason either.
"""

from collections.abc import Iterator

from bayleaf.domain.asks import AnswerRef, ComputeAsk, TallyAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold.asked import is_asked
from bayleaf.domain.fold.countersigns import Recorded, ask_registers
from bayleaf.domain.fold.tally import Ladder, ladder_to, reconciliation_inputs
from bayleaf.domain.kinds import register_key
from bayleaf.domain.method import MethodDoc


def is_stale(result: Entry, ask: ComputeAsk, method: MethodDoc, recorded: Recorded) -> bool:
    """Whether a shown result is worked out from older records."""
    if ask.computation == "tally_reconciliation" and _tally_moved_on(result, ask, method, recorded):
        return True
    if not ask.inputs:
        return False
    used = frozenset(result.body["inputs"])
    return any(_is_gone(one, recorded) for one in used) or any(
        shown not in used for shown in _answers_named(ask, recorded)
    )


def ladder_of(ask: ComputeAsk, recorded: Recorded) -> Ladder:
    """On which half of the ladder the tallies that the ask names are counted; "" where it names none."""
    for ref in _refs(ask):
        step = recorded.pinned.step(ref.method, ref.step)
        tally = step.ask(ref.ask) if step else None
        if isinstance(tally, TallyAsk):
            return ladder_to(tally.to)
    return ""


def _tally_moved_on(result: Entry, ask: ComputeAsk, method: MethodDoc, recorded: Recorded) -> bool:
    """What it used beside the tally is known for what it is, and left out."""
    everything = recorded.log.everything
    used = [one for one in result.body["inputs"] if one not in everything or everything[one].kind == "tally"]
    positions = [name for group in ask.groups for name in method.group_positions(group)]
    return sorted(used) != reconciliation_inputs(recorded.tally, positions, ladder_of(ask, recorded))


def _is_gone(used: str, recorded: Recorded) -> bool:
    log = recorded.log
    entry = log.everything.get(used)
    if entry is None:
        return False
    if used not in log.live or not log.stands(entry):
        return True
    key = None if "run" in entry.body else register_key(entry)
    register = recorded.registers.get(key) if key else None
    return key is not None and (register is None or register.answer is not entry)


def _answers_named(ask: ComputeAsk, recorded: Recorded) -> Iterator[str]:
    """The shown answers that the ask names, of asks that are asked."""
    for ref in _refs(ask):
        step = recorded.pinned.step(ref.method, ref.step)
        named = step.ask(ref.ask) if step else None
        if step is None or named is None or not is_asked(recorded.registers, ref.method, step, named):
            continue
        for key in ask_registers(ref.method, ref.step, named):
            register = recorded.registers.get(key)
            if register and register.answer and ref.point in ("", key[-1]):
                yield register.answer.hash


def _refs(ask: ComputeAsk) -> Iterator[AnswerRef]:
    for one in ask.inputs:
        yield from one.sources
