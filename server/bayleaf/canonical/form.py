"""Canonical JSON: the one spelling of a value, written and read strictly.

RFC 8785 (JSON Canonicalization Scheme), kept easy: numbers are safe integers (section 3.2.2.3 is then
only decimal digits), keys are ASCII (section 3.2.3, sorting by UTF-16 code unit, is then sorting by
byte), there is no null, no lone surrogate, no U+0000 and no key twice. String escapes are those of
section 3.2.2.2.

A text may have several faults. The code of the first of this list is the one that is told, wherever in
the text it stands: `too_long`, `not_json`, `duplicate_key`, `unsafe_number`, `lone_surrogate`,
`nul_character`, `not_canonical`.
"""

import json
from collections.abc import Iterator, Mapping
from typing import Any, Final

MAX_BYTES: Final = 65_536
MAX_DEPTH: Final = 64
MAX_SAFE: Final = 2**53 - 1
_MAX_SAFE_DIGITS: Final = 16
_PRECEDENCE: Final = ("duplicate_key", "unsafe_number", "lone_surrogate", "nul_character", "not_canonical")


class NotCanonical(ValueError):
    """A text or value that canonical form does not know; `code` never changes, `message` is a sentence."""

    def __init__(self, code: str, message: str, field: str = "") -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.field = field


class _Unsafe:
    """Stands in the read value where a number was that no integer of ours can hold."""

    def __init__(self, spelled: str) -> None:
        self.spelled = spelled


class _Doubled(dict[str, Any]):
    """An object that named a key twice; remembers which."""

    doubled: str


_encode = json.JSONEncoder(
    ensure_ascii=False, sort_keys=True, separators=(",", ":"), check_circular=False
).encode


def dumps(value: Any) -> str:
    """The canonical text of a value of dicts, lists, strings, booleans and safe integers."""
    _refuse_first(_value_faults(value, ""))
    return _encode(value)


def respelled(value: Mapping[str, Any]) -> str:
    """The canonical text of what `parse_strict` has read: known to be clean, so it is not looked at again."""
    return _encode(value)


def parse_strict(text: str) -> dict[str, Any]:
    """The object that a canonical text spells; anything else raises NotCanonical with its code."""
    _refuse_oversize(text)
    value = _read(text)
    if _is_clean(value, text):
        return value  # type: ignore[no-any-return]  # _is_clean has seen that it is a dict
    _refuse_first(_value_faults(value, ""))
    if not isinstance(value, dict):
        raise NotCanonical("not_canonical", f"An entry is a JSON object; found {_name_of(value)}.")
    raise NotCanonical("not_canonical", "The text is not byte for byte its own canonical form (RFC 8785).")


def _refuse_oversize(text: str) -> None:
    size = len(text.encode("utf-8", "surrogatepass"))
    if size > MAX_BYTES:
        raise NotCanonical("too_long", f"The text has {size} bytes of UTF-8; allowed are {MAX_BYTES}.")


def _read(text: str) -> Any:
    try:
        value = _decoder.decode(text)
    except json.JSONDecodeError as error:
        raise NotCanonical("not_json", f"Not JSON at character {error.pos}: {error.msg}.") from error
    except RecursionError as error:
        raise _too_deep() from error
    # Only a text with that many brackets can be that deep; walking every entry would cost more than it tells.
    if text.count("[") + text.count("{") > MAX_DEPTH and _depth(value) > MAX_DEPTH:
        raise _too_deep()
    return value


def _is_clean(value: Any, text: str) -> bool:
    """Whether the text is canonical; quick for nearly all: it walks only where a word hints at a fault.

    A doubled key, an escaped surrogate or a number of another spelling already makes the encodings differ.
    """
    if not isinstance(value, dict):
        return False
    try:
        same = _encode(value) == text
    except TypeError:  # an _Unsafe stands somewhere inside
        return False
    plain = text.isascii() and "null" not in text and "\\u0000" not in text
    return same and (plain or not any(_value_faults(value, "")))


def _key_faults(value: dict[str, Any], where: str) -> Iterator[tuple[str, str, str]]:
    if isinstance(value, _Doubled):
        field = _under(where, value.doubled)
        yield "duplicate_key", f"{field}: the key stands twice in one object.", field


def _refuse_first(faults: Iterator[tuple[str, str, str]]) -> None:
    """Raises the fault whose code stands first in the order of precedence, if there is any."""
    found = sorted(faults, key=lambda fault: _PRECEDENCE.index(fault[0]))
    if found:
        raise NotCanonical(*found[0])


def _value_faults(value: Any, where: str) -> Iterator[tuple[str, str, str]]:
    match value:
        case bool():
            return
        case str():
            yield from _string_faults(value, where)
        case int():
            if abs(value) > MAX_SAFE:
                yield "unsafe_number", f"{where or 'value'}: {value} is beyond 2^53 - 1.", where
        case dict():
            yield from _object_faults(value, where)
        case list() | tuple():
            for index, item in enumerate(value):
                yield from _value_faults(item, _under(where, str(index)))
        case float():
            yield "unsafe_number", f"{where or 'value'}: {value} is no integer.", where
        case _Unsafe():
            yield "unsafe_number", f"{where or 'value'}: {value.spelled[:40]} is no safe integer.", where
        case _:
            yield "not_canonical", f"{where or 'value'}: {_name_of(value)} is not allowed.", where


def _object_faults(value: dict[Any, Any], where: str) -> Iterator[tuple[str, str, str]]:
    yield from _key_faults(value, where)
    for key, item in value.items():
        if not isinstance(key, str):
            yield "not_canonical", f"{where or 'value'}: the key {key!r} is not a string.", where
            continue
        yield from _string_faults(key, where)
        if not key.isascii():
            yield "not_canonical", f"{where or 'value'}: the key {key!r} is not ASCII.", where
        yield from _value_faults(item, _under(where, key))


def _string_faults(value: str, where: str) -> Iterator[tuple[str, str, str]]:
    if "\0" in value:
        yield "nul_character", f"{where or 'value'}: U+0000 is not allowed in a string.", where
    try:
        value.encode("utf-8")
    except UnicodeEncodeError:
        yield "lone_surrogate", f"{where or 'value'}: half a surrogate pair is not allowed.", where


def _under(where: str, key: str) -> str:
    return f"{where}.{key}" if where else key


def _name_of(value: Any) -> str:
    return "null" if value is None else type(value).__name__


def _depth(value: Any) -> int:
    """How many containers stand inside each other; without recursion, since the text chooses the depth."""
    deepest = 0
    waiting = [(value, 1)]
    while waiting:
        item, level = waiting.pop()
        if isinstance(item, dict | list):
            deepest = max(deepest, level)
            inner = item.values() if isinstance(item, dict) else item
            waiting.extend((child, level + 1) for child in inner)
    return deepest


def _too_deep() -> NotCanonical:
    return NotCanonical("not_json", f"Nested more than {MAX_DEPTH} deep; no record is.")


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    value = dict(pairs)
    if len(value) == len(pairs):
        return value
    keys = [key for key, _ in pairs]
    doubled = _Doubled(value)
    doubled.doubled = next(key for key in keys if keys.count(key) > 1)
    return doubled


def _integer(spelled: str) -> Any:
    if len(spelled) > _MAX_SAFE_DIGITS + 1:
        return _Unsafe(spelled)
    value = int(spelled)
    return value if abs(value) <= MAX_SAFE else _Unsafe(spelled)


def _fraction(spelled: str) -> Any:
    """1.0 and 1e2 are integers spelled otherwise, as in a reader that knows only doubles; 1.5 is none."""
    value = float(spelled)
    if value.is_integer() and abs(value) <= MAX_SAFE:
        return int(value)
    return _Unsafe(spelled)


def _constant(spelled: str) -> Any:
    raise json.JSONDecodeError(f"{spelled} is no JSON value", spelled, 0)


_decoder = json.JSONDecoder(
    object_pairs_hook=_object, parse_int=_integer, parse_float=_fraction, parse_constant=_constant
)
