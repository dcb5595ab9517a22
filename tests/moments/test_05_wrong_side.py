"""Moment 5. The photographer sends a sharp picture of the right-hand header to the left photo slot.

It is struck with a reason and the photo slot asks again; by then pads cover the left flange, so it becomes a
deviation.
"""

from __future__ import annotations

from bayleaf.demo_scenario.cast import MARA, PIM
from bayleaf.demo_scenario.deeds import Deviation, Photo, Step, Strike
from moments.day import Day, findings, step_of

SLOT = ("removal", "rem-12", "upper_clear")


def photos_in(day: Day) -> list[str]:
    row = next(one for one in day.state()["slots"] if (one["method"], one["step"], one["slot"]) == SLOT)
    return row["photos"]


def test_a_struck_photo_asks_again_and_what_is_covered_becomes_a_deviation(day: Day) -> None:
    day.upto("rem-12")
    right_hand = Photo("upper_clear", by=PIM, name="right_hand")
    day.play(Step("rem-12", "1 14:00", MARA, {"pieces": 33}, instead={"upper_clear": (right_hand,)}))
    day.play(*day.script_between("rem-13", "rem-24"))
    assert photos_in(day) == [day.hash("right_hand")]
    wanted = day.row()["photos_wanted"]

    day.do("rem-12", "2 14:58", PIM, Strike("right_hand", "that is the right-hand header, not the left"))
    state = day.state()
    assert photos_in(day) == []
    assert day.row()["photos_wanted"] == wanted + 1
    assert step_of(state, "rem-12")["open"] == ["upper_clear"]
    assert ("open_ask", *SLOT) in findings(state)
    assert [one["target"] for one in state["struck"]].count(day.hash("right_hand")) == 1
    assert step_of(state, "rem-23")["done"] == "done"  # the pads sit on the left flange

    why = Deviation("Pads cover the left flange: the header cannot be photographed clear.", ("right_hand",))
    day.do("rem-12", "2 15:05", MARA, why)
    after = day.state()
    assert len(after["deviations"]) == len(state["deviations"]) + 1
    assert ("open_ask", *SLOT) in findings(after)  # until the office accepts it
    day.office_accepts("open_ask", SLOT, "Covered by the pads; the photo at rem-10 shows the header bare.")
    assert ("open_ask", *SLOT) not in findings(day.state())
