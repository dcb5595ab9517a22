"""Drawings: what may not be in one, and the places that a method's map takes from it."""

from __future__ import annotations

from pathlib import Path

import pytest

from bayleaf.method_files import MethodFileFault, check_methods, compile_methods

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
SPINE = (SEED / "spine.yaml").read_text("utf-8")
LINE = next(number for number, text in enumerate(SPINE.splitlines(), 1) if "bracket.svg" in text)

# what is drawn, the line in the drawing, words of the fault
UNSAFE = [
    ("<script>alert(1)</script>", 2, "the element <script>; allowed: circle, clipPath"),
    ("<foreignObject/>", 2, "the element <foreignObject>"),
    ("<image href='#a'/>", 2, "the element <image>"),
    ("<style>path {fill: red}</style>", 2, "the element <style>"),
    ("<a href='#x'/>", 2, "the element <a>"),
    ("<animate/>", 2, "the element <animate>"),
    ("<h:script xmlns:h='http://www.w3.org/2000/svg'/>", 2, "the element <h:script>"),
    ("<g onclick='go()'/>", 2, "the attribute onclick of <g>; leave it out: a drawing does nothing"),
    ("<g x:OnLoad='go()' xmlns:x='urn:x'/>", 2, "the attribute x:OnLoad"),
    ("<use href='https://there.example/a.svg#b'/>", 2, "allowed: a part of the same drawing, such as #hatch"),
    ("<use xlink:href='other.svg' xmlns:xlink='http://www.w3.org/1999/xlink'/>", 2, "xlink:href"),
    ("<rect fill='url(https://there.example/p)'/>", 2, "allowed: nothing that leads out of the drawing"),
    ("<rect style='fill: red'/>", 2, "a style of <rect>; write it as attributes"),
    (
        "\n<circle data-place='H9' cx='1' cy='2' r='3'/>",
        3,
        "which is no position of this file; known: H1, H2",
    ),
    ("<circle data-place='H1' cx='1.5' cy='2' r='3'/>", 2, "at 1.5, 2; needed: whole numbers"),
    ("<rect data-place='H1'/>", 2, "on <rect>; needed: on a <circle>"),
    ("<rect data-pad='U1'/>", 2, "no pad (zone:pad) of this file; known: upper:U1, upper:U2"),
    ("<circle data-sensor='upper:z'/>", 2, "known: upper:a, upper:b, upper:m"),
    ("<rect data-zone='lower'/>", 2, "no heat zone of this file; known: upper"),
    ("<g transform='scale(2)'><g><circle data-place='H1'/></g></g>", 2, "under a transform"),
    ("<circle data-place='H1'/>\n<circle data-place='H1'/>", 3, 'data-place="H1" a second time'),
    ("<g>", 3, "text that is not XML"),
]


def drawn(inner: str, box: str = "0 0 100 80") -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}">\n{inner}\n</svg>'.encode()


def faults_of(drawing: bytes) -> list[str]:
    with pytest.raises(MethodFileFault) as told:
        compile_methods(SPINE, {"bracket.svg": drawing})
    return [str(fault) for fault in told.value.faults]


@pytest.mark.parametrize(("inner", "line", "words"), UNSAFE)
def test_what_could_act_or_mislead_is_refused_with_its_line(inner: str, line: int, words: str) -> None:
    begins = f"line {LINE}: scenario.drawings[0].file: found in bracket.svg, line {line}: "
    faults = faults_of(drawn(inner))
    assert [fault for fault in faults if fault.startswith(begins) and words in fault], faults


def test_entities_are_not_read() -> None:
    bomb = b'<!DOCTYPE svg [<!ENTITY a "aaaa">]>\n<svg viewBox="0 0 1 1">&a;</svg>'
    assert any("a DOCTYPE; leave it out" in fault for fault in faults_of(bomb))


def test_a_drawing_needs_a_whole_view_box() -> None:
    assert any("needed: viewBox" in fault for fault in faults_of(drawn("", "0 0 10.5 8")))


def test_a_map_holds_what_the_drawing_marks_in_its_own_units() -> None:
    inner = (
        "<circle data-place='P1' cx='70' cy='60' r='3'/><circle data-sensor='upper:m' cx='5' cy='6' r='1'/>"
        "<rect data-pad='upper:U2' x='1' y='2' width='30' height='4'/>"
        "<rect data-zone='upper' x='0' y='0' width='90' height='20'/>"
    )
    checked = check_methods(SPINE, {"bracket.svg": drawn(inner)})
    assert checked.methods[0].document["maps"] == [
        {
            "drawing": "part",
            "size": [100, 80],
            "places": [{"id": "P1", "x": 70, "y": 60}],
            "pads": [{"zone": "upper", "id": "U2", "x": 1, "y": 2, "w": 30, "h": 4}],
            "sensors": [{"zone": "upper", "id": "m", "x": 5, "y": 6}],
            "zones": [{"id": "upper", "x": 0, "y": 0, "w": 90, "h": 20}],
        }
    ]
    assert "the drawing has no place for H1, H2, H3, H4, P2" in [remark.said for remark in checked.remarks]


def test_a_drawing_that_marks_nothing_makes_no_map() -> None:
    methods = compile_methods(SPINE, {"bracket.svg": drawn("<path d='M0 0 H9'/>")})
    assert "maps" not in methods[0].document
