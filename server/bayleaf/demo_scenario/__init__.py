"""The demo's rear-frame jobs as a script: who does what, when, and the entries that come of it."""

from dataclasses import replace
from typing import Final

from bayleaf.demo_scenario.deeds import Scenario
from bayleaf.demo_scenario.fitting import FITTING
from bayleaf.demo_scenario.heat_runs import RUNS
from bayleaf.demo_scenario.removal_before_heat import BEFORE_HEAT
from bayleaf.demo_scenario.removal_heat import HALF_DONE, HEAT_AND_AFTER

REMOVAL: Final = Scenario((*BEFORE_HEAT, *HEAT_AND_AFTER), RUNS)
WHOLE_JOB: Final = Scenario((*REMOVAL.steps, *FITTING), RUNS)
HALF: Final = Scenario((*BEFORE_HEAT, *HALF_DONE), RUNS)
HALF_NOW: Final = "3 10:16"
"""When the half-done job is looked at: fourteen minutes into its first heat run."""


def for_vehicle(scenario: Scenario, vin: str) -> Scenario:
    """The same scenario for the vehicle with this VIN, as it is read from the body."""
    steps = (
        replace(step, says={**step.says, "vin_read": vin}) if "vin_read" in step.says else step
        for step in scenario.steps
    )
    return replace(scenario, steps=tuple(steps))


__all__ = ["HALF", "HALF_NOW", "REMOVAL", "WHOLE_JOB", "Scenario", "for_vehicle"]
