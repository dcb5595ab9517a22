"""The removal up to the first switch-on: what was written on the first two days and the third morning."""

from __future__ import annotations

from typing import Final

from bayleaf.demo_scenario.cast import MARA, OSKAR, OSKAR_BY_PIN, PIM, PIMS_PHONE
from bayleaf.demo_scenario.deeds import (
    Answer,
    Away,
    Back,
    Deviation,
    Looked,
    Mark,
    Moved,
    Note,
    Photo,
    Sign,
    Step,
    Strike,
)

VIN: Final = "DEMO0000000000004"

RECEIVE: Final = (
    Step(
        "rem-01",
        "1 07:40",
        MARA,
        {"vin_read": VIN, "vin_compared": "same", "odometer": 48213, "charge": 41},
    ),
    Step(
        "rem-02",
        "1 07:52",
        MARA,
        then=(
            Photo("damage_wide", shows="damage_close", by=PIM, name="close_in_the_wide_slot"),
            Moved(
                "close_in_the_wide_slot",
                "rem-02",
                "damage_close",
                "sent to the wrong slot: it is the close one",
                by=PIM,
            ),
        ),
        instead={"damage_close": ()},
        minutes=14,
    ),
    Step(
        "rem-03",
        "1 08:10",
        MARA,
        {"instruction": "invented repair instruction 7, issue 3", "materials": "all here"},
    ),
    Step(
        "rem-04",
        "1 08:20",
        MARA,
        {
            "instrument": "measuring system 2, calibrated until next spring",
            "dx": (0.4, -0.3, 0.8, 0.6, 1.1, -0.2),
            "dy": (0.2, 0.1, -0.5, 0.4, -0.9, 0.3),
            "dz": (0.0, 0.2, 0.7, -0.3, 1.4, 0.5),
            "rising": 2012.4,
            "falling": 2011.6,
        },
        minutes=35,
    ),
    Step("rem-05", "1 09:05", MARA, {"approval": "given"}, minutes=6),
)
MAKE_SAFE: Final = (
    Step("rem-06", "1 09:15", MARA, {"air_speed": 0.71}, minutes=25),
    Step(
        "rem-07",
        "1 09:45",
        MARA,
        {"tester": "two-pole tester 5, calibrated until autumn", "wait": 15, "voltage": (0.4, 0.2, -0.1)},
        minutes=28,
    ),
    Step("rem-08", "1 10:20", OSKAR, {"wait": 10, "generators": "taken out and locked away"}, minutes=20),
    Step(
        "rem-09",
        "1 10:50",
        MARA,
        {"across": 0.3, "along": -0.4, "rising": 2012.5, "falling": 2011.5},
        minutes=45,
    ),
)
CLEAR: Final = (
    Step("rem-10", "1 12:30", MARA, minutes=50),
    Step(
        "rem-11",
        "1 13:30",
        MARA,
        {"distance": 235},
        minutes=20,
        then=(
            Deviation(
                "The generator bracket stands in the way of the loom: 235 mm, two layers of glass cloth "
                "laid between.",
                about=("rem-11.distance",),
                name="loom_too_near",
            ),
        ),
    ),
    Step(
        "rem-12",
        "1 14:00",
        MARA,
        {"pieces": 34},
        minutes=30,
        then=(
            Strike("rem-12.pieces", "a screw was counted with the clips"),
            Answer("pieces", 33, name="rem-12.pieces"),
        ),
    ),
    Step("rem-13", "1 14:40", MARA, minutes=40),
)
# The second morning, both phones without signal: two people answer the same step, nine minutes apart.
TWO_TICK_ONE: Final = (
    Step(
        "rem-14",
        "2 08:05",
        MARA,
        {"marks": "none"},
        minutes=4,
        before=(Looked("locked_and_dead"), Looked("twelve_volt_off"), Looked("on_stands"), Looked("braced")),
    ),
    Step(
        "rem-14",
        "2 08:14",
        OSKAR,
        minutes=4,
        ticked=False,
        instead={"marks": (Answer("marks", "scratch in the coating", unheard=True, name="scratch"),)},
        then=(
            Answer("", "done", unheard=True),
            Note("Short scratch in the coating below P2, not into metal."),
        ),
    ),
)
NUMBER: Final = (Step("rem-15", "2 08:25", MARA, {"heads": 22}, minutes=20, before=(Away(PIMS_PHONE),)),)
RIVETS: Final = (
    Step("rem-16", "2 08:50", MARA, {"stops": 3}, minutes=18),
    Step("rem-17", "2 09:10", MARA, {"hole": 4.96, "result": "clean"}, minutes=12),
    Step("rem-18", "2 09:25", MARA, {"bits": 1}, minutes=40),
    Step(
        "rem-19",
        "2 10:15",
        MARA,
        {"bits": 2},
        minutes=65,
        then=(
            Mark("P8", "lost", "shank", name="shank_of_P8"),
            Note("The shank of P8 went past the stop into the post."),
        ),
    ),
    Step("rem-20", "2 11:25", MARA, minutes=30),
    Step(
        "rem-21",
        "2 12:40",
        MARA,
        {"pieces": {"heads": 22, "mandrels": 22, "shanks": 21}},
        minutes=35,
        then=(
            Deviation(
                "The shank of P8 is in the post below the stop. Camera and vacuum did not reach it; the "
                "tally stays open there, and it is looked for again when the part is off.",
                about=("rem-21.pieces.shanks", "shank_of_P8"),
                passes_hold=True,
                name="hold_without_P8",
            ),
            Sign(saw=("hold_without_P8",), by=OSKAR_BY_PIN, name="second_name_for_P8"),
            Back(PIMS_PHONE),
        ),
    ),
    Step("rem-22", "2 13:20", MARA, minutes=40),
)
PADS_UPPER: Final = (
    Step("rem-23", "2 14:20", MARA, {"pad_gap": (0.1, 0.2)}, minutes=35),
    Step(
        "rem-24", "2 15:00", MARA, {"logger": "logger 3, calibrated until summer", "spread": 0.8}, minutes=25
    ),
    Step(
        "rem-25",
        "3 09:20",
        MARA,
        {"air": 20.5},
        minutes=10,
        before=(Looked("locked_and_dead"), Looked("twelve_volt_off"), Looked("on_stands"), Looked("braced")),
    ),
    Step("rem-26", "3 09:35", MARA, {"stays": "Mara"}, minutes=22),
)

BEFORE_HEAT: Final = (*RECEIVE, *MAKE_SAFE, *CLEAR, *TWO_TICK_ONE, *NUMBER, *RIVETS, *PADS_UPPER)
