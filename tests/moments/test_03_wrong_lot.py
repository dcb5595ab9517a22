"""Moment 3. When the adhesive is opened the sealant is scanned, then an adhesive that expired last month.

Both scans are kept and marked, neither answers the step; going on needs a written deviation.
"""

from __future__ import annotations

from bayleaf.demo_scenario.cast import MARA
from bayleaf.demo_scenario.deeds import Deviation, Lot
from moments.day import Day, findings, step_of

SEALANT = Lot("adhesive", "FS-318", 90, "foot_sealant", name="sealant")
EXPIRED = Lot("adhesive", "EP-1990", -31, name="expired")
PLACE = ("fitting", "fit-18", "adhesive")


def test_a_wrong_and_an_expired_lot_are_kept_and_answer_nothing(day: Day) -> None:
    day.upto("fit-18")
    day.do("fit-18", "6 09:31", MARA, SEALANT)
    day.do("fit-18", "6 09:32", MARA, EXPIRED)
    state = day.state()
    (row,) = (one for one in state["lots"] if (one["method"], one["step"], one["ask"]) == PLACE)
    both = sorted([day.hash("sealant"), day.hash("expired")])
    assert row["answers"] == row["marked"] == both
    assert {("wrong_lot", *PLACE), ("expired_lot", *PLACE)} <= findings(state)
    assert "adhesive" in step_of(state, "fit-18")["open"]

    why = Deviation("The data sheet's maker extends this lot by letter, kept with the papers.", ("expired",))
    day.do("fit-18", "6 09:40", MARA, why)
    after = day.state()
    assert "adhesive" not in step_of(after, "fit-18")["open"]
    assert {("wrong_lot", *PLACE), ("expired_lot", *PLACE)} <= findings(after)  # answered, and still marked
    assert day.row()["deviations"] >= 1
