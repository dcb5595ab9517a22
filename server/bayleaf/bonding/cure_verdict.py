"""When a cure may be called done: the slowest of what was computed, what the sheet says and the sample blob.

Never shorter than the data sheet says at that temperature. Materials that cure by moisture follow no
equivalent time and are refused. Model "cure-verdict-1".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.rate_laws import RateLaw
from bayleaf.bonding.refusal import Refused
from bayleaf.bonding.units import scaled

MODEL: Final = "cure-verdict-1"
BY_REACTION: Final = "reaction"


@dataclass(frozen=True, slots=True)
class AgainstSheet:
    """Minutes by the law and by the sheet's row, and the longer of both, which is shown."""

    by_law_min: float
    sheet_min: float
    sheet_row_C: float
    shown_min: float

    @property
    def limited_by_sheet(self) -> bool:
        return self.sheet_min > self.by_law_min


@dataclass(frozen=True, slots=True)
class CureStand:
    """What has been reached and what is asked for; minutes. The blob is None where nobody has tried it."""

    computed_min: float
    computed_needed_min: float
    elapsed_min: float
    sheet_min: float
    blob_hard: bool | None


@dataclass(frozen=True, slots=True)
class CureVerdict:
    """Done only when all three agree; `waits_for` names those that do not yet."""

    done: bool
    waits_for: tuple[str, ...]


def refuse_moisture(cures_by: str) -> None:
    """Refuses what does not follow an equivalent time."""
    if cures_by != BY_REACTION:
        allowed = (
            "reaction, a two-part or heat-cured adhesive: a sealant that cures by moisture hardens from its "
            "edges inward, its depth grows with the square root of time, and temperature alone tells nothing"
        )
        raise Refused("cures_by", cures_by, allowed)


def against_sheet(
    law: RateLaw, sheet_min_by_C: Mapping[float, float], reference_C: float, at_C: float
) -> AgainstSheet:
    """Time to a stage at a temperature: the sheet's time at the reference by the law, held to the sheet.

    The sheet's row at or under the temperature holds: the colder, longer one. Refused: no row at the
    reference, or a temperature under the coldest row, where the sheet says nothing.
    """
    if reference_C not in sheet_min_by_C:
        rows = ", ".join(f"{row:g}" for row in sorted(sheet_min_by_C))
        raise Refused("reference_temperature_C", f"{reference_C} C", f"a row of the sheet: {rows} C")
    rows_under = [row for row in sheet_min_by_C if row <= at_C]
    if not rows_under:
        allowed = f"{min(sheet_min_by_C):g} C or more, the coldest row of the sheet"
        raise Refused("temperature_C", f"{at_C} C", allowed)
    by_law = sheet_min_by_C[reference_C] / law.rate(at_C)
    sheet = sheet_min_by_C[max(rows_under)]
    return AgainstSheet(by_law, sheet, max(rows_under), max(by_law, sheet))


def cure_verdict(stand: CureStand) -> CureVerdict:
    """The slowest decides; an untried blob waits."""
    waits = [
        *(["computed cure"] if scaled(stand.computed_min) < scaled(stand.computed_needed_min) else []),
        *(["data sheet"] if scaled(stand.elapsed_min) < scaled(stand.sheet_min) else []),
        *([] if stand.blob_hard else ["sample blob"]),
    ]
    return CureVerdict(done=not waits, waits_for=tuple(waits))
