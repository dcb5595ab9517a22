"""The fonts that ship, with their licences and every character claimed; shapes as on the screens."""

from __future__ import annotations

import re
from pathlib import Path

import typst

from bayleaf.report import shapes as drawn
from bayleaf.report.press import FONTS
from bayleaf.report.shown import _ranges

PARTS = Path(__file__).parents[3] / "web" / "src" / "ui" / "parts"
PAGE = b"""
#set document(title: "x")
#set text(lang: "en", font: ("Atkinson Hyperlegible Next", "DejaVu Sans Mono", "Libertinus Serif"))
#sys.inputs.all
#text(weight: 700, sys.inputs.all)
#text(style: "italic", sys.inputs.all)
#set text(font: ("Besley", "Atkinson Hyperlegible Next", "DejaVu Sans Mono", "Libertinus Serif"), weight: 600)
#sys.inputs.all
"""


def test_each_font_lies_beside_its_licence() -> None:
    families = {path.name.split("-")[0] for path in FONTS.glob("*.ttf")}
    assert families == {"AtkinsonHyperlegibleNext", "Besley"}
    for family in families:
        assert "SIL Open Font License" in (FONTS / f"{family}-OFL.txt").read_text(encoding="utf-8")


def test_every_character_that_is_said_to_have_a_shape_has_one_in_every_face_that_is_used() -> None:
    every = [chr(code) for first, last in zip(*_ranges(), strict=True) for code in range(first, last + 1)]
    assert len(every) > 5000
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(FONTS)])
    compiler = typst.Compiler(PAGE, font_paths=fonts, ignore_system_fonts=True)
    compiler.compile(format="pdf", pdf_standards=["a-2a"], timestamp=0, sys_inputs={"all": " a".join(every)})


def test_letters_of_every_european_language_and_the_signs_of_the_trade_have_shapes() -> None:
    covered = (
        set(range(0x20, 0x7F)) | set(range(0xA1, 0x180)) | {0x2192, 0x2264, 0x2265, 0x2300, 0x3A9, 0x2103}
    )
    firsts, lasts = _ranges()
    have = {code for first, last in zip(firsts, lasts, strict=True) for code in range(first, last + 1)}
    assert sorted(covered - have - {0xAD}) == []


def spelled(path: str) -> str:
    """A path as the screens' source writes it, its discs by name."""
    for r in (10, 9, 6.4, 4.6, 4, 3.2):
        path = path.replace(drawn.disc(r), f"<disc({r:g})>")
    return path.replace(drawn.TICK_CUT, "<tick>")


def test_the_shapes_of_states_and_rivets_are_those_of_the_screens() -> None:
    source = "".join(path.read_text(encoding="utf-8") for path in sorted(PARTS.glob("*mark.tsx")))
    rows = re.findall(r"^  (\w+): \{(.*?)\n?  ?\},$", source, re.MULTILINE | re.DOTALL)
    screens = {name: re.sub(r"[\s`'$+]", "", body) for name, body in rows}
    for name, shape in drawn.DRAWINGS.items():
        if name != "hold":  # the screens colour the same H by what it stands for
            for path in filter(None, (shape.fill, shape.line, shape.thick)):
                told = re.sub(r"<disc\((.*?)\)>", r"disc(\1)", spelled(path)).replace("<tick>", "TICK_CUT")
                found = re.sub(r"\{(disc\([\d.]+\)|TICK_CUT)\}", r"\1", screens[name])
                assert re.sub(r"\s", "", told) in found, name
