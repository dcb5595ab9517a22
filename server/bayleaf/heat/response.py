"""The response set: the family's curves as small whole numbers, for a phone to fit its readings offline.

Form 2 (JSON, compact). All temperatures are in tenths of a degree, all times in s after switch-on, all
places in mm from the zone's lower left corner seen from the heated side; a curve is its first value and then
differences; null stands for never or nowhere.
`form` 2; `zone` id, `digest` of the zone document, `purpose`, `ambient_dC`, `workable_dC`, `maximum_dC`;
`contact_permille` and `loss_permille`, the factors of rows and columns; `clock_s`, the times of a member's
curves; `sensors`, ids; `members`, row by row, each `{s: [curve per sensor], c: coldest bondline, h: hottest
bondline, m: hottest metal}`; `lifting`, per pad, each sensor's fall behind every minute after that pad
lifts; `acts`, the plan's release; `first`, the line that comes before all figures.
Of the plan (`bayleaf.heat.response_plan`): `model`, `name`, `invented`; `answer`; `layout` (outline, bond,
pads, sensors, neighbours, the leading and the lagging spot with the nearest sensor); `plan`, the planned
curves through release and cool-down on a clock of their own: `c`, `h`, `m` and `s` as in a member.
The fit is told in `bayleaf.heat.fit`.
"""

from __future__ import annotations

import gzip
import json
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.family import Family, Lifting, Member
from bayleaf.heat.zone import Conditions, PadAct, Zone

Floats = NDArray[np.float64]
TENTHS = 10.0
PERMILLE = 1000.0
FORM = 2
MOST_GZIPPED_BYTES = 60_000


def response_set(zone: Zone, family: Family, acts: tuple[PadAct, ...], first: str) -> dict[str, Any]:
    """What the family gives to the document, which stays under 60 KB gzipped for ordinary zones."""
    return {
        "form": FORM,
        "zone": zone.id,
        "digest": zone.digest,
        "purpose": zone.purpose,
        "ambient_dC": tenths(zone.ambient_C),
        "workable_dC": tenths(zone.workable_C),
        "maximum_dC": tenths(zone.maximum_C),
        "contact_permille": [round(PERMILLE * one) for one in family.contact],
        "loss_permille": [round(PERMILLE * one) for one in family.loss],
        "clock_s": [round(float(t)) for t in family.times_s],
        "sensors": [sensor.id for sensor in zone.sensors],
        "members": [[_member(member) for member in row] for row in family.members],
        "lifting": [
            {"pad": one.pad, "drops": [differences(row) for row in one.drop_K.T]} for one in family.lifting
        ],
        "acts": [
            {"at_s": round(a.at_s), "pad": a.pad, "act": a.act, "permille": round(1000 * a.share)}
            for a in acts
        ],
        "first": first,
    }


def packed(document: dict[str, Any]) -> bytes:
    """The document as sent: compact JSON, gzipped, the same bytes every time."""
    text = json.dumps(document, separators=(",", ":"), ensure_ascii=False)
    return gzip.compress(text.encode(), 9, mtime=0)


def family_of_response(document: dict[str, Any]) -> Family:
    """The family as a phone has it: rounded to tenths, without the metal's own mesh."""
    contact = tuple(one / PERMILLE for one in document["contact_permille"])
    loss = tuple(one / PERMILLE for one in document["loss_permille"])
    rows = tuple(
        tuple(_read(Conditions(c, f), member) for f, member in zip(loss, row, strict=True))
        for c, row in zip(contact, document["members"], strict=True)
    )
    lifting = tuple(Lifting(one["pad"], _columns(one["drops"])) for one in document["lifting"])
    return Family(contact, loss, np.array(document["clock_s"], dtype=np.float64), rows, lifting)


def _member(member: Member) -> dict[str, Any]:
    return {
        "s": [differences(curve) for curve in member.sensors_C.T],
        "c": differences(member.coldest_C),
        "h": differences(member.hottest_C),
        "m": differences(member.metal_C),
    }


def tenths(T_C: float) -> int:
    """Whole tenths of a degree."""
    return round(T_C * TENTHS)


def differences(curve_C: Floats) -> list[int]:
    """A curve in tenths: its first value, then how much each differs from the one before."""
    whole = np.rint(curve_C * TENTHS).astype(int)
    return [int(one) for one in np.diff(whole, prepend=0)]


def _curve(differences: list[int]) -> Floats:
    return np.asarray(np.cumsum(differences) / TENTHS)


def _columns(curves: list[list[int]]) -> Floats:
    return np.array([_curve(one) for one in curves]).T if curves else np.zeros((0, 0))


def _read(under: Conditions, member: dict[str, Any]) -> Member:
    curves = [_curve(member[key]) for key in ("c", "h", "m")]
    return Member(under, _columns(member["s"]), *curves)
