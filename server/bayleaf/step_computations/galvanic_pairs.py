"""Which materials of the joint touch, how far apart they stand, and how careful to be, wet and dry.

The rivet touches the part and the flange that it goes through. Part and flange touch only where the
isolating glass ply is not sound.
"""

from __future__ import annotations

from typing import Final

from bayleaf.fastening import galvanic
from bayleaf.step_computations.inputs import Chosen
from bayleaf.step_computations.lots import lot_lines
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, verdict_of

Names = dict[str, str]
_PAIRS: Final = (("rivet", "part"), ("rivet", "flange"), ("part", "flange"))


def galvanic_pairs(question: Question) -> Answer:
    """One figure and one line per pair; an aluminium rivet through carbon wants the maker's word."""
    names = {name: question.word(name) for name in ("part", "flange", "rivet")}
    for name, material in names.items():
        if material not in galvanic.GROUPS and (material or name != "rivet"):
            raise Unanswerable(name, "no_group")
    ply = question.find("glass_ply", Chosen)
    isolated = ply is not None and not ply.stop
    lines = [] if names["rivet"] else [Line("rivet_unsaid", "ask")]
    values: list[Value] = []
    for first, second in _PAIRS:
        if not (names[first] and names[second]):
            continue
        found = galvanic.pair(names[first], names[second])
        touches = (first, second) != ("part", "flange") or not isolated
        values.append(Value(f"{first}_{second}", found.groups_apart, "groups", 0))
        lines.append(_line(found, touches=touches))
    lines += _stops(names)
    return Answer(
        galvanic.MODEL,
        tuple(values),
        verdict_of(lines),
        (*lines, *lot_lines(question, "rivets")),
        ("galvanic",),
    )


def _line(pair: galvanic.Pair, *, touches: bool) -> Line:
    at = (pair.first, pair.second)
    if not touches:
        return Line("isolated", "note", at)
    wet, dry = (galvanic.Contact("", "", pair, wet).counts_as for wet in (True, False))
    tone = "stop" if wet == "strong" else "note"
    return Line("pair", tone, (*at, wet, dry, pair.anode))  # type: ignore[arg-type]


def _stops(names: Names) -> list[Line]:
    rivet, sheets = names["rivet"], (names["part"], names["flange"])
    if rivet == "aluminium" and galvanic.CARBON in sheets:
        return [Line("maker_first", "stop")]
    nobler = [one for one in sheets if rivet and galvanic.GROUPS[one] > galvanic.GROUPS[rivet]]
    apart = [one for one in nobler if galvanic.GROUPS[one] - galvanic.GROUPS[rivet] > 1]
    return [Line("small_anode", "stop", (rivet, *apart))] if apart else []
