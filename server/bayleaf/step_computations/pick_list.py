"""Rivets to lay ready: one for each position, spares, and the next size where holes want it."""

from __future__ import annotations

from bayleaf.fastening import pick_list as fastening
from bayleaf.step_computations.figures import number_of
from bayleaf.step_computations.inputs import Earlier, Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, verdict_of


def pick_list(question: Question) -> Answer:
    """Inside where the positions agree with those found, the grip is held and the holes may be used."""
    counts = {group.id: len(group.positions) for group in question.groups}
    found, counted = question.quantity("positions"), sum(counts.values())
    if not counted:
        raise Unanswerable("groups", "not_there")
    rule = fastening.SpareRule(
        spare_fraction=_number(question, "spares") / 100, least_spares=int(_number(question, "least_spares"))
    )
    line = fastening.pick(counted, rule)
    values = [Value(f"rivets_{group}", count, "pcs", 0) for group, count in counts.items()]
    values += [
        Value("counted", line.counted, "pcs", 0),
        Value("spares", line.spares, "pcs", 0),
        Value("to_pick", line.nominal_to_pick, "pcs", 0),
    ]
    lines = []
    if found.value != counted * 10**found.decimals:
        both = (Value("found", found.value, "pcs", found.decimals), Value("counted", counted, "pcs", 0))
        lines.append(Line("positions_differ", "stop", (), both))
    if question.want("grip", Earlier).verdict != "inside":
        lines.append(Line("grip_not_held", "stop"))
    larger, said = _larger(question.find("holes", Earlier), rule.least_spares)
    lines += said
    return Answer(fastening.MODEL, (*values, *larger), verdict_of(lines), tuple(lines), ("spares",))


def _number(question: Question, name: str) -> float:
    """A share or count that the method may leave out: then it wants none."""
    found = question.find(name, Quantity)
    return 0.0 if found is None else number_of(found)


def _larger(holes: Earlier | None, spares: int) -> tuple[list[Value], list[Line]]:
    if holes is None or holes.verdict == "inside":
        return [], []
    rivet, damaged = holes.figure("rivet"), holes.figure("damaged")
    if _only_opened(holes):
        return [], []
    if rivet is None or (damaged is not None and damaged.value > 0):
        return [], [Line("holes_ask_maker", "stop")]
    if holes.figure("drill_to") is not None and holes.figure("smallest") is not None and _is_small(holes):
        return [], []
    counted = holes.figure("holes_larger")
    larger = 1 if counted is None else counted.value
    return [Value("larger", larger + spares, "pcs", 0)], [Line("next_size", "note", (), (rivet,))]


def _only_opened(holes: Earlier) -> bool:
    """Decided hole by hole, and none of them wants another rivet."""
    wanting = [holes.figure(name) for name in ("holes_larger", "holes_to_maker", "damaged")]
    return all(one is not None and one.value == 0 for one in wanting)


def _is_small(holes: Earlier) -> bool:
    """A hole under its own range is opened to it; the rivet stays the same."""
    smallest, low = holes.figure("smallest"), holes.figure("hole_from")
    largest, high = holes.figure("largest"), holes.figure("hole_to")
    if smallest is None or low is None or largest is None or high is None:
        return False
    return number_of(smallest) < number_of(low) and number_of(largest) <= number_of(high)
