"""Readings that are read only where they are needed: a point without a value leaves nothing open."""

from vectors.scene import Expect, Scene, findings, found, vector

MEASURE = "room:measure"
# `hole` at P and Q (4.90 to 5.10 mm), and `edge` at P and Q (9.6 mm or more), read only where needed


@vector("A reading that is read only where needed is never open, and the hold passes without it", "room")
def what_is_read_where_needed_is_never_open(s: Scene) -> Expect:
    s.office.pin("room")
    s.tech.reading(MEASURE, "hole", 500, point="p", decimals=2)
    s.tech.reading(MEASURE, "hole", 498, point="q", decimals=2)
    return {"steps[step=measure]/open": [], "steps[step=measure]/hold": "passed", "findings": []}


@vector("A value outside its limits holds the hold, though the other point was not read", "room")
def what_is_read_where_needed_is_judged(s: Scene) -> Expect:
    s.office.pin("room")
    s.tech.reading(MEASURE, "hole", 500, point="p", decimals=2)
    s.tech.reading(MEASURE, "hole", 498, point="q", decimals=2)
    edge = s.tech.reading(MEASURE, "edge", 88, point="q")
    return {
        "steps[step=measure]/open": [],
        "steps[step=measure]/hold": "held",
        "findings": findings(found("outside_limits", ["room", "measure", "edge", "q"], edge)),
    }
