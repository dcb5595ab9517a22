"""Made-up jobs: one in which all is well, one in which much is not."""

from __future__ import annotations

from typing import Any

from unit.report.made_up import Log, at

JPEG_A = b"\xff\xd8 not a picture A"
READINGS = {
    "a": [(0, 20), (600, 90), (1200, 130), (1500, 140), (1800, 142), (2100, 120)],
    "b": [(0, 20), (600, 80), (1200, 126), (1500, 133), (1800, 135), (2100, 110)],
    "m": [(0, 20), (600, 150), (1200, 176), (1500, 180), (1800, 181), (2100, 130)],
}
EVERY_FIVE_MIN = {
    "a": [20, 55, 90, 110, 130, 140, 142, 120, 100, 85, 70, 60, 52, 45, 40],
    "b": [20, 50, 80, 103, 126, 133, 135, 110, 92, 78, 65, 56, 48, 42, 38],
    "m": [20, 85, 150, 163, 176, 180, 181, 130, 108, 90, 74, 63, 55, 48, 43],
}
WATCHED = {
    sensor: [(300 * number, value) for number, value in enumerate(values)]
    for sensor, values in EVERY_FIVE_MIN.items()
}
"""Read to the end, and never longer apart than the method allows."""


def book_in(log: Log, photo: bytes = JPEG_A) -> None:
    """Step one, all answered."""
    log.write(
        "mara",
        "3 09:00",
        "text",
        {**log.step("one"), "ask": "logger", "point": "", "value": "LG-4, due 2027-03", "over": []},
    )
    log.write(
        "mara",
        "3 09:01",
        "choice",
        {**log.step("one"), "ask": "compared", "point": "", "option": "same", "over": []},
    )
    log.photo("pim", "3 09:02", "one", "damage", photo)
    log.tick("mara", "3 09:05", "one")


def measure(log: Log, *, bow: int = 31) -> tuple[str, str, str]:
    """Step two; the hashes of its readings."""
    first = log.read("mara", "3 09:10", "two", "gap", 9, point="g1")
    second = log.read("mara", "3 09:11", "two", "gap", 17, point="g2")
    return first, second, log.read("mara", "3 09:12", "two", "bow", bow, decimals=2)


def countersign(log: Log, saw: tuple[str, ...], when: str = "3 09:20") -> str:
    return log.write(
        "oskar", when, "countersign", {**log.step("two"), "ask": "seen", "saw": sorted(saw)}, auth="pin"
    )


def rivets(log: Log) -> None:
    """Three rivets out, one lot."""
    for minute, position in enumerate(("H1", "H2", "H3")):
        log.write(
            "mara", f"3 10:0{minute}", "tally", {"position": position, "generation": 0, "state": "shank_out"}
        )
    log.write(
        "mara",
        "3 10:05",
        "lot",
        {
            **log.step("three"),
            "ask": "cleaner",
            "material": "cleaner",
            "lot": "CL-88",
            "expires_ms": at("30 00:00"),
        },
    )
    log.tick("mara", "3 10:10", "three")


def heat(
    log: Log,
    readings: dict[str, list[tuple[int, int]]] | None = None,
    *,
    plan: str = "",
    released: bool = True,
) -> str:
    """A whole run; the hash of its on. Readings are (seconds since on, degrees).

    Not `released`: nobody recorded that a pad was turned down, lifted or switched off.
    """
    on = log.write(
        "mara",
        "3 11:00",
        "heat",
        {
            **log.step("four"),
            "ask": "run",
            "act": "on",
            "zone": "upper",
            "purpose": "removal",
            "pads": ["U1", "U2"],
            "plan": plan,
        },
    )
    for sensor, points in (readings or WATCHED).items():
        log.write(
            "mara",
            "3 11:36",
            "reading",
            {
                "run": on,
                "sensor": sensor,
                "unit": "C",
                "decimals": 0,
                "points": [[1000 * s, value] for s, value in points],
                "run_doubt": False,
                "typed_time": False,
            },
        )
    acts = [
        ("soaked", "", 1800),
        ("turn_down", "U1", 1860),
        ("turn_down", "U2", 1980),
        ("lift", "U1", 2100),
        ("lift", "U2", 2110),
        ("off", "", 2120),
        ("cold", "", 4200),
    ]
    for act, pad, seconds in acts:
        if released or act in ("soaked", "cold"):
            write_act(log, on, act, seconds, pad=pad)
    log.tick("mara", "3 12:20", "four")
    return on


def write_act(log: Log, on: str, act: str, seconds: int, **other: Any) -> str:
    body = {
        "act": act,
        "run": on,
        "pad": "",
        "run_ms": 1000 * seconds,
        "run_doubt": False,
        "typed_time": False,
        "text": "",
        **other,
    }
    return log.write("mara", "3 12:10", "heat", body)


def well(photo: bytes = JPEG_A, readings: dict[str, list[tuple[int, int]]] | None = None) -> Log:
    """Everything done, inside its limits, closed."""
    log = Log()
    log.open()
    book_in(log, photo)
    saw = measure(log)
    countersign(log, saw)
    log.tick("mara", "3 09:25", "two")
    rivets(log)
    heat(log, readings)
    log.write("ada", "4 08:00", "close", {"reason": "", "over": []})
    return log


def bowed(log: Log) -> tuple[str, str]:
    """The bow is over its limit, and a deviation says why; the hashes of the reading and of the deviation."""
    log.open()
    book_in(log)
    saw = measure(log, bow=74)
    deviation = log.write(
        "mara",
        "3 09:13",
        "deviation",
        {
            **log.step("two"),
            "text": "Flange was bent before we began, see photo 1.",
            "about": [saw[2]],
            "passes_hold": True,
        },
    )
    countersign(log, saw)
    log.tick("mara", "3 09:25", "two")
    rivets(log)
    heat(log)
    return saw[2], deviation


def accept(log: Log, code: str, named: str, at_ids: list[str], reason: str) -> None:
    log.write("ada", "4 09:00", "accept", {"code": code, "at": at_ids, "hashes": [named], "reason": reason})
