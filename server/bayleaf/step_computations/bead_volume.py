"""Bondline from the gaps of the dry fit, or the bead for it with cartridges and mixers.

The plain mean of the gaps counts: the method names the stations and not how far apart they are. A bead is a
triangle, laid through a V-notch.
"""

from __future__ import annotations

from bayleaf.bonding import bead, cartridges
from bayleaf.bonding.refusal import Refused
from bayleaf.step_computations.figures import figure, is_over, number_of
from bayleaf.step_computations.inputs import Earlier, Points, Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, verdict_of


def bead_volume(question: Question) -> Answer:
    """With `gaps` the bondline and what it takes; with `bondline` of an earlier step the bead for it."""
    if question.find("gaps", Points) is not None:
        return _bondline(question)
    return _bead(question)


def _bondline(question: Question) -> Answer:
    gaps = question.points("gaps").quantities()
    thinnest, thickest = question.quantity("thinnest"), question.quantity("thickest")
    mm = [number_of(gap) for gap in gaps.values()]
    mean = sum(mm) / len(mm)
    length, width = number_of(question.quantity("length")), number_of(question.quantity("width"))
    values = (
        figure("bondline_mean", mean, "mm", 2),
        figure("bondline_min", min(mm), "mm", 2),
        figure("bondline_max", max(mm), "mm", 2),
        figure("volume", bead.volume_mL(width * mean, length), "mL", 1),
    )
    thin = tuple(name for name, gap in gaps.items() if is_over(thinnest, gap))
    thick = tuple(name for name, gap in gaps.items() if is_over(gap, thickest))
    lines = [Line("plain_mean")]
    lines += [Line("too_thin", "stop", thin, (_limit(thinnest),))] if thin else []
    lines += [Line("too_thick", "stop", thick, (_limit(thickest),))] if thick else []
    return Answer(bead.MODEL, values, verdict_of(lines), tuple(lines), ("bondline",))


def _limit(quantity: Quantity) -> Value:
    return Value("limit", quantity.value, quantity.unit, quantity.decimals)


def _bead(question: Question) -> Answer:
    room = question.want("bondline", Earlier)
    wanted, mean, widest = (_figure(room, name) for name in ("volume", "bondline_mean", "bondline_max"))
    width, height, length = (_above_zero(question, name) for name in ("bead_width", "bead_height", "length"))
    laid = bead.volume_mL(bead.triangle_section_mm2(width, height), length)
    ready = _ready(question, laid)
    values = (
        figure("bead", laid, "mL", 1),
        figure("bondline_volume", wanted, "mL", 1),
        figure("squeeze_out", max(0.0, (laid - wanted) / laid * 100), "%", 0),
        Value("cartridges", ready.cartridges, "pcs", 0),
        Value("mixers", ready.mixers, "pcs", 0),
        figure("left_over", ready.spare_mL, "mL", 1),
    )
    missing = figure("missing", max(0.0, wanted - laid), "mL", 1)
    at_widest = figure("missing_at_widest", max(0.0, wanted * widest / mean - laid) / laid * 100, "%", 0)
    lines = [Line("one_spare")]
    lines += [Line("bead_too_small", "stop", (), (missing,))] if missing.value > 0 else []
    if at_widest.value > 0 and missing.value == 0:
        lines += [Line("thin_at_widest", "note", (), (figure("widest", widest, "mm", 2), at_widest))]
    return Answer(bead.MODEL, values, verdict_of(lines), tuple(lines), ("geometry",))


def _above_zero(question: Question, name: str) -> float:
    quantity = question.quantity(name)
    if quantity.value <= 0:
        raise Unanswerable(name, "not_above_zero")
    return number_of(quantity)


def _ready(question: Question, laid_mL: float) -> cartridges.Wanted:
    waste = number_of(question.quantity("left_in_mixer"))
    cartridge = cartridges.Cartridge(number_of(question.quantity("cartridge")), waste, 0.0)
    try:
        return cartridges.cartridges_for(round(laid_mL, 6), cartridge)
    except Refused as refused:
        raise Unanswerable("cartridge", "all_waste") from refused


def _figure(room: Earlier, name: str) -> float:
    found = room.figure(name)
    if found is None or found.value <= 0:
        raise Unanswerable("bondline", "no_bondline")
    return number_of(found)
