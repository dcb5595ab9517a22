"""Computations that a step asks for: inputs by the method's names in, figures, verdict and lines out."""

from bayleaf.step_computations.book import BOOK, answer
from bayleaf.step_computations.gathering import Gathered, gather
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.reading import question_of
from bayleaf.step_computations.record import Record
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value

__all__ = [
    "BOOK",
    "Answer",
    "Gathered",
    "Line",
    "Question",
    "Record",
    "Unanswerable",
    "Value",
    "answer",
    "gather",
    "question_of",
]
