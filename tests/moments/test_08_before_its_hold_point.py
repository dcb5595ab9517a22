"""Moment 8. Switch-on is recorded at 10:02, the second technician's sign, from an offline phone, at 10:06.

Nothing is refused; it is shown as done before its hold, and the sign is not made to look earlier.
"""

from __future__ import annotations

from bayleaf.demo_scenario.cast import MARA, OSKAR, OSKARS_PHONE
from bayleaf.demo_scenario.deeds import Away, Back, Sign, Step, SwitchedOn
from harness.played import frame_documents
from harness.twin import told_by_the_office
from moments.day import Day, findings, step_of

HOLD = "Clear the upper zone for switch-on"


def marked(day: Day) -> dict[str, dict[str, str]]:
    return told_by_the_office(frame_documents(), day.logged(), day.folder)


def test_a_late_sign_is_taken_and_what_came_before_it_says_so(day: Day) -> None:
    day.upto("rem-26")
    day.play(
        Step(
            "rem-26",
            "3 09:35",
            MARA,
            {"stays": "Mara"},
            before=(Away(OSKARS_PHONE),),
            instead={"cleared": ()},
        )
    )
    day.do("rem-27", "3 10:02", MARA, SwitchedOn("run", "upper", name="on"))
    state = day.state()
    assert step_of(state, "rem-26")["hold"] == "held"
    assert ("open_ask", "removal", "rem-26", "cleared") in findings(state)
    assert marked(day)["before_holds"][day.hash("on")] == HOLD

    day.do("rem-26", "3 10:06", OSKAR, Sign("cleared", name="sign"))
    day.do("rem-26", "3 10:31", OSKAR, Back(OSKARS_PHONE))
    after = day.state()
    assert set(day.pens.fates) == {("taken", "")}
    assert step_of(after, "rem-26")["hold"] == "passed"
    assert day.entry("sign").at_ms - day.entry("on").at_ms == 4 * 60_000
    assert day.received_ms("sign") >= day.player.at_ms("3 10:31")
    shown = marked(day)
    assert shown["before_holds"][day.hash("on")] == HOLD
    assert {day.hash("sign")} <= shown["late"].keys()
