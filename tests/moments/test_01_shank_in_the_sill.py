"""Moment 1. At P8 the shank drops past the stop, into the sill.

It gets the rivet mark lost (shank), and the hold at rem-21 is passed only with a written deviation and a
second name. The tally stays open at P8, in view; after lifting the camera finds it, the mark found and a
photo close it, both facts stay readable.
"""

from __future__ import annotations

from bayleaf.demo_scenario.cast import MARA, OSKAR_BY_PIN, PIMS_PHONE
from bayleaf.demo_scenario.deeds import Back, Deviation, Mark, Sign, Step
from bayleaf.domain.state import PositionState
from moments.day import Day, findings, script, step_of

PIECES = {"pieces": {"heads": 22, "mandrels": 22, "shanks": 21}}
WRITTEN = Deviation(
    "Shank of P8 in the post, out of the camera's reach.",
    ("rem-21.pieces.shanks", "lost"),
    passes_hold=True,
    name="written",
)


def at_P8(day: Day) -> PositionState:
    return next(one for one in day.state()["positions"] if one["position"] == "P8")


def hold_of(day: Day, step: str) -> str:
    return str(step_of(day.state(), step)["hold"])


def test_a_lost_shank_keeps_the_tally_open_until_the_camera_finds_it(day: Day) -> None:
    day.upto("rem-19")
    day.play(Step("rem-19", "2 10:15", MARA, {"bits": 2}, then=(Mark("P8", "lost", "shank", name="lost"),)))
    day.play(*script("rem-20"), Step("rem-21", "2 12:40", MARA, PIECES, ticked=False))
    assert hold_of(day, "rem-21") == "held"
    day.do("rem-21", "2 13:00", MARA, WRITTEN)
    assert hold_of(day, "rem-21") == "held"  # written, but by one name
    day.do("rem-21", "2 13:04", MARA, Sign(saw=("written",), by=OSKAR_BY_PIN), Back(PIMS_PHONE))
    assert hold_of(day, "rem-21") == "deviation"

    day.play(*script("rem-22"))
    state = day.state()
    assert ("lost_piece", "P8") in findings(state)
    assert (at_P8(day)["place"], state["counts"]["lost"], state["counts"]["shank_out"]) == ("lost", 1, 21)
    assert state["pieces"]["lost"] == {"head": 0, "mandrel": 0, "shank": 1}
    assert day.row()["findings"] >= 1
    assert day.row()["deviations"] >= 1

    found = Mark("P8", "found", "shank", lost="lost", name="found")
    day.play(Step("rem-37", "3 16:25", MARA, {"inside": "clear"}, before=(found,), instead={"accounted": ()}))
    position = at_P8(day)
    assert position["place"] == "shank_out"
    assert {(one["mark"], one["open"]) for one in position["marks"]} == {("lost", False), ("found", False)}
    after = day.state()
    assert ("lost_piece", "P8") not in findings(after)
    assert after["pieces"]["lost"]["shank"] == 0
    (cavity,) = (
        one["photos"] for one in after["slots"] if (one["step"], one["slot"]) == ("rem-37", "cavity")
    )
    assert cavity == [day.hash("rem-37.cavity")]
    assert day.entry("found").body["lost"] == day.entry("lost").hash
