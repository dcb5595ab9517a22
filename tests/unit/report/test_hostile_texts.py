"""Texts of the job reach the page as text: nothing in them is code, and nothing in them stops the report."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from bayleaf.report.contents import contents_of
from bayleaf.report.shown import Shown, has_shape
from bayleaf.report.typesetting import TypstTypesetter
from bayleaf.report_ports import Pictures, nowhere
from unit.report.jobs import book_in
from unit.report.made_up import Log
from unit.report.setting import text_of

CODE = [
    "#panic()",
    '#import "x"',
    "$ a/0 $",
    "*bold* _it_ `raw` <label> @ref",
    "[#panic()]",
    "\\ // /* = - + ~ ---",
    "\"quoted\" 'it'",
    "#{sys.inputs}",
    "= Head",
    "{{7*7}}",
    "<script>",
]
PLACES = ("order", "vin", "vehicle", "part")


def noted(text: str, name: str = "Mara Ilves") -> tuple[str, dict[str, Any]]:
    """A job with the text in every field that anybody writes, and somebody of that name; its words, set."""
    log = Log()
    log.open(**dict.fromkeys(PLACES, text[:200]))
    book_in(log)
    log.write("mara", "3 09:30", "note", {"text": text, **log.step("one"), "about": []})
    log.write(
        "mara", "3 09:31", "deviation", {**log.step("one"), "text": text, "about": [], "passes_hold": False}
    )
    body = {**log.step("one"), "ask": "logger", "point": "", "value": text, "over": []}
    log.write("mara", "3 09:32", "text", body)
    lot = {
        **log.step("three"),
        "ask": "cleaner",
        "material": "cleaner",
        "lot": text[:200],
        "expires_ms": 2**53 - 1,
    }
    log.write("mara", "3 09:33", "lot", lot)
    source = log.source(filed="9 10:00", reason=text)
    source = replace(
        source, people=dict.fromkeys(source.people, name), devices=dict.fromkeys(source.devices, text)
    )
    contents = contents_of(replace(source, drawings=frozenset(), photos={}))
    pdf = TypstTypesetter().typeset(contents, Pictures(nowhere, lambda _: b"", {})).pdf
    return text_of(pdf), contents["report"]


def test_code_stands_as_it_was_written() -> None:
    text, _ = noted("  ".join(CODE), "#panic() $x$")
    for words in CODE:
        assert words in text
    assert "#panic() $x$" in text


def test_four_thousand_letters_without_a_blank_are_all_there() -> None:
    text, _ = noted("W" * 4000)
    assert text.replace(" ", "").count("W") >= 4 * 4000


def test_four_thousand_letters_of_words_and_lines_are_all_there() -> None:
    written = "\n".join(f"line {number} of many" for number in range(200))[:4000]
    text, _ = noted(written)
    assert text.count("line 150 of many") >= 3


def test_right_to_left_texts_are_set() -> None:
    text, report = noted("\u05d4\u05d7\u05dc\u05e7 \u05e0\u05d1\u05d3\u05e7 and \u0641\u062d\u0635")
    assert report["replaced"] == 0
    assert "\u05d4" in text


def test_greek_and_cyrillic_names_are_set() -> None:
    text, report = noted(
        "\u0394\u03bf\u03ba\u03b9\u03bc\u03ae", "\u0418\u0440\u0438\u043d\u0430 \u017b\u00f3\u0142\u0107"
    )
    assert report["replaced"] == 0
    assert "\u0418\u0440\u0438\u043d\u0430" in text


def test_what_the_fonts_lack_stands_as_its_code_and_the_first_page_says_so() -> None:
    text, report = noted("\u4f60\u597d \U0001f600 ok", "\u738b")
    assert "[U+4F60][U+597D] [U+1F600] ok" in text
    assert "[U+738B]" in text
    assert report["replaced"] > 0
    assert f"{report['replaced']} characters in this job\u2019s texts have no shape" in text


@pytest.mark.parametrize(
    "hidden",
    [
        "\u202eabc",
        "a\u200bb",
        "\ue000",
        "\x07",
        "\x1b[31m",
        "\u2066x",
        "\ufeff",
        "\U000e0041",
        "a\u0300\u0300\u0300",
        "\u034f",
    ],
)
def test_characters_that_would_hide_or_turn_others_stand_as_their_codes_or_are_harmless(hidden: str) -> None:
    shown = Shown()
    found = shown.text(hidden)
    assert all(letter == "\n" or has_shape(letter) for letter in found)
    noted(hidden * 3)


def test_line_ends_of_every_kind_are_one_line_end_and_tabs_are_blanks() -> None:
    assert Shown().text("a\r\nb\rc\u2028d\te") == "a\nb\nc\nd e"


def test_long_runs_may_break_and_lose_nothing() -> None:
    found = Shown().text("x" * 100)
    assert found.replace("\u200b", "") == "x" * 100
    assert max(len(piece) for piece in found.split("\u200b")) == 20


def test_a_day_that_no_calendar_has_is_told_in_ms() -> None:
    text, _ = noted("plain")
    assert "9007199254740991 ms" in text
