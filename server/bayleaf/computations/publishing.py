"""The schema of a whole book: what each computation asks for, and the shapes of an answer and a refusal."""

from __future__ import annotations

from bayleaf.computations.shapes import DIALECT, FIRST, Book, Computation, Schema

ABOUT = (
    "A document names its computation and gives the inputs; the inputs alone will do where the command is "
    "given NAME, or where their field names fit one computation only. Units stand in the names of fields. "
    "The answer follows $defs/answer, or $defs/refusal where the exit status is 3."
)
TEXTS: Schema = {"type": "array", "items": {"type": "string"}}
ANSWER: Schema = {
    "type": "object",
    "properties": {
        "computation": {"type": "string"},
        "model": {"type": "string", "description": "name and version of the model that answered"},
        "inputs": {"type": "object", "description": "as asked, with the defaults that were used"},
        "result": {
            "type": "object",
            "description": "figures by name, with their units; null: there is none",
        },
        "band": {"type": "object", "description": "low and high of those figures that have a band"},
        "remarks": {**TEXTS, "description": "what a person should know with the figures"},
        "sources": {**TEXTS, "description": "where the formulas and rules are from"},
        "first": {"const": FIRST},
    },
    "required": ["computation", "model", "inputs", "result", "band", "remarks", "sources", "first"],
}
REFUSAL: Schema = {
    "type": "object",
    "properties": {
        "computation": {"type": "string", "description": "left out where the document does not say which"},
        "model": {"type": "string"},
        "result": {
            "type": "object",
            "properties": {
                "refused": {"const": True},
                "field": {"type": "string", "description": "the empty text is the document itself"},
                "found": {"type": "string"},
                "allowed": {"type": "string", "description": "range or kind, and the reason"},
            },
            "required": ["refused", "field", "found", "allowed"],
        },
        "first": {"const": FIRST},
    },
    "required": ["result", "first"],
}


def book_schema(title: str, book: Book) -> Schema:
    """The published JSON Schema of every document that a command reads, with those that it answers."""
    return {
        "$schema": DIALECT,
        "title": title,
        "description": ABOUT,
        "oneOf": [_named(one) for one in book.values()],
        "$defs": {"answer": ANSWER, "refusal": REFUSAL},
    }


def _named(computation: Computation) -> Schema:
    inputs = {name: part for name, part in computation.schema().items() if name != "$schema"}
    return {
        "title": computation.name,
        "description": computation.about,
        "type": "object",
        "properties": {"computation": {"const": computation.name}, "inputs": inputs},
        "required": ["computation", "inputs"],
        "additionalProperties": False,
    }
