"""The rivet lengths of a result: what a row gave each group, and what a person chose."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Final

from bayleaf.report.words import quantity, word

FOUND: Final = "length_"
CHOSEN: Final = "chosen_"


def lengths_words(body: Any) -> str:
    """`post 12 mm, foot 14 mm (chosen)`, in the groups' order; empty of a result without lengths."""
    return ", ".join(_lengths(body["values"]))


def _lengths(values: list[Mapping[str, Any]]) -> Iterator[str]:
    for one in values:
        for begins, by in ((FOUND, ""), (CHOSEN, " (chosen)")):
            if one["name"].startswith(begins):
                yield f"{word(one['name'].removeprefix(begins))} {_length(one)}{by}"


def _length(one: Mapping[str, Any]) -> str:
    """As it is called: 12 mm though its table counts in tenths."""
    whole, rest = divmod(one["value"], 10 ** one["decimals"])
    return quantity(one["value"], one["decimals"], one["unit"]) if rest else quantity(whole, 0, one["unit"])
