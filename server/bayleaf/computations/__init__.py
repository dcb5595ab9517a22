"""Computations as documents: one JSON document asks, one answers, each by a published JSON Schema."""

from bayleaf.computations.answering import Answered, answer_document, answer_text, refused_document
from bayleaf.computations.bonding_book import BONDING
from bayleaf.computations.fastening_book import FASTENING
from bayleaf.computations.reading import DocumentRefused
from bayleaf.computations.shapes import Book, Computation

__all__ = [
    "BONDING",
    "FASTENING",
    "Answered",
    "Book",
    "Computation",
    "DocumentRefused",
    "answer_document",
    "answer_text",
    "refused_document",
]
