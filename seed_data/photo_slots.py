"""Which kind of picture each photo slot of methods/rear_frame.yaml gets, and with what."""

from __future__ import annotations

from typing import Any, Final

from seed_data.photo_kinds import KINDS
from seed_data.photo_pen import METAL, RESIN

CLEAN: Final = (190, 194, 192)
SHEET: Final = ("D1 0.4 -0.2 0.1", "D2 0.3 0.2 0.0", "D3 -0.6 0.4 0.3", "D4 0.2 0.1 -0.1", "D5 0.9 -0.5 0.4")
LABEL: Final = ("INVENTED PART", "frame half", "LEFT", "no. DEMO-0042", "serial 000017")
LOGGER: Final = ("a  128 C", "b  131 C", "c  126 C", "m  171 C", "n  44 C")

SLOTS: Final[dict[str, tuple[str, dict[str, Any]]]] = {
    "rem-01-vin": ("plate", {"text": "NUMBER LEFT OUT"}),
    "rem-02-front_left": ("vehicle", {}),
    "rem-02-rear_right": ("vehicle", {"rear": True}),
    "rem-02-damage_wide": ("vehicle", {"rear": True, "left_card": True}),
    "rem-02-damage_close": ("crack", {}),
    "rem-04-sheet": ("paper", {"lines": SHEET}),
    "rem-06-bay": ("bay", {}),
    "rem-07-lock": ("lock", {}),
    "rem-08-terminal": ("terminal", {}),
    "rem-09-stand_left_rear": ("stand", {}),
    "rem-09-brace": ("stand", {"brace": True}),
    "rem-10-bare_inside": ("flange", {"region": "corner", "marks": ("trim_off",)}),
    "rem-11-loom": ("loom", {}),
    "rem-12-upper_clear": ("flange", {"region": "corner"}),
    "rem-12-post_clear": ("flange", {"region": "post"}),
    "rem-13-covered": ("vehicle", {"rear": True, "covered": True}),
    "rem-15-map_upper": ("flange", {"region": "corner", "face": RESIN, "marks": ("heads", "numbers")}),
    "rem-15-map_post_foot": ("flange", {"region": "post", "face": RESIN, "marks": ("heads", "numbers")}),
    "rem-16-stop_post": ("cavity", {"stop": True}),
    "rem-17-h4": ("one_hole", {"name": "H4"}),
    "rem-20-foot_holes": ("flange", {"region": "foot", "face": RESIN, "marks": ("holes", "numbers")}),
    "rem-21-tray": ("tray", {}),
    "rem-23-pads": ("pads", {}),
    "rem-24-sensors": ("pads", {"letters": "abcmn"}),
    "rem-27-display": ("display", {"lines": LOGGER}),
    "rem-28-open_joint": ("open_joint", {}),
    "rem-30-setup": ("pads", {"names": ("L1", "L2"), "letters": "abcmn", "upright": True}),
    "rem-32-display": ("display", {"lines": ("a  129 C", "b  127 C", "c  125 C", "m  168 C", "n  51 C")}),
    "rem-34-part_off": ("part_off", {}),
    "rem-34-flange_raw": ("flange", {"marks": ("glue", "holes")}),
    "rem-36-header": ("flange", {"region": "header", "marks": ("glue", "holes", "low_light")}),
    "rem-36-post": ("flange", {"region": "post", "marks": ("glue", "holes", "low_light")}),
    "rem-37-cavity": ("cavity", {"stop": False}),
    "rem-38-clean": ("flange", {"face": CLEAN, "marks": ("holes", "low_light")}),
    "fit-02-label": ("paper", {"lines": LABEL}),
    "fit-02-bond_face": ("flange", {"face": RESIN, "marks": ("low_light",)}),
    "fit-05-dry": ("flange", {"face": RESIN, "marks": ("holes", "clamps")}),
    "fit-06-corner": ("corner_gap", {}),
    "fit-08-back_face": ("flange", {"region": "post", "face": RESIN, "marks": ("holes", "numbers")}),
    "fit-10-section": ("section", {}),
    "fit-13-flange": ("flange", {"face": CLEAN, "marks": ("abraded", "holes", "low_light")}),
    "fit-14-part_face": ("flange", {"face": RESIN, "marks": ("abraded", "holes", "low_light")}),
    "fit-18-purge": ("purge", {}),
    "fit-19-bead": ("flange", {"region": "corner", "face": CLEAN, "marks": ("bead", "holes")}),
    "fit-20-joined": ("flange", {"face": RESIN, "marks": ("holes", "pins")}),
    "fit-25-heads": ("flange", {"region": "header", "face": RESIN, "marks": ("heads", "numbers")}),
    "fit-26-outer_edge": ("flange", {"region": "header", "face": RESIN, "marks": ("heads", "squeeze")}),
    "fit-26-inner_edge": ("flange", {"region": "post", "face": METAL, "marks": ("heads", "squeeze")}),
    "fit-29-tap_marks": ("flange", {"region": "corner", "face": RESIN, "marks": ("heads", "taps")}),
    "fit-30-finished": ("flange", {"face": RESIN, "marks": ("heads",)}),
    "fit-31-sealed": ("flange", {"region": "foot", "face": RESIN, "marks": ("heads", "sealed")}),
    "fit-34-loom": ("loom", {"fixed": True}),
    "fit-36-reports": ("paper", {"lines": ["ALIGNMENT", "in limits", "", "REAR SENSORS", "in limits"]}),
    "fit-38-leaving": ("vehicle", {"rear": True, "left_card": False}),
}  # fmt: skip


def draw_slot(pen: Any, slot: str) -> None:
    """Draws the picture of one slot."""
    kind, given = SLOTS[slot]
    KINDS[kind](pen, **given)
