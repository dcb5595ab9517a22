"""Answers an asking document: the result with its model, inputs, band, remarks and sources."""

from __future__ import annotations

import math
from typing import Any

from bayleaf.bonding.refusal import Refused as BondingRefused
from bayleaf.computations.parsing import inside, parsed
from bayleaf.computations.reading import checked_inputs, parsed_inputs
from bayleaf.computations.recognising import inputs_of
from bayleaf.computations.refusal import DocumentRefused
from bayleaf.computations.shapes import FIRST, Computation, Inputs
from bayleaf.fastening.refusal import Refused as FasteningRefused

Answered = dict[str, Any]
SIGNIFICANT = 10
NOISE = 1e-11
TOO_FAR_APART = "a finite answer; these figures lie too far apart for one"


def answer_text(computation: Computation, written: str | bytes) -> Answered:
    """The answering document to a written one. Raises DocumentRefused."""
    return answer_parsed(computation, inputs_of(computation, parsed(written)))


def answer_parsed(computation: Computation, inputs: Any) -> Answered:
    """The answering document to inputs just parsed, in which numbers may be odd. Raises DocumentRefused."""
    return _answer(computation, parsed_inputs(computation, inputs))


def answer_document(computation: Computation, document: Any) -> Answered:
    """The answering document to a parsed one, as a step makes it of earlier entries. Raises
    DocumentRefused.
    """
    return _answer(computation, checked_inputs(computation, document))


def _answer(computation: Computation, inputs: Inputs) -> Answered:
    try:
        outcome = computation.answer(inputs)
    except (BondingRefused, FasteningRefused) as refused:
        raise DocumentRefused(refused.field, str(refused.found), refused.allowed, refused.shown) from refused
    except ArithmeticError as error:
        raise DocumentRefused("", "figures that divide by nothing", TOO_FAR_APART) from error
    _refuse_endless({**outcome.result, **outcome.band}, "")
    return {
        "computation": computation.name,
        "model": outcome.model or computation.model,
        "inputs": dict(inputs),
        "result": to_ten_digits(outcome.result),
        "band": to_ten_digits(outcome.band),
        "remarks": list(outcome.remarks),
        "sources": list(computation.sources),
        "first": FIRST,
    }


def _refuse_endless(figures: Any, where: str) -> None:
    """Figures that are each in range may still lie too far apart for a number: no answer names them."""
    match figures:
        case dict():
            for name, one in figures.items():
                _refuse_endless(one, inside(where, str(name)))
        case list():
            for place, one in enumerate(figures):
                _refuse_endless(one, inside(where, place))
        case float() if not math.isfinite(figures):
            raise DocumentRefused(where, str(figures), TOO_FAR_APART)
        case _:
            return


def to_ten_digits(figures: Any) -> Any:
    """The same figures at ten significant digits: more is the machine's noise."""
    match figures:
        case dict():
            return {name: to_ten_digits(one) for name, one in figures.items()}
        case list():
            return [to_ten_digits(one) for one in figures]
        case float():
            return float(f"{figures:.{SIGNIFICANT}g}") if abs(figures) > NOISE else 0.0
        case _:
            return figures


def refused_document(computation: Computation | None, refused: DocumentRefused) -> Answered:
    """The answering document of a refusal: no figure but those that show the way."""
    of = {} if computation is None else {"computation": computation.name, "model": computation.model}
    return {
        **of,
        "result": {
            "refused": True,
            "field": refused.field,
            "found": refused.found,
            "allowed": refused.allowed,
            **refused.shown,
        },
        "first": FIRST,
    }
