"""Faults of the fold, the same on both ends: only the record's own sentences can tell."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import asides, log, registers, strikes
from bayleaf.domain.fold.log import Log
from sim.faults.planting import Fault


def _latest_alone(values: Mapping[str, Entry], found: Log) -> list[Entry]:
    unstruck = [entry for key, entry in values.items() if key not in found.struck]
    return [max(unstruck, key=registers.order)] if unstruck else []


def _without_struck_links(values: Mapping[str, Entry], found: Log) -> list[Entry]:
    unstruck = {key: entry for key, entry in values.items() if key not in found.struck}
    named = {over for entry in unstruck.values() for over in entry.body["over"]}
    return [entry for entry in unstruck.values() if entry.hash not in named]


def _aside_but_for_strikes(everything: Mapping[str, Entry]) -> Iterable[str]:
    acting = {found for found, entry in everything.items() if entry.kind == "strike"}
    return asides.set_aside(everything) - acting


OF_FOLD = (
    Fault(
        "register ordered by clock",
        "the latest value wins, whatever its successor names in `over`",
        ((registers, "_standing", _latest_alone),),
    ),
    Fault(
        "struck link breaks the chain of over",
        "what a struck value replaced stands again",
        ((registers, "_standing", _without_struck_links),),
    ),
    Fault(
        "set aside strike acts",
        "a strike that was set aside strikes",
        ((log, "set_aside", _aside_but_for_strikes),),
    ),
    Fault(
        "strike of another's entry acts",
        "anybody strikes anything",
        ((strikes, "may_strike", lambda *_: True),),
    ),
)
