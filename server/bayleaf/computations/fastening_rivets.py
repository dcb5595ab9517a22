"""Documents about rivets: tables, grip from the stack-up, offered rivets."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from bayleaf.computations import fastening_sources as src
from bayleaf.computations.fields import DIAMETER, listed, mm, number, record, text, whole
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema
from bayleaf.fastening import grip as grips
from bayleaf.fastening import rivet_rows
from bayleaf.fastening.grip import Grip, Layer, Offered
from bayleaf.fastening.lengths import exact
from bayleaf.fastening.refusal import Refused
from bayleaf.fastening.rivet_rows import RivetRow

ROW: Schema = record(
    "one row of the supplier's table",
    {
        "length_mm": mm("nominal length, mm"),
        "grip_min_mm": mm("smallest grip of the row, mm", zero=True),
        "grip_max_mm": mm("largest grip of the row, mm"),
    },
)


LAYER: Schema = record(
    "one layer, bondline and sealant included",
    {"layer": text("its name"), "thickness_mm": mm("measured thickness, mm")},
    {"tolerance_mm": number("how far it may be off, mm", low=0, high=100)},
)


def _rivet_table(asked: Inputs) -> Outcome:
    diameter = asked["nominal_diameter_mm"]
    rows = rivet_rows.rows_15981(diameter)
    others = rivet_rows.same_rows_as_mm(diameter)
    claimed = asked.get("same_rows_for_diameters_mm", others)
    if sorted(claimed) != sorted(others):
        raise Refused("same_rows_for_diameters_mm", claimed, f"{others}, or leave it out")
    low, high = rivet_rows.span_mm(rows)
    result = {
        "rows": [asdict(row) for row in rows],
        "grip_total_min_mm": low,
        "grip_total_max_mm": high,
        "same_rows_for_diameters_mm": others,
        "hole_mm": list(rivet_rows.hole_range_mm(diameter)),
    }
    return Outcome(result, remarks=("rows decide, not the total span; the supplier's sheet overrides them",))


def _hole_table(asked: Inputs) -> Outcome:
    holes = [rivet_rows.known_hole_range_mm(one) for one in asked["nominal_diameters_mm"]]
    result = {"hole_min_mm": [low for low, _ in holes], "hole_max_mm": [high for _, high in holes]}
    return Outcome(result, remarks=("a maker's rivet often has a hole of its own: the sheet overrides",))


def _longest(asked: Inputs) -> Outcome:
    longest = [rivet_rows.longest_of_nominal_mm(one) for one in asked["nominal_lengths_mm"]]
    return Outcome({"maximum_lengths_mm": longest})


def _body(asked: Inputs) -> Outcome:
    diameter = asked["nominal_diameter_mm"]
    result = {
        "body_max_mm": rivet_rows.thickest_body_mm(diameter),
        "smallest_clearance_in_smallest_hole_mm": rivet_rows.least_clearance_mm(diameter),
    }
    return Outcome(result, remarks=("two hundredths of room: a hole a little small does not take the rivet",))


def _grip(asked: Inputs) -> Outcome:
    grip = _grip_asked(asked)
    choice = grips.lengths_for(grip, _rows_asked(asked))
    result: dict[str, Any] = {
        "grip_mm": grip.grip_mm,
        "lengths_that_fit_mm": [_plain(length) for length in choice.lengths_mm],
        "on_border": choice.on_border,
        "needs_measuring": choice.needs_measuring,
        "asks": choice.asks,
    }
    remarks = []
    if choice.on_border:
        remarks.append("the grip is on the border of a row: say which length, and why; set a trial rivet")
    if choice.needs_measuring:
        remarks.append("no one length holds the whole tolerance: measure the grip at each position")
    return Outcome(result, {"grip_mm": [grip.low_mm, grip.high_mm]}, tuple(remarks))


def _grip_asked(asked: Inputs) -> Grip:
    if "stack_up_mm" in asked:
        return grips.grip_of([Layer(**one) for one in asked["stack_up_mm"]])
    if "grip_mm" in asked:
        return Grip(asked["grip_mm"], asked["grip_mm"], asked["grip_mm"])
    low, high = asked["grip_low_mm"], asked["grip_high_mm"]
    return Grip(float((exact(low) + exact(high)) / 2), low, high)


def _rows_asked(asked: Inputs) -> tuple[RivetRow, ...]:
    diameter = asked["nominal_diameter_mm"]
    if "rows" in asked:
        _refuse_upside_down("rows", asked["rows"])
        return tuple(sorted((RivetRow(**row) for row in asked["rows"]), key=lambda row: row.length_mm))
    rows = rivet_rows.rows_15981(diameter)
    own, *others = (_table_name(one) for one in (diameter, *rivet_rows.same_rows_as_mm(diameter)))
    if asked.get("table", own) not in (own, *others):
        raise Refused(
            "table", asked["table"], f"{' or '.join((own, *others))}, or `rows` of the supplier's sheet"
        )
    return rows


def _table_name(diameter_mm: float) -> str:
    return f"rivet-table-15981-{float(diameter_mm)}".replace(".", "p")


def _offered(asked: Inputs) -> Outcome:
    _refuse_upside_down("offered", asked["offered"])
    _refuse_twins(asked["offered"])
    room = grips.rivets_for(asked["grip_mm"], [Offered(**one) for one in asked["offered"]])
    result = {"fits": list(room), "room_mm": room, "most_room": grips.most_room(room)}
    return Outcome(result, remarks=("most room to the nearer end of its range is preferred",))


def _refuse_upside_down(field: str, ranges: list[dict[str, Any]]) -> None:
    for place, one in enumerate(ranges):
        if one["grip_min_mm"] > one["grip_max_mm"]:
            allowed = f"at most grip_max_mm, {one['grip_max_mm']} mm"
            raise Refused(f"{field}[{place}].grip_min_mm", f"{one['grip_min_mm']} mm", allowed)


def _refuse_twins(offered: list[dict[str, Any]]) -> None:
    names = [one["part"] for one in offered]
    for place, name in enumerate(names):
        if name in names[:place]:
            raise Refused(f"offered[{place}].part", name, "a name of its own: the answer is by name")


def _plain(length_mm: float) -> float:
    return int(length_mm) if length_mm == int(length_mm) else length_mm


# Not bounded here: what no row holds is refused with the range of the rows.
GRIP = number("clamped thickness, mm; no stack-up is not a grip of zero")
OFFERED: Schema = record(
    "one rivet of a supplier's sheet",
    {
        "part": text("its name"),
        "grip_min_mm": mm("smallest grip, mm", zero=True),
        "grip_max_mm": mm("largest grip, mm"),
    },
)

COMPUTATIONS = (
    Computation(
        "rivet-table",
        "Lengths and grip ranges of open end blind rivets AlA/AlA: an example, the supplier's sheet first",
        "rivet-rows-1",
        (src.ISO_15981, src.ISO_15977_HOLES),
        _rivet_table,
        asks={"nominal_diameter_mm": DIAMETER},
        may={
            "material": text("body/mandrel", choices=(rivet_rows.MATERIAL_15981,), default="AlA/AlA"),
            "same_rows_for_diameters_mm": listed("checked if given", DIAMETER, least=0),
        },
    ),
    Computation(
        "hole-table",
        "Hole range per nominal diameter",
        "rivet-rows-1",
        (src.ISO_15977_HOLES,),
        _hole_table,
        asks={"nominal_diameters_mm": listed("nominal diameters, mm", DIAMETER)},
    ),
    Computation(
        "rivet-lengths",
        "The longest that a rivet of a nominal length may be",
        "rivet-rows-1",
        (src.ISO_15981,),
        _longest,
        asks={"nominal_lengths_mm": listed("nominal lengths, mm", whole("length, mm", low=1, high=100))},
    ),
    Computation(
        "rivet-body",
        "The thickest body of a rivet, and its room in the smallest hole",
        "rivet-rows-1",
        (src.DIN_7337, src.ISO_15977_HOLES),
        _body,
        asks={"nominal_diameter_mm": DIAMETER},
    ),
    Computation(
        "grip",
        "From the measured stack-up, a grip or an interval of grip to the rivet lengths that hold it",
        grips.MODEL,
        (src.ISO_15981, f"a length must hold the whole tolerance: {src.PRACTICE}"),
        _grip,
        asks={"nominal_diameter_mm": DIAMETER},
        may={
            "stack_up_mm": listed("layers, outside to inside", LAYER),
            "grip_mm": GRIP,
            "grip_low_mm": mm("smallest clamped thickness, mm", zero=True),
            "grip_high_mm": mm("largest clamped thickness, mm"),
            "table": text("name of the built-in table, rivet-table-15981-4p8 for 4.8 mm"),
            "rows": listed("rows of the supplier's sheet, instead of the built-in table", ROW),
        },
        one_of=(("stack_up_mm",), ("grip_mm",), ("grip_low_mm", "grip_high_mm")),
    ),
    Computation(
        "grip-offered",
        "Which rivets of a supplier, whose ranges may overlap, hold a grip, and with what room",
        grips.MODEL,
        ("the supplier's sheet", f"preference for most room: {src.PRACTICE}"),
        _offered,
        asks={"grip_mm": GRIP, "offered": listed("rivets offered", OFFERED)},
    ),
)
