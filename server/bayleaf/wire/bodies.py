"""The body of every kind of entry, one schema a kind; kinds of two shapes have two."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Final

from bayleaf.wire import rules
from bayleaf.wire.shapes import Inside, Shape
from bayleaf.wire.values import (
    Flag,
    Listed,
    OneOf,
    Pair,
    Whole,
    Word,
    Words,
    digest,
    hashes,
    name_id,
    place_id,
    uuid,
)

TEXT: Final = 4000
LINE: Final = 200
STATES: Final = (
    "hole_checked",
    "rivet_seated",
    "set",
    "set_and_checked",
    "in_place",
    "mandrel_out",
    "head_drilled",
    "head_off",
    "shank_out",
)
ACTS: Final = ("soaked", "workable", "turn_down", "lift", "off", "cold", "abort", "remark")


class OfStep(Shape):
    """About a step of a method, under the digest that it was made under."""

    method = name_id()
    digest = digest()
    step = name_id()


class OpenBody(Shape):
    """A job begins."""

    order = Words(LINE)
    vin = Words(LINE)
    vehicle = Words(LINE)
    part = Words(LINE)
    side = OneOf(("left", "right", "none"))
    invented = Flag()
    over = hashes()


class AssignBody(Shape):
    """A person is put on the job, or taken off it."""

    person = uuid()
    on = Flag()
    over = hashes()


class PlaceBody(Shape):
    """The hoist or bay."""

    place = Words(LINE)
    over = hashes()


class PinBody(Shape):
    """All methods of the job by digest, in order."""

    methods = Listed(digest(), 64, distinct=True)
    over = hashes()


class LifeBody(Shape):
    """The job is closed, or opened again."""

    reason = Words(TEXT)
    over = hashes()


class FiledHead(Shape):
    """How far a chain went when the job was filed."""

    device = uuid()
    seq = Whole(1)
    hash = digest()


class FileBody(Shape):
    """The job is filed with these chains; a reason if it is not complete."""

    rules = (rules.heads_in_order,)
    heads = Listed(Inside(FiledHead), 500)
    reason = Words(TEXT)


class AsideBody(Shape):
    """Entries are set aside."""

    hashes = hashes()
    code = name_id()


class AdmitBody(Shape):
    """Entries that were set aside are let in."""

    hashes = hashes()
    reason = Words(TEXT, least=1)


class AcceptBody(Shape):
    """A finding is accepted."""

    code = name_id()
    at = Listed(Word("[A-Za-z0-9_-]{0,64}", "an id"), 16)
    hashes = hashes()
    reason = Words(TEXT, least=1)


class SendBackBody(Shape):
    """Values are returned to be done again."""

    hashes = hashes()
    remark = Words(TEXT)


class TickBody(OfStep):
    """A step, or a tick that it asks for, is done or not applicable."""

    rules = (rules.needs_a_reason_unless_done,)
    ask = name_id(empty=True)
    value = OneOf(("done", "not_applicable"))
    reason = Words(TEXT)
    over = hashes()


class TextBody(OfStep):
    """A text that a step asks for."""

    ask = name_id()
    point = name_id(empty=True)
    value = Words(TEXT)
    over = hashes()


class ChoiceBody(OfStep):
    """One of the options that a step offers."""

    ask = name_id()
    point = name_id(empty=True)
    option = name_id()
    over = hashes()


class ReadingOfStep(OfStep):
    """A number that a step asks for, as an integer of the ask's unit and decimals."""

    ask = name_id()
    point = name_id(empty=True)
    value = Whole()
    unit = Words(32)
    decimals = Whole(0, 3)
    over = hashes()


class ReadingOfRun(Shape):
    """What one sensor of a heat run read, as (run_ms, value)."""

    run = digest()
    sensor = name_id()
    unit = Words(32)
    decimals = Whole(0, 3)
    points = Listed(Pair(), 600, least=1)
    run_doubt = Flag()
    typed_time = Flag()


class PhotoBody(Shape):
    """A photo, in a slot or without one."""

    rules = (rules.all_or_none("method", "digest", "step", "slot"),)
    sha256 = digest()
    bytes = Whole(1)
    type = OneOf(("image/jpeg", "image/png"))
    width = Whole(1, 100_000)
    height = Whole(1, 100_000)
    thumb = digest()
    method = name_id(empty=True)
    digest = digest(empty=True)
    step = name_id(empty=True)
    slot = name_id(empty=True)
    position = place_id(empty=True, required=False)
    caption = Words(TEXT, required=False)


class TallyState(Shape):
    """How far a rivet is."""

    position = place_id()
    generation = Whole(0, 99)
    state = OneOf(STATES)


class TallyMark(Shape):
    """What is wrong at a rivet, or found again."""

    rules = (rules.a_mark_says_which,)
    position = place_id()
    generation = Whole(0, 99)
    mark = OneOf(("damaged_hole", "lost", "found"))
    piece = OneOf(("head", "mandrel", "shank", ""))
    lost = digest(empty=True)


class LotBody(OfStep):
    """The lot of a material, with its expiry; 0 where none is printed."""

    ask = name_id()
    material = name_id()
    lot = Words(LINE, least=1)
    expires_ms = Whole(0)


class HeatOn(OfStep):
    """A heat run begins."""

    ask = name_id()
    act = OneOf(("on",))
    zone = name_id()
    purpose = OneOf(("removal", "cure"))
    pads = Listed(place_id(), 64, distinct=True)
    plan = digest(empty=True)


class HeatAct(Shape):
    """What is done in a heat run, or said of it."""

    rules = (rules.an_act_names_its_pad, rules.a_remark_says_something)
    act = OneOf(ACTS)
    run = digest()
    pad = place_id(empty=True)
    run_ms = Whole(0)
    run_doubt = Flag()
    typed_time = Flag()
    text = Words(TEXT)


class NoteBody(Shape):
    """A note, about a step or about nothing."""

    rules = (rules.all_or_none("method", "digest", "step"),)
    text = Words(TEXT, least=1)
    method = name_id(empty=True)
    digest = digest(empty=True)
    step = name_id(empty=True)
    about = hashes()


class DeviationBody(Shape):
    """A departure from the method or from a limit, with the reason."""

    rules = (rules.all_or_none("method", "digest"), rules.a_step_has_a_method)
    text = Words(TEXT, least=1)
    method = name_id(empty=True)
    digest = digest(empty=True)
    step = name_id(empty=True)
    about = hashes()
    passes_hold = Flag()


class CountersignBody(OfStep):
    """A second person has seen these entries."""

    ask = name_id(empty=True)
    saw = hashes()


class StrikeBody(Shape):
    """An entry is crossed out."""

    target = digest()
    reason = Words(TEXT, least=1)


class ResultValue(Shape):
    """One figure of a result."""

    name = name_id()
    value = Whole()
    unit = Words(32)
    decimals = Whole(0, 3)


class ResultBody(OfStep):
    """What a computation gave, from which entries."""

    ask = name_id()
    point = name_id(empty=True)
    computation = name_id()
    model = Words(LINE)
    inputs = hashes()
    values = Listed(Inside(ResultValue), 64)
    verdict = OneOf(("inside", "outside", "none"))
    over = hashes()


class ClockBody(Shape):
    """The device's clock was changed."""

    what = OneOf(("stepped", "set_back"))
    jump_ms = Whole()


class HeardBody(Shape):
    """An alarm was heard, after how long."""

    run = digest()
    moment = name_id()
    silent_s = Whole(0)


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
