"""Energy, peak power and current of a heat run against the supply."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bayleaf.heat.run import Run
from bayleaf.heat.zone import Zone

J_KWH = 3.6e6


@dataclass(frozen=True)
class Electric:
    """What the pads draw; the current is that of purely resistive pads, all on one circuit."""

    energy_kWh: float
    peak_W: float
    connected_W: float  # all pads at full power at once, which is what a breaker sees at switch-on
    current_A: float | None
    circuit_A: float | None

    @property
    def fits(self) -> bool:
        return self.current_A is None or self.circuit_A is None or self.current_A <= self.circuit_A


def electric_of(zone: Zone, run: Run) -> Electric:
    """P = U I for resistive loads: any text of electrical engineering."""
    area_m2 = np.array([pad.box.area_m2 for pad in zone.pads])
    power_W = run.power_W_m2 @ area_m2 if len(area_m2) else np.zeros(len(run.times_s))
    connected_W = sum(pad.power_W_m2 * pad.power_share * pad.box.area_m2 for pad in zone.pads)
    supply = zone.supply
    return Electric(
        float(run.supplied_J.sum()) / J_KWH,
        float(power_W.max()),
        float(connected_W),
        connected_W / supply.voltage_V if supply else None,
        supply.circuit_A if supply else None,
    )
