"""What the demo's shop has on its shelf, invented: the instruments that its jobs name, and their lots."""

from __future__ import annotations

from typing import Final

from bayleaf.domain.wall_time import UTC_TIME
from bayleaf.usecases.office import Office
from bayleaf.usecases.stock import keep_instrument, keep_lot, used_lots

DAY_MS: Final = 86_400_000
INVENTED: Final = "invented"
# Number, kind, and days until its calibration ends: the last one is overdue, so that the page shows one.
INSTRUMENTS: Final = (
    ("measuring system 2", "body measuring system", 140),
    ("two-pole tester 5", "voltage tester", 75),
    ("logger 3", "temperature logger", 40),
    ("torque wrench 7", "torque wrench", -12),
)
EXPIRED: Final = ("primer", "PR-0866", -20)


def bring_in_stock(office: Office, now_ms: int) -> None:
    """After the filed job was played: what it used stands on the shelf, and one lot that must not be used."""
    for number, kind, days in INSTRUMENTS:
        until = UTC_TIME.day(now_ms + days * DAY_MS)
        told = {"number": number, "kind": kind, "calibrated_until": until, "note": INVENTED, "gone": False}
        keep_instrument(office, "", told)
    found = {(one.material, one.lot): UTC_TIME.day(one.expires_ms) for one in used_lots(office, "")}
    material, lot, days = EXPIRED
    for (of, name), expires in {**found, (material, lot): UTC_TIME.day(now_ms + days * DAY_MS)}.items():
        told = {"material": of, "lot": name, "expires": expires, "note": INVENTED, "gone": False}
        keep_lot(office, "", told)
