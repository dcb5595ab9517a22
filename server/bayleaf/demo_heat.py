"""The demo's heat zones with their plans, which `seed_data/make_plans.py` worked out beforehand."""

from __future__ import annotations

import json
from base64 import b64decode
from typing import Final

from bayleaf.heat.model import MODEL_ID
from bayleaf.heat_ports import Planned
from bayleaf.seed_folder import SEED_FOLDER
from bayleaf.usecases.heat_plans import Place, ask_plan, pin_plan
from bayleaf.usecases.heat_zones import add_zone
from bayleaf.usecases.office import Office

ZONES: Final = ("upper", "post")
METHOD: Final = "removal"


def bring_in_zones(office: Office, by: str) -> dict[str, str]:
    """Digest by zone id of those that are planned; a plan out of date is made anew after the start."""
    digests = {zone: add_zone(office, _document(zone), by).digest for zone in ZONES}
    return {zone: digest for zone, digest in digests.items() if _planned(office, zone, digest)}


def pin_plans(office: Office, job: str, by: str, digests: dict[str, str]) -> None:
    """Each plan to the heat zone of the removal that has its id."""
    for zone, digest in digests.items():
        pin_plan(office, Place(job, METHOD, zone), digest, by)


def _document(zone: str) -> str:
    return (SEED_FOLDER / "zones" / f"{zone}.yaml").read_text("utf-8")


def _planned(office: Office, zone: str, digest: str) -> bool:
    """Only a plan of this very document by this very model is taken."""
    ask_plan(office, digest)
    told = json.loads((SEED_FOLDER / "plans" / f"{zone}.json").read_text("utf-8"))
    if (told["digest"], told["model"]) != (digest, MODEL_ID):
        return False
    made = Planned(
        sentence=told["sentence"],
        figures=told["figures"],
        answer=told["answer"],
        response=b64decode(told["response"]),
        field=b64decode(told["field"]),
    )
    office.heat.take(MODEL_ID)
    office.heat.finish(digest, MODEL_ID, made, office.clock.now_ms())
    return True
