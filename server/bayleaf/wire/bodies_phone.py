"""The bodies of what is recorded at the car."""

from __future__ import annotations

from typing import Final

from bayleaf.wire import rules
from bayleaf.wire.shapes import Inside, Shape
from bayleaf.wire.values import Flag, Listed, OneOf, Pair, Whole, Words, digest, hashes, name_id, place_id

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
    """A note, about a step or about nothing; `mixer` says what was done with the adhesive's mixer."""

    rules = (rules.all_or_none("method", "digest", "step"),)
    text = Words(TEXT, least=1)
    method = name_id(empty=True)
    digest = digest(empty=True)
    step = name_id(empty=True)
    about = hashes()
    mixer = OneOf(("stands", "flows", "changed"), required=False)


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
    """What a computation gave, from which entries, and from which tables: sheets and plans, by digest."""

    ask = name_id()
    point = name_id(empty=True)
    computation = name_id()
    model = Words(LINE)
    inputs = hashes()
    values = Listed(Inside(ResultValue), 64)
    verdict = OneOf(("inside", "outside", "none"))
    over = hashes()
    tables = hashes(8, required=False)


class ConditionBody(Shape):
    """A standing condition was looked at: it holds, or it is gone."""

    condition = name_id()
    holds = Flag()
    over = hashes()


class LaterBody(OfStep):
    """A step is put off, with the reason; doing it is the end of that."""

    reason = Words(TEXT, least=1)


class ClockBody(Shape):
    """The device's clock was changed."""

    what = OneOf(("stepped", "set_back"))
    jump_ms = Whole()


class HeardBody(Shape):
    """An alarm was heard, after how long."""

    run = digest()
    moment = name_id()
    silent_s = Whole(0)
