"""The computations by the names that a method may write."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from bayleaf.step_computations.bead_volume import bead_volume
from bayleaf.step_computations.best_fit import best_fit
from bayleaf.step_computations.bit_use import bit_use
from bayleaf.step_computations.cure_progress import cure_progress
from bayleaf.step_computations.dew_point_margin import dew_point_margin
from bayleaf.step_computations.edge_distance import edge_distance
from bayleaf.step_computations.galvanic_pairs import galvanic_pairs
from bayleaf.step_computations.gap_and_step import gap_and_step
from bayleaf.step_computations.grip import grip
from bayleaf.step_computations.heat_plan import heat_plan
from bayleaf.step_computations.heat_verdict import heat_verdict
from bayleaf.step_computations.hole_decision import hole_decision
from bayleaf.step_computations.laminate_drying import laminate_drying
from bayleaf.step_computations.open_time import open_time
from bayleaf.step_computations.pick_list import pick_list
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Unanswerable
from bayleaf.step_computations.tally_reconciliation import tally_reconciliation
from bayleaf.step_computations.thermal_mismatch import thermal_mismatch

BOOK: Final[Mapping[str, Callable[[Question], Answer]]] = {
    "bead_volume": bead_volume,
    "best_fit": best_fit,
    "bit_use": bit_use,
    "cure_progress": cure_progress,
    "dew_point_margin": dew_point_margin,
    "edge_distance": edge_distance,
    "galvanic_pairs": galvanic_pairs,
    "gap_and_step": gap_and_step,
    "grip": grip,
    "heat_plan": heat_plan,
    "heat_verdict": heat_verdict,
    "hole_decision": hole_decision,
    "laminate_drying": laminate_drying,
    "open_time": open_time,
    "pick_list": pick_list,
    "tally_reconciliation": tally_reconciliation,
    "thermal_mismatch": thermal_mismatch,
}


def answer(question: Question) -> Answer:
    """The answer to a question. Raises Unanswerable, also for a computation that is not worked out here."""
    computed = BOOK.get(question.computation)
    if computed is None:
        raise Unanswerable("computation", "not_here")
    return computed(question)
