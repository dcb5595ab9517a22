"""Computations as documents: one JSON document asks, one answers, each by a published JSON Schema."""

from bayleaf.computations.answering import (
    Answered,
    answer_document,
    answer_parsed,
    answer_text,
    refused_document,
)
from bayleaf.computations.bonding_book import BONDING
from bayleaf.computations.fastening_book import FASTENING
from bayleaf.computations.parsing import parsed
from bayleaf.computations.publishing import book_schema
from bayleaf.computations.recognising import asked_of, inputs_of
from bayleaf.computations.refusal import DocumentRefused
from bayleaf.computations.shapes import Book, Computation

__all__ = [
    "BONDING",
    "FASTENING",
    "Answered",
    "Book",
    "Computation",
    "DocumentRefused",
    "answer_document",
    "answer_parsed",
    "answer_text",
    "asked_of",
    "book_schema",
    "inputs_of",
    "parsed",
    "refused_document",
]
