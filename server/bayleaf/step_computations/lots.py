"""What a computation says about the lots that it rests on: none that answers, a wrong one, an expired one."""

from __future__ import annotations

from collections.abc import Iterator

from bayleaf.step_computations.inputs import Lots
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Line


def lot_lines(question: Question, name: str) -> tuple[Line, ...]:
    """Lines about the lots of an input; the figures of a sheet hold for its own product alone."""
    lots = question.find(name, Lots)
    return () if lots is None else tuple(_lines(lots))


def _lines(lots: Lots) -> Iterator[Line]:
    for lot in lots.lots:
        if lot.wrong:
            yield Line("lot_wrong", at=(lot.lot,))
        if lot.expired:
            yield Line("lot_expired", at=(lot.lot,))
