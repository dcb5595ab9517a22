"""What to do with the sensors, in words: for the command, the office's page and scripts."""

from __future__ import annotations

from typing import Any, assert_never

from bayleaf.heat.sensor_places import Advice

Json = dict[str, Any]


def advice_json(one: Advice) -> Json:
    """The advice with its sentence; places in mm, readings in K more than the spot."""
    found: Json = {"spot": one.spot, "advised": one.advised, "sentence": advice_sentence(one)}
    if one.sensor:
        found["sensor"] = one.sensor
    if one.place:
        found |= {"x_mm": _mm(one.place.x_m), "y_mm": _mm(one.place.y_m)}
        found |= {"moved_mm": _mm(one.moved_m), "reads_more_by_K": round(one.reads_K, 1)}
    return found


def advice_sentence(one: Advice) -> str:
    """One clause without a full stop, such as `move c by 35 mm to x 12.5, y 127.5 mm`."""
    at = f"x {_mm(one.place.x_m):g}, y {_mm(one.place.y_m):g} mm" if one.place else ""
    match one.advised:
        case "leave":
            return f"leave {one.sensor} where it is: it reads {_reads(one.reads_K)}"
        case "move":
            moved = f"move {one.sensor} by {_mm(one.moved_m):.0f} mm to {at}"
            return f"{moved}: there it reads {_reads(one.reads_K)}"
        case "put":
            return f"put one more at {at}: there it reads {_reads(one.reads_K)}"
        case "none":
            return "no open edge of the bondline is told of, so no place for a sensor"
        case _:
            assert_never(one.advised)


def _reads(K: float) -> str:
    if abs(K) < 0.5:  # noqa: PLR2004  what rounds to nothing
        return "the same as the spot"
    return f"{abs(K):.0f} K {'more' if K > 0 else 'less'} than the spot"


def _mm(at_m: float) -> float:
    return round(at_m * 1e3, 1)
