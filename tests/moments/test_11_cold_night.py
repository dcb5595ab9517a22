"""Moment 11. Heating goes off at 18:00, the flange falls to 12 C.

The forecast moves from 8:00 to 15:00, the office sees it before it gives the hoist away, and the morning's
"clamps off" waits at its hold.

Room cure, first gram at 16:00, 16 hours at 23 C by the sheet: 8:00. By hand, with Q = 60 kJ/mol and
R = 8.314: an hour counts 0.847 at 21 C, 0.658 at 18, 0.508 at 15, 0.391 at 12. Two hours at 23 C, one falling
to each of these, nine more at 12, then 23 C again from 7:00 on: 7.92 hours by then, 8.08 to go, 15:05.
"""

from __future__ import annotations

from bayleaf.demo_scenario.cast import MARA, OSKAR
from bayleaf.demo_scenario.deeds import Answer, Lot, Sign, Step, WorkedOut
from moments.day import Day, findings, step_of

HOUR_MS = 3_600_000
QUARTER_MS = HOUR_MS // 4
EVENING = (
    ("16:05", 23.0),
    ("18:00", 23.0),
    ("19:00", 21.0),
    ("20:00", 18.0),
    ("21:00", 15.0),
    ("22:00", 12.0),
)


def read(day: Day, at: str, flange: float) -> None:
    reading = Answer("coldest", flange, name="fit-27.coldest")
    day.do("fit-27", at, MARA, reading)


def forecast_ms(day: Day) -> int:
    (cure,) = day.row()["forecasts"]
    return int(cure["handling_ms"])


def is_about(at_ms: int, day: Day, at: str) -> bool:
    return abs(at_ms - day.player.at_ms(at)) <= QUARTER_MS


def bonded(day: Day) -> None:
    """The script's bond, six and a half hours later in the day, to be cured at room temperature."""
    day.upto("fit-18")
    adhesive = (Lot("adhesive", "EP-2231", 139),)
    first_gram = (Answer("first_gram", at="6 16:00", name="fit-18.first_gram"),)
    asks = {"adhesive": adhesive, "first_gram": first_gram}
    day.play(Step("fit-18", "6 15:58", MARA, instead=asks, minutes=4))
    day.play(*day.script_between("fit-19", "fit-26"))
    day.do("fit-27", "6 16:50", MARA, Answer("cure", "room"))


def test_the_forecast_moves_with_the_night_and_clamps_off_waits(day: Day) -> None:
    bonded(day)
    for at, flange in EVENING[:2]:
        read(day, f"6 {at}", flange)
    assert forecast_ms(day) == day.player.at_ms("7 08:00")  # sixteen hours at 23 C
    for at, flange in EVENING[2:]:
        read(day, f"6 {at}", flange)
    assert forecast_ms(day) > day.player.at_ms("7 12:00")  # the office sees it in the evening
    read(day, "7 07:00", 23.0)
    assert is_about(forecast_ms(day), day, "7 15:00")

    day.do("fit-27", "7 07:05", MARA, WorkedOut("progress", name="fit-27.progress"), Answer(""))
    day.do("fit-28", "7 08:00", MARA, Answer("blob", 78), WorkedOut("progress", name="early"))
    day.do("fit-28", "7 08:02", OSKAR, Sign("cured"))
    assert day.entry("early").body["verdict"] == "outside"
    assert step_of(day.state(), "fit-28")["hold"] == "held"
    assert is_about(forecast_ms(day), day, "7 15:00")

    day.do("fit-28", "7 15:10", MARA, WorkedOut("progress", name="ready"))
    day.do("fit-28", "7 15:12", OSKAR, Sign("cured", name="second"))
    assert day.entry("ready").body["verdict"] == "inside"
    state = day.state()
    assert step_of(state, "fit-28")["hold"] == "passed"
    assert not {one for one in findings(state) if one[0] == "stale_result"}
