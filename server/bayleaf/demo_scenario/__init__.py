"""The demo's rear-frame jobs as a script: who does what, when, and the entries that come of it."""

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

__all__ = ["HALF", "HALF_NOW", "REMOVAL", "WHOLE_JOB", "Scenario"]
