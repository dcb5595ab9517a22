"""Rivets to lay ready: one for each position, spares, trial rivets, and the next size where holes want it.

Lengths are those that the grip's result gave, or that a person chose there: no figure is typed a second time.
Spares are rounded up line by line, as the office does.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bayleaf.fastening import pick_list as fastening
from bayleaf.step_computations.figures import number_of
from bayleaf.step_computations.inputs import Earlier, Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, verdict_of


@dataclass(frozen=True, slots=True)
class _Laid:
    """So many of one length; `length` is None where the grip's table names none, or nobody chose one."""

    length: Value | None
    count: int
    spares: int
    trial: int

    @property
    def to_pick(self) -> int:
        return self.count + self.spares + self.trial


def pick_list(question: Question) -> Answer:
    """Inside where the positions agree with those found, every grip is settled and the holes may be used."""
    counts = {group.id: len(group.positions) for group in question.groups}
    counted = sum(counts.values())
    found, grip = question.quantity("positions"), question.want("grip", Earlier)
    if not counted:
        raise Unanswerable("groups", "not_there")
    rule = fastening.SpareRule(
        spare_fraction=_number(question, "spares") / 100, least_spares=int(_number(question, "least_spares"))
    )
    trial = int(_number(question, "trial"))
    laid = list(_laid(counts, grip, rule, trial))
    values = [Value(f"rivets_{group}", count, "pcs", 0) for group, count in counts.items()]
    values += [value for one in laid for value in _of_length(one)]
    values += _sums(laid)
    lines = []
    if found.value != counted * 10**found.decimals:
        both = (Value("found", found.value, "pcs", found.decimals), Value("counted", counted, "pcs", 0))
        lines.append(Line("positions_differ", "stop", (), both))
    lines += _grip_lines(counts, grip)
    larger, said = _larger(question.find("holes", Earlier), rule.least_spares)
    lines += said
    return Answer(fastening.MODEL, (*values, *larger), verdict_of(lines), tuple(lines), ("spares",))


def _number(question: Question, name: str) -> float:
    """A share or count that the method may leave out: then it wants none."""
    found = question.find(name, Quantity)
    return 0.0 if found is None else number_of(found)


def _laid(counts: dict[str, int], grip: Earlier, rule: fastening.SpareRule, trial: int) -> Iterator[_Laid]:
    """A line a length, in the order of the groups; those without a length together."""
    lines: dict[float | None, tuple[Value | None, int]] = {}
    for group, count in counts.items():
        length = _length(grip, group)
        key = None if length is None else number_of(length)
        lines[key] = (length, lines.get(key, (None, 0))[1] + count)
    for length, count in lines.values():
        picked = fastening.pick(count, rule)
        yield _Laid(length, count, picked.spares, trial if count else 0)


def _length(grip: Earlier, group: str) -> Value | None:
    """What a person chose for a group, else what its row says."""
    return grip.figure(f"chosen_{group}") or grip.figure(f"length_{group}")


def _of_length(one: _Laid) -> Iterator[Value]:
    """The counts of one length, named by it: `lay_12mm`, `lay_12_5mm`."""
    if one.length is None:
        return
    name = f"{number_of(one.length):g}mm".replace(".", "_")
    yield Value(f"need_{name}", one.count, "pcs", 0)
    yield Value(f"spare_{name}", one.spares, "pcs", 0)
    yield Value(f"lay_{name}", one.to_pick, "pcs", 0)


def _sums(laid: Sequence[_Laid]) -> Iterator[Value]:
    sums = {
        "counted": sum(one.count for one in laid),
        "spares": sum(one.spares for one in laid),
        "trial": sum(one.trial for one in laid),
        "to_pick": sum(one.to_pick for one in laid),
    }
    yield from (Value(name, pcs, "pcs", 0) for name, pcs in sums.items() if pcs or name != "trial")


def _grip_lines(counts: dict[str, int], grip: Earlier) -> Iterator[Line]:
    """By rows each group wants a length; of one range the verdict says whether the rivet holds."""
    if grip.figure("lengths_offered") is None:
        if grip.verdict != "inside":
            yield Line("grip_not_held", "stop")
        return
    open_at = tuple(group for group in counts if _length(grip, group) is None)
    chosen_at = tuple(group for group in counts if grip.figure(f"chosen_{group}") is not None)
    if open_at:
        yield Line("length_open", "stop", open_at)
    if chosen_at:
        yield Line("length_chosen", "note", chosen_at)


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
