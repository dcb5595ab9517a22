"""Who does it: invented people at invented devices, by short names. The shop's own list is `demo_plan`."""

from __future__ import annotations

from typing import Final

from bayleaf.demo_scenario.deeds import Hand

MARAS_PHONE, OSKARS_PHONE, PIMS_PHONE, DESK = "maras", "oskars", "pims", "desk"
PHONES: Final = {MARAS_PHONE: "mara", OSKARS_PHONE: "oskar", PIMS_PHONE: "pim"}

MARA: Final = Hand("mara", MARAS_PHONE)
OSKAR: Final = Hand("oskar", OSKARS_PHONE)
PIM: Final = Hand("pim", PIMS_PHONE)
ADA: Final = Hand("ada", DESK)
OSKAR_BY_PIN: Final = Hand("oskar", MARAS_PHONE, "pin")
MARA_BY_PIN: Final = Hand("mara", OSKARS_PHONE, "pin")
PAINTER_BY_PIN: Final = Hand("wim", MARAS_PHONE, "pin")

HOLDS: Final = {
    "mara": ("high_voltage", "measuring", "technician"),
    "oskar": ("high_voltage", "restraints", "technician"),
    "pim": ("photographer",),
    "wim": ("paint", "technician"),
    "ada": ("office",),
}
