"""The values that a body may hold: marshmallow fields that also carry a quick yes-or-no check of their own.

The field's own loading asks the same check, so that the two cannot differ: the check is for the many entries
that are sound, the field for the sentence about one that is not, and for the OpenAPI document.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from marshmallow import ValidationError, fields, validate

if TYPE_CHECKING:
    AnyList = fields.List[Any]
else:
    AnyList = fields.List

SAFE = 2**53 - 1
SHOWN = 40
Check = Callable[[Any], bool]

_HEX64 = "[0-9a-f]{64}"
_UUID = "[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"


class Judged(fields.Field[Any]):
    """A field whose `check` decides, and whose `allowed` says in words what is."""

    check: Check
    allowed: str
    default_error_messages = {"required": "is missing.", "null": "found null, which no field may be."}

    def found(self, value: Any) -> str:
        """What stands there instead, short enough to read."""
        return shown(value)

    def _deserialize(self, value: Any, *_: Any, **__: Any) -> Any:
        if not self.check(value):
            raise ValidationError(f"found {self.found(value)}, allowed is {self.allowed}.")
        return value


class Word(Judged, fields.String):
    """A string of a given pattern, such as a hash or an id."""

    def __init__(self, pattern: str, allowed: str, *, required: bool = True, empty: bool = False) -> None:
        spelled = f"({pattern})?" if empty else pattern
        self.allowed = f"{allowed}, or nothing" if empty else allowed
        described = {"pattern": f"^{spelled}$", "description": self.allowed}
        super().__init__(required=required, metadata=described)
        matches = re.compile(spelled).fullmatch
        self.check: Check = lambda value: type(value) is str and matches(value) is not None


class Words(Judged, fields.String):
    """Free text of bounded length, counted in code points."""

    def __init__(self, most: int, *, least: int = 0, required: bool = True) -> None:
        super().__init__(required=required, validate=validate.Length(min=least, max=most))
        self.allowed = f"a text of {least} to {most} characters"
        self.check: Check = lambda value: type(value) is str and least <= len(value) <= most

    def found(self, value: Any) -> str:
        """Of a text, its length."""
        return f"{len(value)} characters" if isinstance(value, str) else shown(value)


class OneOf(Judged, fields.String):
    """One of a few words."""

    def __init__(self, words: Sequence[str], *, required: bool = True) -> None:
        super().__init__(required=required, validate=validate.OneOf(words))
        known = frozenset(words)
        self.allowed = "one of: " + ", ".join(word or '""' for word in words)
        self.check: Check = lambda value: type(value) is str and value in known


class Whole(Judged, fields.Integer):
    """An integer between bounds; `true` is none."""

    def __init__(self, least: int = -SAFE, most: int = SAFE, *, required: bool = True) -> None:
        super().__init__(required=required, strict=True, validate=validate.Range(least, most))
        self.allowed = f"a whole number from {least} to {most}"
        self.check: Check = lambda value: type(value) is int and least <= value <= most


class Flag(Judged, fields.Boolean):
    """true or false, and nothing that only counts as such."""

    allowed = "true or false"
    check: Check = staticmethod(lambda value: type(value) is bool)

    def __init__(self) -> None:
        super().__init__(required=True)


class Listed(Judged, AnyList):
    """A list of bounded length, whose items may have to be sorted, or only each there once."""

    def __init__(
        self,
        item: Any,
        most: int,
        *,
        least: int = 0,
        in_order: bool = False,
        distinct: bool = False,
        required: bool = True,
    ) -> None:
        super().__init__(item, required=required, validate=validate.Length(min=least, max=most))
        self.least, self.most, self.in_order, self.distinct = least, most, in_order, distinct
        self.allowed = f"a list of {least} to {most}"
        sound: Check = item.check

        def check(value: Any) -> bool:
            if type(value) is not list or not least <= len(value) <= most:
                return False
            return all(map(sound, value)) and self.order_fault(value) is None

        self.check: Check = check

    def order_fault(self, items: Sequence[Any]) -> str | None:
        """Why these items may not stand in this order; None if they may."""
        if self.in_order and any(later <= earlier for earlier, later in pairwise(items)):
            return "found items out of order or doubled, allowed is each once and sorted."
        if self.distinct and len(set(items)) != len(items):
            return "found an item twice, allowed is each once."
        return None

    def found(self, value: Any) -> str:
        """Of a list, its length."""
        return f"{len(value)} items" if isinstance(value, list) else shown(value)

    def _deserialize(self, value: Any, *given: Any, **named: Any) -> Any:
        if not isinstance(value, list) or not self.least <= len(value) <= self.most:
            raise ValidationError(f"found {self.found(value)}, allowed is {self.allowed}.")
        items = super(Judged, self)._deserialize(value, *given, **named)
        fault = self.order_fault(items)
        if fault is not None:
            raise ValidationError(fault)
        return items


class Pair(Judged, AnyList):
    """Two whole numbers: when in the run, and what was read."""

    allowed = "[run_ms of 0 or more, value], both whole"

    def __init__(self) -> None:
        super().__init__(fields.Integer(), required=True, validate=validate.Length(equal=2))

    @staticmethod
    def check(value: Any) -> bool:
        """Whether it is such a pair."""
        if type(value) is not list or len(value) != 2:  # noqa: PLR2004  (a pair)
            return False
        when, read = value
        return type(when) is int and 0 <= when <= SAFE and type(read) is int and -SAFE <= read <= SAFE


class AnyObject(Judged, fields.Dict):
    """An object that something else judges."""

    allowed = "an object"
    check: Check = staticmethod(lambda value: type(value) is dict)

    def __init__(self) -> None:
        super().__init__(required=True)


def digest(*, empty: bool = False) -> Word:
    """A SHA-256 in lower-case hex: of an entry, a method, a photo."""
    return Word(_HEX64, "64 lower-case hex digits", empty=empty)


def uuid() -> Word:
    """A UUID in its canonical lower-case form."""
    return Word(_UUID, "a lower-case UUID")


def name_id(*, empty: bool = False) -> Word:
    """An id of a method, step, ask, point, zone, sensor, role or code."""
    return Word("[a-z0-9_-]{1,64}", "1 to 64 of a-z 0-9 _ -", empty=empty)


def place_id(*, empty: bool = False, required: bool = True) -> Word:
    """An id that stands on the metal: a rivet's position, a pad."""
    return Word("[A-Za-z0-9_-]{1,32}", "1 to 32 of A-Z a-z 0-9 _ -", empty=empty, required=required)


def hashes(most: int = 900, *, required: bool = True) -> Listed:
    """Hashes of entries, sorted, each once."""
    return Listed(digest(), most, in_order=True, required=required)


def shown(value: Any) -> str:
    """A value as a sentence can quote it."""
    if isinstance(value, str):
        return f'"{value[:SHOWN]}{"..." if len(value) > SHOWN else ""}"'
    if isinstance(value, bool):
        return str(value).lower()
    return str(value) if isinstance(value, int) else f"a {type(value).__name__}"
