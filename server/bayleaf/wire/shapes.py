"""What every body schema shares: unknown fields are refused, rules across fields, and the quick check."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, ClassVar

from marshmallow import RAISE, Schema, ValidationError, fields, validates_schema

from bayleaf.wire.values import Check

UNKNOWN = "is not known here."
Fault = tuple[str, str]
Rule = Callable[[Mapping[str, Any]], Fault | None]


class Shape(Schema):
    """A JSON object with exactly these fields. `rules` are promises between fields."""

    class Meta:
        """Unknown fields are faults."""

        unknown = RAISE

    error_messages = {"unknown": UNKNOWN, "type": "has to be an object."}
    rules: ClassVar[tuple[Rule, ...]] = ()

    @validates_schema
    def _keep_the_rules(self, body: Mapping[str, Any], **_: Any) -> None:
        for rule in self.rules:
            fault = rule(body)
            if fault is not None:
                raise ValidationError(fault[1], fault[0])


class Inside(fields.Nested):
    """An object inside a body."""

    def __init__(self, shape: type[Shape]) -> None:
        super().__init__(shape, required=True, error_messages={"required": "is missing."})
        self.check: Check = quick_check(shape)


def quick_check(shape: type[Shape]) -> Check:
    """Whether a value has this shape, by the same fields and rules, without saying why not."""
    declared: dict[str, Any] = dict(shape().fields)
    required = tuple((name, field.check) for name, field in declared.items() if field.required)
    optional = tuple((name, field.check) for name, field in declared.items() if not field.required)
    rules = shape.rules

    def check(value: Any) -> bool:
        if type(value) is not dict:
            return False
        known = len(required)
        for name, sound in required:
            if name not in value or not sound(value[name]):
                return False
        for name, sound in optional:
            if name in value:
                known += 1
                if not sound(value[name]):
                    return False
        return len(value) == known and all(rule(value) is None for rule in rules)

    return check


def faults_of(shape: type[Shape], value: Any) -> tuple[list[Fault], list[str]]:
    """Faults as (field, sentence), and the unknown fields, which are no faults of what is known."""
    unknown: list[str] = []
    while True:
        errors = shape().validate(value)
        found = list(_leaves(errors, ()))
        strangers = [path for path, said in found if said == UNKNOWN and path]
        if not strangers:
            return [(_spelled(path), said) for path, said in found], unknown
        unknown += [_spelled(path) for path in strangers]
        for path in strangers:
            value = _without(value, path)


def _leaves(errors: Any, path: tuple[Any, ...]) -> list[tuple[tuple[Any, ...], str]]:
    if isinstance(errors, dict):
        return [
            leaf
            for key, inner in errors.items()
            for leaf in _leaves(inner, path if key == "_schema" else (*path, key))
        ]
    return [(path, str(said)) for said in errors]


def _without(value: Any, path: tuple[Any, ...]) -> Any:
    key, *rest = path
    if isinstance(value, list):
        return [_without(item, tuple(rest)) if at == key else item for at, item in enumerate(value)]
    if rest:
        return {name: _without(item, tuple(rest)) if name == key else item for name, item in value.items()}
    return {name: item for name, item in value.items() if name != key}


def _spelled(path: tuple[Any, ...]) -> str:
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in path)
    return text.removeprefix(".")
