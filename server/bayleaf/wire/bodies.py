"""Which body every kind of entry has; kinds of two shapes have two."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Final

from bayleaf.wire.bodies_office import (
    AcceptBody,
    AdmitBody,
    AsideBody,
    AssignBody,
    FileBody,
    LifeBody,
    OpenBody,
    PinBody,
    PlaceBody,
    SendBackBody,
)
from bayleaf.wire.bodies_phone import (
    ChoiceBody,
    ClockBody,
    ConditionBody,
    CountersignBody,
    DeviationBody,
    HeardBody,
    HeatAct,
    HeatOn,
    LaterBody,
    LotBody,
    NoteBody,
    PhotoBody,
    ReadingOfRun,
    ReadingOfStep,
    ResultBody,
    StrikeBody,
    TallyMark,
    TallyState,
    TextBody,
    TickBody,
)
from bayleaf.wire.shapes import Shape

SHAPES: Final[Mapping[str, tuple[type[Shape], ...]]] = MappingProxyType(
    {
        "open": (OpenBody,),
        "assign": (AssignBody,),
        "place": (PlaceBody,),
        "pin": (PinBody,),
        "close": (LifeBody,),
        "reopen": (LifeBody,),
        "file": (FileBody,),
        "aside": (AsideBody,),
        "admit": (AdmitBody,),
        "accept": (AcceptBody,),
        "send_back": (SendBackBody,),
        "tick": (TickBody,),
        "text": (TextBody,),
        "choice": (ChoiceBody,),
        "reading": (ReadingOfStep, ReadingOfRun),
        "photo": (PhotoBody,),
        "tally": (TallyState, TallyMark),
        "lot": (LotBody,),
        "heat": (HeatOn, HeatAct),
        "note": (NoteBody,),
        "deviation": (DeviationBody,),
        "countersign": (CountersignBody,),
        "strike": (StrikeBody,),
        "result": (ResultBody,),
        "clock": (ClockBody,),
        "heard": (HeardBody,),
        "condition": (ConditionBody,),
        "later": (LaterBody,),
    }
)


def shape_of(kind: str, body: Mapping[str, Any]) -> type[Shape]:
    """Which of a kind's shapes a body means to have."""
    shapes = SHAPES[kind]
    match kind:
        case "reading":
            return shapes["run" in body]
        case "tally":
            return shapes["mark" in body]
        case "heat":
            return shapes[body.get("act") != "on"]
        case _:
            return shapes[0]
