"""What each hole allows stands in the fastener map's chapter: a sign in the drawing, words in a row.

The demo's rivet is 4.8 mm, its hole 4.90 to 5.10; the next size is 6.4 mm and wants 12.8 mm to the flange's
edge and 19.2 to the laminate's. By its drawing P6 has 13.5 and 20.0 mm, F3 16.0 and 18.5.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import fold
from bayleaf.report.ledger import Ledger
from bayleaf.report.rivet_holes import holes
from bayleaf.report.source import ReportSource
from harness.played import frame_methods, played_fitting


def with_holes(read: Mapping[str, int]) -> list[Entry]:
    """The whole job with other diameters along the flange, in hundredths of a millimetre."""
    return [
        replace(one, body={**one.body, "value": read[one.body["point"]]})
        if one.kind == "reading" and one.body.get("ask") == "along" and one.body["point"] in read
        else one
        for one in played_fitting().entries
    ]


def ledger_of(entries: Sequence[Entry]) -> Ledger:
    methods = frame_methods()
    return Ledger(ReportSource("job", 0, None, "", fold(methods, entries), entries, methods, {}))


def test_the_demos_own_holes_are_all_used_as_they_are() -> None:
    told = holes(ledger_of(played_fitting().entries))
    assert told["legend"] == [["hole_used", "22 use as it is"]]
    assert told["rows"] == []


def test_a_hole_goes_up_and_names_its_neighbours_another_has_no_room_and_says_in_words_why() -> None:
    told = holes(ledger_of(with_holes({"p6": 523, "f3": 516, "h2": 487})))
    assert told["legend"] == [
        ["hole_used", "19 use as it is"],
        ["hole_opened", "1 open to its size"],
        ["hole_larger", "1 next size"],
        ["hole_to_maker", "1 ask the maker"],
    ]
    assert [(row["id"], row["words"].replace("\u00a0", " ")) for row in told["rows"]] == [
        ("H2", "open to its size; measured 4.97 mm and 4.87 mm"),
        (
            "P6",
            (
                "next size, 6.4 mm, drill to 6.50 mm; measured 5.23 mm and 4.97 mm; "
                "P5 and P7 checked again with the larger rivet; its edge was not read at the hole"
            ),
        ),
        ("F3", "ask the maker: its edge is too near for the next size; measured 5.16 mm and 4.95 mm"),
    ]
    assert told["signs"]["P6"] == "hole_larger"
    assert told["signs"]["P5"] == "hole_used"


def test_a_hole_that_was_not_read_says_so_in_the_drawing() -> None:
    entries = [one for one in played_fitting().entries if one.body.get("point") != "f6"]
    told = holes(ledger_of(entries))
    assert told["signs"]["F6"] == "hole_not_read"
    assert told["legend"] == [["hole_used", "21 use as it is"], ["hole_not_read", "1 not measured"]]
