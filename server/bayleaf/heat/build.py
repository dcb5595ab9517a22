"""What is gathered of a zone's equations before they are put together: links, ties and bare faces."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.layout import ABSENT, Plate
from bayleaf.heat.zone import FaceLoss

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass
class Build:
    """What is gathered while the zone is walked: links between nodes, ties to fixed temperatures, faces."""

    count: int
    links: list[tuple[Ints, Ints, Floats]] = field(default_factory=list)
    tied: list[tuple[Ints, Floats, float]] = field(default_factory=list)
    bare: list[tuple[Ints, Floats, float, FaceLoss, bool]] = field(default_factory=list)

    def link(self, first: Ints, second: Ints, W_K: Floats) -> None:
        both = (first != ABSENT) & (second != ABSENT)
        self.links.append((first[both], second[both], W_K[both]))

    def tie(self, node: Ints, W_K: Floats, to_C: float) -> None:
        there = node != ABSENT
        self.tied.append((node[there], W_K[there], to_C))

    def expose(
        self, plate: Plate, where: NDArray[np.bool_], area_m2: Floats, law: FaceLoss, *, heated_side: bool
    ) -> None:
        there = where & (plate.node != ABSENT)
        if there.any():
            self.bare.append((plate.node[there], area_m2[there], plate.half_m2K_W, law, heated_side))
