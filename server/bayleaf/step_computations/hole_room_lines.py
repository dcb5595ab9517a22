"""What is said of the room round a hole that goes up a size, or does not for want of room."""

from __future__ import annotations

from bayleaf.fastening import holes
from bayleaf.fastening.lengths import times_mm
from bayleaf.step_computations.figures import figure
from bayleaf.step_computations.hole_asked import WHY, AskedHole
from bayleaf.step_computations.hole_layers import FLANGE
from bayleaf.step_computations.shapes import Line, Value


def room_lines(position: str, asked: AskedHole, decision: holes.HoleDecision) -> list[Line]:
    """The layer that is short, the neighbours that were checked, an edge to be read before drilling."""
    why = WHY.get(decision.reason, "")
    size = asked.hole.nominal_mm if why.startswith("own_") else asked.larger_mm
    if size is None:
        return []
    lines = _edge_line(position, asked, size) if why.endswith("edge_short") else []
    if why == "worn" or why.endswith("pitch_short"):
        lines += _neighbours_line(position, asked, size, is_short=why != "worn")
    if why == "worn" and not any(layer.is_read for layer in asked.room.layers if layer.name == FLANGE):
        lines.append(Line("measure_room", "stop", (position,)))
    return lines


def _edge_line(position: str, asked: AskedHole, size_mm: float) -> list[Line]:
    worst = asked.room.worst(size_mm)
    if worst.edge is None:
        return []
    found = Value("edge", worst.edge.value, "mm", worst.edge.decimals)
    least = figure("minimum", times_mm(worst.edge_diameters, size_mm), "mm", 2)
    return [Line("layer_short", "note", (position, worst.name), (found, least))]


def _neighbours_line(position: str, asked: AskedHole, size_mm: float, *, is_short: bool) -> list[Line]:
    pitch = asked.room.pitch
    if pitch.found is None or not pitch.neighbours:
        return []
    found = Value("pitch", pitch.found.value, "mm", pitch.found.decimals)
    least = figure("minimum", times_mm(asked.room.pitch_diameters, size_mm), "mm", 2)
    code = "neighbours_short" if is_short else "neighbours_checked"
    return [Line(code, "note", (position, *pitch.neighbours), (found, least))]
