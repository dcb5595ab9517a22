"""Reads an SVG drawing: refuses what could act or reach outside, and finds the places that it marks.

A drawing is shown inside the page, so only shapes and words are taken: no scripts, no style sheets, no
references out of the file. Places are marked by four attributes: `data-place="H1"`, `data-sensor="upper:a"`
on a circle, `data-pad="upper:U1"`, `data-zone="upper"` on a rect.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from xml.parsers import expat

SHAPES = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon")
GROUPS = ("svg", "g", "defs", "symbol", "use", "marker", "clipPath", "pattern")
WORDS = ("title", "desc", "text", "tspan")
PAINT = ("linearGradient", "radialGradient", "stop")
ALLOWED = frozenset({*SHAPES, *GROUPS, *WORDS, *PAINT})
MARKED_ON = {"data-place": "circle", "data-sensor": "circle", "data-pad": "rect", "data-zone": "rect"}
GEOMETRY = {"circle": ("cx", "cy"), "rect": ("x", "y", "width", "height")}
WHOLE = re.compile(r"-?[0-9]{1,6}")
VIEW_BOX = re.compile(r"0 0 ([1-9][0-9]{0,5}) ([1-9][0-9]{0,5})")
OUTWARD = re.compile(r"url\(\s*['\"]?(?!#)|javascript:|data:|\\", re.IGNORECASE)


@dataclass(frozen=True)
class Mark:
    """A marked place: which attribute, what it says, its figures, and its line in the drawing."""

    kind: str
    says: str
    at: tuple[int, ...]
    line: int


@dataclass
class Drawing:
    """What was found in a drawing; each fault is (line, what was found, what mends it)."""

    size: tuple[int, int] | None = None
    marks: list[Mark] = field(default_factory=list)
    faults: list[tuple[int, str, str]] = field(default_factory=list)


def read_drawing(content: bytes) -> Drawing:
    """Reads one SVG file; its faults are collected, never raised."""
    drawing = Drawing()
    reader = _Reader(drawing)
    try:
        reader.parser.Parse(content, True)  # noqa: FBT003  (expat takes it by place only)
    except expat.ExpatError as error:
        drawing.faults.append(
            (error.lineno, f"text that is not XML ({expat.ErrorString(error.code)})", "save it as plain SVG")
        )
    except _Refused:
        pass
    return drawing


class _Refused(Exception):
    """Reading ends: the rest could not be trusted."""


class _Reader:
    """Hears the elements one by one."""

    def __init__(self, drawing: Drawing) -> None:
        self.drawing = drawing
        self.moved: list[bool] = []
        self.parser = expat.ParserCreate()
        self.parser.StartElementHandler = self.begin
        self.parser.EndElementHandler = self.end
        self.parser.StartDoctypeDeclHandler = self.doctype
        self.parser.ProcessingInstructionHandler = self.instruction

    def fault(self, found: str, allowed: str) -> None:
        self.drawing.faults.append((self.parser.CurrentLineNumber, found, allowed))

    def doctype(self, *_declared: object) -> None:
        self.fault("a DOCTYPE", "leave it out: entities are not taken")
        raise _Refused

    def instruction(self, target: str, _data: str) -> None:
        self.fault(f"the instruction <?{target}?>", "leave it out: style sheets are not taken")

    def begin(self, name: str, attributes: dict[str, str]) -> None:
        tag = name.removeprefix("svg:")
        if tag not in ALLOWED:
            self.fault(f"the element <{name}>", f"allowed: {', '.join(sorted(ALLOWED))}")
        if not self.moved:
            self._root(tag, attributes)
        self.moved.append("transform" in attributes or any(self.moved[-1:]))
        for attribute, value in attributes.items():
            self._attribute(tag, attribute, value)
        for kind in MARKED_ON:
            if kind in attributes:
                self._mark(kind, tag, attributes)

    def end(self, _name: str) -> None:
        self.moved.pop()

    def _root(self, tag: str, attributes: dict[str, str]) -> None:
        box = VIEW_BOX.fullmatch(attributes.get("viewBox", ""))
        if tag != "svg":
            self.fault(f"the root <{tag}>", "needed: <svg>")
        elif box is None:
            self.fault(
                f'viewBox="{attributes.get("viewBox", "")}"', 'needed: viewBox="0 0 width height", whole'
            )
        else:
            self.drawing.size = (int(box[1]), int(box[2]))

    def _attribute(self, tag: str, attribute: str, value: str) -> None:
        plain = attribute.rpartition(":")[2].lower()
        if plain.startswith("on"):
            self.fault(f"the attribute {attribute} of <{tag}>", "leave it out: a drawing does nothing")
        elif plain in ("href", "src") and not value.startswith("#"):
            self.fault(f'{attribute}="{value[:40]}"', "allowed: a part of the same drawing, such as #hatch")
        elif plain == "style":
            self.fault(f"a style of <{tag}>", 'write it as attributes, such as stroke="currentColor"')
        elif not attribute.startswith("xmlns") and OUTWARD.search(value):
            self.fault(f'{attribute}="{value[:40]}"', "allowed: nothing that leads out of the drawing")

    def _mark(self, kind: str, tag: str, attributes: dict[str, str]) -> None:
        says, wanted = attributes[kind], MARKED_ON[kind]
        if tag != wanted:
            self.fault(f'{kind}="{says}" on <{tag}>', f"needed: on a <{wanted}>")
            return
        figures = [attributes.get(name, "0") for name in GEOMETRY[wanted]]
        if any(WHOLE.fullmatch(figure) is None for figure in figures):
            self.fault(f'{kind}="{says}" at {", ".join(figures)}', "needed: whole numbers, without unit")
        elif self.moved[-1]:
            self.fault(f'{kind}="{says}" under a transform', "needed: places in the units of the viewBox")
        else:
            at = tuple(int(figure) for figure in figures)
            self.drawing.marks.append(Mark(kind, says, at, self.parser.CurrentLineNumber))
