"""Trial rivets in a piece of the same stack-up, before the first rivet of the joint.

Two of the length chosen, one of them cut open (common practice, no source; the maker's rule overrides).
Model "trial-1".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.fastening.lengths import hundredths

MODEL: Final = "trial-1"


@dataclass(frozen=True, slots=True)
class TrialRivet:
    """One trial: the gap that a feeler found under its head, and what was seen."""

    gap_under_head_mm: float
    mandrel_locked_inside: bool
    cut_open: bool
    blind_head_formed: bool | None = None


@dataclass(frozen=True, slots=True)
class TrialRule:
    """How many trials, how many of them cut open, and the gap that is still seated."""

    trials: int = 2
    cut_open: int = 1
    largest_gap_mm: float = 0.05


def trial_faults(trials: Sequence[TrialRivet], rule: TrialRule) -> list[str]:
    """What speaks against the length, as sentences; none if it may be used."""
    faults = [
        f"trial {number}: {what}" for number, one in enumerate(trials, 1) for what in _faults_of(one, rule)
    ]
    opened = sum(one.cut_open for one in trials)
    if len(trials) < rule.trials:
        faults.append(f"{len(trials)} trials made, {rule.trials} are asked for")
    if opened < rule.cut_open:
        faults.append(f"{opened} cut open, {rule.cut_open} is asked for")
    return faults


def _faults_of(one: TrialRivet, rule: TrialRule) -> list[str]:
    faults = []
    if hundredths(one.gap_under_head_mm) > hundredths(rule.largest_gap_mm):
        faults.append(f"gap under the head {one.gap_under_head_mm} mm, at most {rule.largest_gap_mm} mm")
    if not one.mandrel_locked_inside:
        faults.append("mandrel is not locked inside")
    if one.cut_open and one.blind_head_formed is not True:
        faults.append("cut open, and no well-formed blind head was seen")
    return faults
