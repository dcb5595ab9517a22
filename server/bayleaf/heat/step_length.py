"""How long a time step may be: from the error it made, and so that factorisations are met again."""

from __future__ import annotations

import math
from dataclasses import dataclass

SHORTEST_S = 0.25 / 64
ROUNDING = 1e-9


@dataclass(frozen=True)
class Accuracy:
    """Local error that a step may make, and the longest step."""

    step_error_K: float = 0.1
    longest_s: float = 256.0


USUAL = Accuracy()
ROUGH = Accuracy(0.3, 128.0)


def growth(error_K: float, accuracy: Accuracy) -> int:
    """Third-order local error: twice the step is eight times the error, four times is 64."""
    if 80 * error_K < accuracy.step_error_K:
        return 4
    return 2 if 10 * error_K < accuracy.step_error_K else 1


def fitting_s(step_s: float, left_s: float) -> float:
    """All that is left, if a step may be so long; else a power of two of a second, so that factorisations are
    met again.
    """
    if left_s <= step_s * (1 + ROUNDING):
        return left_s
    return float(2.0 ** math.floor(math.log2(step_s) + ROUNDING))
