"""The fitting: dry fit on the fifth day, bond on the sixth, cure over night, hand-over on the tenth."""

from __future__ import annotations

from typing import Final

from bayleaf.demo_scenario.cast import ADA, MARA, OSKAR
from bayleaf.demo_scenario.deeds import (
    Accepted,
    Agreed,
    Answer,
    Climbed,
    Closed,
    Deviation,
    Logged,
    Looked,
    Lot,
    Note,
    RunAct,
    Step,
    SwitchedOn,
    WorkedOut,
)

MORNING: Final = tuple(Looked(one) for one in ("locked_and_dead", "twelve_volt_off", "on_stands", "braced"))
GAPS: Final = (3.4, 3.5, 3.6, 3.4, 3.7, 3.6, 3.5, 3.3)
STEPS: Final = (0.2, 0.1, -0.2, 0.3, 0.4, 0.1, -0.1, 0.2)

PREPARE: Final = (
    Step(
        "fit-01",
        "5 07:30",
        MARA,
        {"as_left": "as left", "rising": 2012.6, "falling": 2011.5},
        minutes=15,
        before=MORNING,
    ),
    Step(
        "fit-02",
        "5 07:50",
        MARA,
        {"part_number": "invented part 40-117, serial 0062", "tapped": "sound"},
        minutes=20,
    ),
    Step(
        "fit-03",
        "5 08:15",
        MARA,
        {"cartridges": 22.5},
        minutes=12,
        instead={
            "adhesive": (Lot("adhesive", "EP-2231", 140),),
            "primer": (Lot("primer", "PR-0907", 200),),
            "cleaner": (Lot("cleaner", "CL-5540", 400),),
            "rivets": (Lot("rivets", "BR-48-1177", 1500),),
        },
    ),
    Step("fit-04", "5 08:30", MARA, {"air": 22.0, "humidity": 46, "flange": 20.5}, minutes=8),
)
DRY_FIT: Final = (
    Step("fit-05", "5 08:45", MARA, {"lies_down": "without force"}, minutes=25),
    Step("fit-06", "5 09:15", MARA, {"gap": GAPS, "step": STEPS}, minutes=30),
    Step("fit-07", "5 09:50", MARA, {"room": (1.1, 1.2, 1.3, 1.2, 1.2, 1.1)}, minutes=30),
    Step("fit-08", "5 10:25", MARA, {"drilled": 22, "per_bit": 11, "back": "clean"}, minutes=60),
    Step("fit-09", "5 11:30", MARA, {"edge": 15.2}, minutes=35),
    Step(
        "fit-10",
        "5 12:45",
        MARA,
        {
            "laminate": (3.21, 3.24, 3.18),
            "trial_gap": (0.02, 0.03),
            "trial": "both locked and bulb formed",
        },
        minutes=30,
    ),
    Step(
        "fit-11",
        "5 13:20",
        MARA,
        {"rehearsal": 24},
        minutes=30,
        then=(
            Deviation(
                "24 minutes, one more than two thirds of the open time: the clamps lay on the wrong side. "
                "They are laid ready now, and the carrying was walked once more in 6 minutes.",
                about=("fit-11.rehearsal",),
                passes_hold=True,
                name="rehearsal_too_long",
            ),
        ),
    ),
)
SURFACES: Final = (
    Step(
        "fit-12",
        "6 07:40",
        MARA,
        {"drying_time": 720, "drying": (66, 74), "last_cloth": "white"},
        before=MORNING,
    ),
    Step("fit-13", "6 07:55", MARA, minutes=20),
    Step("fit-14", "6 08:20", OSKAR, {"surface": "dull and closed"}, minutes=15),
    Step("fit-15", "6 08:38", MARA, {"film": "stays closed", "film_time": 45}, minutes=7),
    Step(
        "fit-16",
        "6 08:47",
        MARA,
        {"coat": "thin and even", "flash_off": 22},
        minutes=24,
        instead={"flash_off": (Answer("flash_off", 22, at="6 09:10", name="fit-16.flash_off"),)},
        then=(Answer("", "done", at="6 09:11"),),
        ticked=False,
    ),
    Step(
        "fit-17",
        "6 09:15",
        MARA,
        {"since_abrading": 82, "air": 22.5, "flange": 21.0, "humidity": 44},
        minutes=14,
    ),
)
BOND: Final = (
    Step(
        "fit-18",
        "6 09:31",
        MARA,
        minutes=3,
        instead={"adhesive": (Lot("adhesive", "EP-2231", 139),)},
    ),
    Step(
        "fit-19",
        "6 09:35",
        MARA,
        {"bead_height": (8.0, 8.2, 7.9), "since_primer": 54},
        minutes=9,
        instead={"foot_sealant": (Lot("foot_sealant", "FS-318", 90),)},
    ),
    Step("fit-20", "6 09:47", MARA, {"open_for": 16}, minutes=2),
    Step(
        "fit-21",
        "6 09:50",
        MARA,
        {"gap": (3.4, 3.6, 3.6, 3.3), "step": (0.2, -0.1, 0.3, 0.2)},
        minutes=3,
    ),
    Step("fit-22", "6 09:53", MARA, minutes=3),
    Step(
        "fit-23",
        "6 09:56",
        MARA,
        minutes=6,
        then=(
            Note("P3 spun and stood proud: drilled out, its three pieces in the tray, a second one set."),
            Climbed("tally", ("P3",), 1, ("shank_out",)),
            Climbed("tally", ("P3",), 2),
        ),
    ),
    Step("fit-24", "6 10:02", MARA, {"open_for": 33}, minutes=3),
    Step("fit-25", "6 10:08", MARA, {"spent": 23}, minutes=25),
    Step("fit-26", "6 10:36", MARA, {"squeeze_out": "unbroken both edges"}, minutes=15),
)
CURE: Final = (
    Step(
        "fit-27",
        "6 11:00",
        MARA,
        {"cure": "warm", "coldest": 21.0},
        minutes=8,
        instead={
            "run": (
                SwitchedOn("run", "cure", at="6 11:20"),
                Logged("cure", 0, 32),
                Logged("cure", 34, 96),
                RunAct("cure", 96, "soaked"),
                RunAct("cure", 97, "turn_down", "L2"),
                RunAct("cure", 98, "turn_down", "U1"),
                RunAct("cure", 99, "turn_down", "L1"),
                RunAct("cure", 100, "turn_down", "U2"),
                Logged("cure", 98, 116),
                RunAct("cure", 117, "lift", "L2"),
                RunAct("cure", 118, "lift", "U1"),
                RunAct("cure", 119, "lift", "L1"),
                RunAct("cure", 120, "lift", "U2"),
                RunAct("cure", 121, "off"),
                Logged("cure", 118, 126),
                RunAct("cure", 126, "cold"),
            ),
            "coldest": (Answer("coldest", 21.0, at="7 07:30", name="fit-27.coldest"),),
            "verdict": (WorkedOut("verdict", at="7 07:31", name="fit-27.verdict"),),
            "progress": (WorkedOut("progress", at="7 07:32", name="fit-27.progress"),),
        },
        then=(Answer("", "done", at="7 07:33"),),
        ticked=False,
    ),
    Step("fit-28", "7 07:40", MARA, {"blob": 78}, minutes=12, before=MORNING),
    Step("fit-29", "7 08:00", MARA, {"sound": "even"}, minutes=25),
    Step(
        "fit-30",
        "7 08:30",
        MARA,
        {
            "dx": (0.4, -0.2, 0.8, 0.6, 1.0, -0.1),
            "dy": (0.2, 0.1, -0.4, 0.4, -0.7, 0.3),
            "dz": (0.1, 0.2, 0.6, -0.3, 1.2, 0.4),
            "rising": 2012.5,
            "falling": 2011.6,
            "gap": (3.4, 3.5, 3.6, 3.5, 3.7, 3.6, 3.5, 3.3),
            "step": (0.2, 0.1, -0.1, 0.3, 0.4, 0.2, -0.1, 0.2),
        },
        minutes=60,
    ),
)
FINISH: Final = (
    Step(
        "fit-31",
        "7 09:45",
        MARA,
        minutes=40,
        instead={
            "edge_sealant": (
                Lot("edge_sealant", "FS-318", 89, "foot_sealant", name="wrong_cartridge"),
                Note("That was the foot sealant's cartridge; put back, not used."),
                Lot("edge_sealant", "ES-2040", 210),
            )
        },
    ),
    Step("fit-32", "9 09:00", MARA, {"paint_peak": 58}),
    Step(
        "fit-33",
        "9 10:00",
        MARA,
        minutes=30,
        instead={"cavity_protection": (Lot("cavity_protection", "CP-77", 600),)},
    ),
    Step("fit-34", "9 13:00", MARA, {"pieces": 33}, minutes=90),
)
HAND_OVER: Final = (
    Step("fit-35", "10 07:45", MARA, {"insulation": 12.0, "bonding": 0.021, "faults": 0}, minutes=40),
    Step("fit-36", "10 08:40", MARA, {"water": "dry", "alignment": "done and in limits"}, minutes=70),
    Step("fit-37", "10 10:10", MARA, {"road_test": "no noise and no change"}, minutes=45),
    Step("fit-38", "10 11:20", ADA, minutes=10),
)
FILE: Final = (
    Step(
        "fit-38",
        "10 11:45",
        ADA,
        minutes=10,
        ticked=False,
        instead={"handed_over": (), "leaving": ()},
        then=(
            Accepted(
                "outside_limits",
                "Glass cloth lay between; the loom was looked at and is sound.",
                ("removal", "rem-11", "distance"),
            ),
            Accepted(
                "outside_limits",
                "The parts were joined 16 minutes after the first gram.",
                ("fitting", "fit-11", "rehearsal"),
            ),
            Agreed("loom_too_near", "As agreed at the car."),
            Agreed("hold_without_P8", "Found at rem-37 and counted."),
            Agreed("rehearsal_too_long", "Joined 16 minutes after the first gram."),
            Accepted("wrong_lot", "The cartridge was put back unused; the next one is the right one."),
            Closed("Handed over."),
        ),
    ),
)

FITTING: Final = (*PREPARE, *DRY_FIT, *SURFACES, *BOND, *CURE, *FINISH, *HAND_OVER, *FILE)
