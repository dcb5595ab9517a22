"""Makes tests/vectors/live/upper_run.json: what a hand would read in a run of the demo's upper zone.

A finer model than the plan's, with other contact, loss and material than any member of its family; one pad
lifts on the way. Written out, so that a browser's test need not simulate: `python -m unit.heat.upper_run`.
"""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import numpy as np

from bayleaf.heat.zone_document import read_zone
from bayleaf.seed_folder import SEED_FOLDER
from unit.heat.live import VECTORS, Truth, readings_of, true_workable_s

TRUTH = Truth(contact=0.9, loss=1.08, material=0.985)
LIFTS = replace(TRUTH, pad="U2", from_s=750.0)
READ_S = (180.0, 360.0, 540.0, 720.0, 900.0, 1080.0)
SEED = 7


def upper_run() -> dict[str, Any]:
    """Rounds of every sensor in whole degrees, and when the bond would be workable had no pad lifted."""
    zone = read_zone((SEED_FOLDER / "zones" / "upper.yaml").read_text("utf-8"))
    read = readings_of(zone, LIFTS, READ_S[-1], np.random.default_rng(SEED))
    rounds = [{one.sensor: round(one.T_C) for one in read if one.at_s == at_s} for at_s in READ_S]
    return {
        "about": "the upper zone of the demo, a little worse pressed on than planned; U2 lifts at 12.5 min",
        "workable_s": round(true_workable_s(zone, TRUTH)),
        "lifts": {"pad": LIFTS.pad, "from_s": LIFTS.from_s},
        "rounds": [{"at_s": at_s, "C": values} for at_s, values in zip(READ_S, rounds, strict=True)],
    }


if __name__ == "__main__":
    text = json.dumps(upper_run(), indent=1) + "\n"
    (VECTORS / "upper_run.json").write_text(text, "utf-8")
