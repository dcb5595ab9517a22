"""The page that teaches the language: after each of its pieces the file that it builds is whole."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bayleaf.method_files import Checked, check_methods

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
PAGE = (SEED / "writing_a_method.md").read_text("utf-8")
DRAWINGS = {"bracket.svg": (SEED / "bracket.svg").read_bytes()}
PIECES = re.findall(r"^```yaml (\w+)\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)


def after(count: int) -> Checked:
    """The file after so many pieces."""
    parts = {"scenario": "", "conditions": "", "methods": ""}
    for where, piece in PIECES[:count]:
        if where == "whole":
            begin, colon, rest = piece.partition("methods:\n")
            parts = {"scenario": begin, "conditions": "", "methods": colon + rest}
        else:
            parts[where] += piece
    return check_methods("".join(parts.values()), DRAWINGS)


@pytest.mark.parametrize("count", range(1, len(PIECES) + 1))
def test_the_file_is_whole_after_each_piece(count: int) -> None:
    assert after(count).methods[0].document["title"] == "Take the bracket half off"


def test_the_page_ends_with_two_methods_that_use_most_of_the_language() -> None:
    off, on = (one.document for one in after(len(PIECES)).methods)
    steps = [step for one in (off, on) for stage in one["stages"] for step in stage["steps"]]
    assert len(steps) == 10
    assert len({ask["kind"] for step in steps for ask in step["asks"]}) == 10
    assert steps[-1]["needs"] == ["off/off-09"]
    assert off["maps"][0]["drawing"] == "part"


def test_the_remark_that_the_page_shows_is_what_the_check_says() -> None:
    told = [remark.said for remark in after(len(PIECES)).remarks]
    assert told
    assert any(f"    {said}\n" in PAGE for said in told)


def test_every_piece_of_yaml_is_one_of_those_that_are_tested() -> None:
    assert PAGE.count("```yaml") == len(PIECES) == 11
