"""How a shown value stands against its ask: inside, or with the code of what is wrong with it."""

from typing import Literal

from bayleaf.domain.asks import Ask, ChoiceAsk, ComputeAsk, ReadingAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold.tally import Tally, reconciliation_inputs
from bayleaf.domain.method import MethodDoc

Fault = Literal["", "outside_limits", "stop_option", "stale_result"]


def value_fault(value: Entry, ask: Ask, method: MethodDoc, tally: Tally) -> Fault:
    """What is wrong with a shown value, or ""."""
    if isinstance(ask, ReadingAsk):
        return "" if _is_inside(value, ask) else "outside_limits"
    if isinstance(ask, ChoiceAsk):
        stops = {option.id for option in ask.options if option.stop}
        return "stop_option" if value.body["option"] in stops else ""
    if isinstance(ask, ComputeAsk) and _is_stale(value, ask, method, tally):
        return "stale_result"
    return ""


def _is_inside(value: Entry, ask: ReadingAsk) -> bool:
    """Limits are inclusive; a value in another unit or scale cannot be compared and counts as outside."""
    body = value.body
    if body["unit"] != ask.unit or body["decimals"] != ask.decimals:
        return False
    above = ask.min is None or body["value"] >= ask.min
    return above and (ask.max is None or body["value"] <= ask.max)


def _is_stale(value: Entry, ask: ComputeAsk, method: MethodDoc, tally: Tally) -> bool:
    if ask.computation != "tally_reconciliation":
        return False
    positions = [name for group in ask.groups for name in method.group_positions(group)]
    return sorted(value.body["inputs"]) != reconciliation_inputs(tally, positions)
