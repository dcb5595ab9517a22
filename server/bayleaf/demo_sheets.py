"""The demo's suppliers' sheets, invented: entered by the office before its jobs, as a shop does."""

from __future__ import annotations

import json
from typing import Any

from bayleaf.seed_folder import SEED_FOLDER
from bayleaf.usecases.office import Office
from bayleaf.usecases.sheets import keep_sheet


def bring_in_sheets(office: Office, by: str) -> list[str]:
    """The digests of all that lie in the folder, in the order of their names."""
    return [keep_sheet(office, by, told) for told in _told()]


def _told() -> list[dict[str, Any]]:
    files = sorted((SEED_FOLDER / "sheets").glob("*.json"))
    return [json.loads(one.read_text("utf-8")) for one in files]
