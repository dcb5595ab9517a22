"""The removal from the first switch-on at 10:02 to its close: two heat runs, part off, flange clean."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bayleaf.demo_scenario.cast import MARA, OSKAR, OSKAR_BY_PIN
from bayleaf.demo_scenario.deeds import (
    Answer,
    Deed,
    Logged,
    Mark,
    Note,
    ReadByHand,
    RunAct,
    Sign,
    Step,
    Strike,
    SwitchedOn,
    WorkedOut,
)

# Up to the fourteenth minute, where the half-done job of the demo is found.
FIRST_MINUTES: Final[tuple[Deed, ...]] = (
    SwitchedOn("run", "upper"),
    Logged("upper", 0, 5),
    RunAct("upper", 5, "remark", text="As planned at five minutes; pad U1 seated with one more clamp."),
    Logged("upper", 6, 10),
    Logged("upper", 11, 14),
)
_HALF_DONE: Final = Step(
    "rem-27", "3 10:02", MARA, minutes=1, instead={"run": FIRST_MINUTES, "display": ()}, ticked=False
)
HALF_DONE: Final = (_HALF_DONE,)

UPPER_ZONE: Final = (
    Step(
        "rem-27",
        "3 10:02",
        MARA,
        minutes=38,
        instead={
            "run": (
                *FIRST_MINUTES,
                Logged("upper", 15, 22),
                Logged("upper", 23, 38),
                RunAct("upper", 38, "soaked"),
                RunAct("upper", 38.5, "workable"),
            )
        },
        then=(Answer("", "done", at="3 10:41"),),
        ticked=False,
    ),
    Step(
        "rem-28",
        "3 10:42",
        MARA,
        {"parted": 580, "last_wedge": 149, "how": "through the adhesive"},
        minutes=7,
        before=(RunAct("upper", 44, "turn_down", "U1", by=OSKAR),),
    ),
    Step(
        "rem-29",
        "3 10:50",
        MARA,
        {"metal_end": 41},
        minutes=75,
        instead={
            "release": (
                Logged("upper", 39, 50),
                RunAct("upper", 50, "turn_down", "U2"),
                Logged("upper", 51, 66),
                RunAct("upper", 67, "lift", "U1"),
                RunAct("upper", 68, "lift", "U2"),
                RunAct("upper", 69, "off"),
                Logged("upper", 67, 80),
                RunAct("upper", 80, "cold"),
            ),
            "metal_end": (Answer("metal_end", 41, at="3 11:24", name="rem-29.metal_end"),),
            "verdict": (WorkedOut("verdict", at="3 11:25", name="rem-29.verdict"),),
        },
    ),
)
POST_ZONE: Final = (
    Step("rem-30", "3 12:40", MARA, {"pad_gap": (0.1, 0.1), "spread": 2.5}, minutes=40),
    Step("rem-31", "3 13:30", MARA, {"air": 22.0}, minutes=25),
    Step(
        "rem-32",
        "3 14:05",
        MARA,
        minutes=53,
        instead={
            "run": (
                SwitchedOn("run", "post"),
                Logged("post", 0, 10),
                Logged("post", 11, 34),
                RunAct(
                    "post",
                    34.5,
                    "remark",
                    text="Residual-current device tripped: a wet cable coupling. Power gone.",
                ),
                RunAct("post", 43, "remark", text="Coupling changed, power back after nine minutes."),
                Logged("post", 35, 53),
                RunAct("post", 53, "soaked"),
                RunAct("post", 53.5, "workable"),
                # two readings from the pad box, pencilled while the phone lay under the bench
                ReadByHand("post", "m", 39, 145, typed=True),
                ReadByHand("post", "m", 41, 133, typed=True),
            )
        },
        then=(Answer("", "done", at="3 15:00"),),
        ticked=False,
    ),
    Step(
        "rem-33",
        "3 15:01",
        MARA,
        {"parted": 660, "how": "through the adhesive"},
        minutes=9,
        before=(RunAct("post", 60, "turn_down", "L2", by=OSKAR),),
    ),
    Step("rem-34", "3 15:11", MARA, minutes=6),
    Step(
        "rem-35",
        "3 15:12",
        MARA,
        {"metal_peak": 180},
        minutes=80,
        instead={
            "release": (
                RunAct("post", 68, "turn_down", "L1"),
                Logged("post", 54, 82),
                RunAct("post", 83, "lift", "L2"),
                RunAct("post", 84, "lift", "L1"),
                RunAct("post", 85, "off"),
                Logged("post", 83, 96),
                RunAct("post", 96, "cold"),
            ),
            "metal_peak": (Answer("metal_peak", 180, at="3 15:43", name="rem-35.metal_peak"),),
            "verdict": (WorkedOut("verdict", at="3 15:44", name="rem-35.verdict"),),
        },
    ),
)
# Diameters of H1 to H7, P1 to P9 and F1 to F6, mm: P4 is the largest hole, none is oval by more than 0.05.
_HEADER_ALONG: Final = (4.97, 4.96, 4.98, 4.95, 4.97, 4.96, 4.98)
_HEADER_ACROSS: Final = (4.96, 4.97, 4.96, 4.96, 4.98, 4.96, 4.97)
_POST_ALONG: Final = (4.97, 4.98, 4.96, 5.02, 4.97, 4.99, 4.98, 4.96, 4.97)
_POST_ACROSS: Final = (4.98, 4.96, 4.97, 4.97, 4.98, 4.97, 4.96, 4.97, 4.98)
_FOOT_ALONG: Final = (4.95, 4.96, 4.97, 4.96, 4.95, 4.97)
_FOOT_ACROSS: Final = (4.96, 4.96, 4.95, 4.97, 4.96, 4.96)
ALONG: Final = (*_HEADER_ALONG, *_POST_ALONG, *_FOOT_ALONG)
ACROSS: Final = (*_HEADER_ACROSS, *_POST_ACROSS, *_FOOT_ACROSS)
HOLES: Final[Mapping[str, tuple[float, ...]]] = {"along": ALONG, "across": ACROSS}

INSPECT: Final = (
    Step(
        "rem-36",
        "3 16:00",
        MARA,
        {"bow": 0.2, "metal": "sound", "residue": "adhesive only"},
        minutes=20,
        then=(
            Answer("marks", "scratch in the coating", step="rem-14", name="rem-14.marks"),
            Answer("", "done", step="rem-14", name="rem-14.tick"),
            Note(
                "Looked at with Oskar: the scratch below P2 is in the coating alone. It is primed at rem-38."
            ),
        ),
    ),
    # The camera finds the shank of P8; the tray is counted again, and what was signed on 21 is signed anew.
    Step(
        "rem-37",
        "3 16:25",
        MARA,
        {"inside": "clear"},
        minutes=40,
        before=(
            Mark("P8", "found", "shank", lost="shank_of_P8", name="found_P8"),
            Answer("pieces", 22, "shanks", step="rem-21", name="rem-21.pieces.shanks"),
            WorkedOut("accounted", step="rem-21", name="rem-21.accounted"),
            Strike("rem-21.counted", "the tray was counted again with the shank of P8", by=OSKAR_BY_PIN),
            Sign("counted", step="rem-21", by=OSKAR_BY_PIN, name="rem-21.counted"),
        ),
    ),
    Step("rem-38", "4 07:30", MARA, {"flange": 2.96}, minutes=90),
    Step("rem-39", "4 09:10", MARA, HOLES, minutes=45),
    Step(
        "rem-40",
        "4 10:05",
        MARA,
        {
            "hardness_loss": (3, 4, 2),
            "dx": (0.4, -0.2, 0.9, 0.6, 1.2, -0.1),
            "dy": (0.2, 0.1, -0.5, 0.5, -0.8, 0.3),
            "dz": (0.1, 0.2, 0.7, -0.3, 1.5, 0.5),
            "rising": 2012.6,
            "falling": 2011.4,
        },
        minutes=50,
    ),
    Step("rem-41", "4 11:00", MARA, minutes=20),
)

HEAT_AND_AFTER: Final = (*UPPER_ZONE, *POST_ZONE, *INSPECT)
