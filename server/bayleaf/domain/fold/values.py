"""How a shown value stands against its ask: inside, or with the code of what is wrong with it."""

from typing import Literal

from bayleaf.domain.asks import Ask, ChoiceAsk, ComputeAsk, ReadingAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold.countersigns import Recorded
from bayleaf.domain.fold.registers import Registers
from bayleaf.domain.fold.stale import is_stale
from bayleaf.domain.method import MethodDoc

Fault = Literal["", "outside_limits", "nothing_to_compare", "stop_option", "stale_result"]


def value_fault(value: Entry, ask: Ask, method: MethodDoc, recorded: Recorded) -> Fault:
    """What is wrong with a shown value, or ""."""
    if isinstance(ask, ReadingAsk):
        return _reading_fault(value, ask, recorded.registers)
    if isinstance(ask, ChoiceAsk):
        stops = {option.id for option in ask.options if option.stop}
        return "stop_option" if value.body["option"] in stops else ""
    if isinstance(ask, ComputeAsk) and is_stale(value, ask, method, recorded):
        return "stale_result"
    return ""


def _reading_fault(value: Entry, ask: ReadingAsk, registers: Registers) -> Fault:
    """Limits hold for the value, or for what is left of it after the earlier one that it is held against.

    A value in another unit or scale cannot be compared and counts as outside; an earlier one in another, or
    missing at that point, leaves nothing to compare with.
    """
    if not _is_in_scale(value, ask):
        return "outside_limits"
    judged: int = value.body["value"]
    if ask.against is not None:
        earlier = _earlier(value, ask, registers)
        if earlier is None or not _is_in_scale(earlier, ask):
            return "nothing_to_compare"
        judged -= earlier.body["value"]
    return "" if _is_within(judged, ask) else "outside_limits"


def _earlier(value: Entry, ask: ReadingAsk, registers: Registers) -> Entry | None:
    """The answer of the earlier reading, at the same point."""
    if ask.against is None:
        return None
    at = ask.against
    register = registers.get(("reading", at.method, at.step, at.ask, value.body["point"]))
    return register.answer if register else None


def _is_in_scale(value: Entry, ask: ReadingAsk) -> bool:
    return bool(value.body["unit"] == ask.unit and value.body["decimals"] == ask.decimals)


def _is_within(judged: int, ask: ReadingAsk) -> bool:
    """Limits are inclusive; a missing one is no limit on that side."""
    return (ask.min is None or judged >= ask.min) and (ask.max is None or judged <= ask.max)
