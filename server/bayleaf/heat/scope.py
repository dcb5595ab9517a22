"""Which zones the model of thin plates cannot answer for, and why; such a zone is refused."""

from __future__ import annotations

from collections.abc import Iterator

from bayleaf.heat.faults import Fault
from bayleaf.heat.mesh import mesh_of
from bayleaf.heat.zone import Zone

THICK_SHARE = 1 / 3
THICK_REASON = "the model of thin plates holds up to a third of it, beyond that heat spreads inside the layer"
MOST_CELLS = 400_000


def scope_faults(zone: Zone) -> list[Fault]:
    """Reasons to refuse a zone, empty if the model holds for it."""
    return [fault for check in (_thick, _size) for fault in check(zone)]


def _thick(zone: Zone) -> Iterator[Fault]:
    """Thin-plate check: a layer must be thin against the shortest pad edge, or heat spreads inside it,
    unmodelled.

    A stack that is even in the plane (one cell) is plain conduction through its thickness and always in
    scope.
    """
    edges_m = [min(pad.box.x1 - pad.box.x0, pad.box.y1 - pad.box.y0) for pad in zone.pads]
    partial = [edge for edge in edges_m if edge < min(zone.size_m)]
    named = [(f"layers[{number}]", layer) for number, layer in enumerate(zone.layers)]
    walls = [("profile.wall", zone.profile.wall)] if zone.profile else []
    for at, layer in (*named, *walls):
        if partial and layer.thickness_m > THICK_SHARE * min(partial):
            found = f"found {layer.thickness_m * 1e3:g}, a pad edge is only {min(partial) * 1e3:g} mm long"
            yield Fault(f"{at}.thickness_mm", f"{found}: {THICK_REASON}")


def _size(zone: Zone) -> Iterator[Fault]:
    cells = mesh_of(zone).shape
    total = cells[0] * cells[1] * sum(layer.sublayers or 3 for layer in zone.layers)
    if total > MOST_CELLS:
        yield Fault("mesh.cells_mm", f"asks for about {total} unknowns, allowed up to {MOST_CELLS}")
