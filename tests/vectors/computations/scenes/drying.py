"""Drying before hot work and holes of a bit: minutes and holes counted by hand in `about`."""

from __future__ import annotations

from vectors.computations.writing import Json, case, q, v

ASKED = "60 to 80 C for 480 min, invented for the demo; counted by hand"


def _dry(minutes: int, coldest: int, hottest: int, **more: Json) -> Json:
    return {
        "time": q(minutes, "min"),
        "coldest": q(coldest, "C", 1),
        "hottest": q(hottest, "C", 1),
        "from": q(60, "C"),
        "to": q(80, "C"),
        "least": q(480, "min"),
        **more,
    }


def _dried(in_band: int, short: int) -> list[Json]:
    return [v("in_band", in_band, "min"), v("still_to_dry", short, "min")]


DRYING = {
    "over_night": case(
        "720 min between 66.0 and 74.0 C: all of it counts.",
        ASKED,
        _dry(720, 660, 740),
        _dried(720, 0),
        "inside",
        lines=["no_moisture_told"],
    ),
    "on_all_limits": case(
        "480 min, 60.0 and 80.0 C: a value on the limit is good.",
        ASKED,
        _dry(480, 600, 800),
        _dried(480, 0),
        "inside",
        lines=["no_moisture_told"],
    ),
    "a_minute_short": case(
        "479 of 480 min.",
        ASKED,
        _dry(479, 660, 740),
        _dried(479, 1),
        "outside",
        lines=["drying_short", "no_moisture_told"],
    ),
    "a_tenth_too_cold": case(
        "59.9 C at some time, nobody knows for how long: nothing counts.",
        ASKED,
        _dry(720, 599, 740),
        _dried(0, 480),
        "outside",
        lines=["drying_cold", "drying_short", "no_moisture_told"],
    ),
    "a_tenth_too_hot": case(
        "80.1 C at some time: outside, though the time counts at the coldest.",
        ASKED,
        _dry(720, 660, 801),
        _dried(720, 0),
        "outside",
        lines=["drying_hot", "no_moisture_told"],
    ),
    "always_too_hot": case(
        "Never under 85 C: no minute inside the band.",
        ASKED,
        _dry(720, 850, 900),
        _dried(0, 480),
        "outside",
        lines=["drying_hot", "drying_short", "no_moisture_told"],
    ),
    "no_time": case(
        "0 min is no drying.",
        ASKED,
        _dry(0, 660, 740),
        refused={"field": "time", "code": "not_above_zero"},
    ),
    "the_two_ends_exchanged": case(
        "A hottest reading under the coldest.",
        ASKED,
        _dry(720, 740, 660),
        refused={"field": "hottest", "code": "under_coldest"},
    ),
    "a_band_upside_down": case(
        "From 80 to 60 C holds nothing.",
        ASKED,
        _dry(720, 660, 740, **{"from": q(80, "C"), "to": q(60, "C")}),
        refused={"field": "from", "code": "band_turned"},
    ),
}

EACH = "11 holes for one bit, invented for the demo; counted by hand"


def _holes(holes: int, per_bit: int, limit: int = 11) -> Json:
    return {"holes": q(holes, "pcs"), "per_bit": q(per_bit, "pcs"), "limit": q(limit, "pcs")}


def _used(*counts: int) -> list[Json]:
    names = ("per_bit", "limit", "bits_used", "bits_needed", "last_bit", "last_bit_left")
    return [v(name, one, "pcs") for name, one in zip(names, counts, strict=True)]


BITS = {
    "both_to_the_limit": case(
        "22 holes, 11 and 11: the limit is allowed, and the second bit is done.",
        EACH,
        _holes(22, 11),
        _used(11, 11, 2, 2, 11, 0),
        "inside",
        lines=["bit_change_now"],
    ),
    "three_bits": case(
        "22 holes by 8: 8, 8 and 6; the third may do 5 more; 2 bits would have done.",
        EACH,
        _holes(22, 8),
        _used(8, 11, 3, 2, 6, 5),
        "inside",
        lines=["bit_change_after"],
    ),
    "one_over": case(
        "22 holes by 12: 12 and 10; the first is one over, the second may do 1 more.",
        EACH,
        _holes(22, 12),
        _used(12, 11, 2, 2, 10, 1),
        "outside",
        lines=["bit_over", "bit_change_after"],
    ),
    "one_bit_for_all": case(
        "22 holes with one bit: 11 over, none left.",
        EACH,
        _holes(22, 22),
        _used(22, 11, 1, 2, 22, 0),
        "outside",
        lines=["bit_over", "bit_change_now"],
    ),
    "a_bit_that_lasts": case(
        "20 holes by the sheet of another bit: 22 holes by 20 are 20 and 2, 18 are left.",
        "20 holes for a carbide bit in laminate: common practice, no source; counted by hand",
        _holes(22, 20, 20),
        _used(20, 20, 2, 2, 2, 18),
        "inside",
        lines=["bit_change_after"],
    ),
    "more_than_there_are": case(
        "23 holes with one bit, and only 22 were drilled.",
        EACH,
        _holes(22, 23),
        refused={"field": "per_bit", "code": "more_than_holes"},
    ),
    "none": case(
        "No holes drilled: no bit did any.",
        EACH,
        _holes(0, 1),
        refused={"field": "holes", "code": "not_above_zero"},
    ),
}
SCENES = {"bit_use": BITS, "laminate_drying": DRYING}
