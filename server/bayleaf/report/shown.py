"""Makes every text of the report one that its fonts can show, and says how much had to be replaced.

A character without a shape in the fonts (or one that would reorder or hide what stands beside it) is shown as
its code, [U+4F60]; the entries hold it as it was written. Long runs without a blank may break anywhere.
"""

from __future__ import annotations

import json
import re
from bisect import bisect_right
from functools import cache
from pathlib import Path
from typing import Any, Final

COVERAGE: Final = Path(__file__).parent / "fonts" / "coverage.json"
BREAK: Final = "\u200b"
LONG_RUN: Final = re.compile(r"[^\s\u200b]{41,}")
PIECE: Final = 20
LINE_ENDS: Final = re.compile("\r\n|[\r\u0085\u2028\u2029]")
PLAIN: Final = re.compile(r"[ -~\n]*")


@cache
def _ranges() -> tuple[list[int], list[int]]:
    found = json.loads(COVERAGE.read_text(encoding="ascii"))
    return [first for first, _ in found], [last for _, last in found]


def has_shape(letter: str) -> bool:
    """Whether the fonts of the report have a shape for it."""
    firsts, lasts = _ranges()
    at = bisect_right(firsts, ord(letter)) - 1
    return at >= 0 and ord(letter) <= lasts[at]


class Shown:
    """Replaces, and counts what it replaced."""

    def __init__(self) -> None:
        self.replaced = 0

    def text(self, text: str) -> str:
        """The text with a shape for every character, and room to break."""
        lines = LINE_ENDS.sub("\n", text)
        if not PLAIN.fullmatch(lines):
            lines = "".join(self._letter(letter) for letter in lines)
        return LONG_RUN.sub(_broken, lines)

    def all(self, found: Any) -> Any:
        """The same structure with every text in it shown; names of members stay."""
        if isinstance(found, str):
            return self.text(found)
        if isinstance(found, list | tuple):
            return [self.all(item) for item in found]
        if isinstance(found, dict):
            return {key: self.all(item) for key, item in found.items()}
        return found

    def _letter(self, letter: str) -> str:
        if letter == "\n" or has_shape(letter):
            return letter
        if letter == "\t":
            return " "
        self.replaced += 1
        return f"[U+{ord(letter):04X}]"


def _broken(run: re.Match[str]) -> str:
    text = run.group()
    return BREAK.join(text[start : start + PIECE] for start in range(0, len(text), PIECE))
