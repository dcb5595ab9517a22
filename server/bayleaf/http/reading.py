"""Reads a request's body: bounded, strictly JSON, and text that a store can keep."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from tempfile import TemporaryFile
from typing import IO, NoReturn

from flask import request
from marshmallow import Schema, ValidationError
from werkzeug.exceptions import RequestEntityTooLarge

from bayleaf.usecases.refusal import Refusal

SAFE_INTEGER = 2**53 - 1


def body_bytes(limit: int) -> bytes:
    """The body, at most `limit` bytes of it, with a length or chunked."""
    request.max_content_length = limit
    try:
        return request.get_data(cache=False)
    except RequestEntityTooLarge as error:
        raise _too_large(limit) from error


@contextmanager
def body_file(limit: int) -> Iterator[IO[bytes]]:
    """The body in a file without a name, from its beginning: for bodies that no memory should hold."""
    request.max_content_length = limit
    with TemporaryFile() as file:
        try:
            shutil.copyfileobj(request.stream, file)
        except RequestEntityTooLarge as error:
            raise _too_large(limit) from error
        file.seek(0)
        yield file


def _too_large(limit: int) -> Refusal:
    return Refusal("too_large", f"The body is over the {limit} bytes that are allowed here.")


def read_json(raw: bytes) -> object:
    """JSON without what a store or the other side could not keep: see the refusals below."""
    try:
        text = raw.decode("utf-8")
        value: object = json.loads(text, parse_int=_safe_integer, parse_constant=_no_constant)
        require_keepable(value)
    except UnicodeError as error:
        raise Refusal("unreadable_json", f"The body is not clean UTF-8 text: {error}.") from error
    except json.JSONDecodeError as error:
        message = f"The body is not JSON: line {error.lineno}, column {error.colno}: {error.msg}."
        raise Refusal("unreadable_json", message) from error
    except RecursionError as error:
        raise Refusal("unreadable_json", "The body is nested too deep.") from error
    return value


def load_body(schema: Schema, limit: int) -> object:
    """The JSON body as the schema reads it; the first fault is refused with its field."""
    if not request.is_json:
        found = request.mimetype or "nothing"
        raise Refusal("not_json_type", f"Content-Type: found {found}, allowed is application/json.")
    return load(schema, read_json(body_bytes(limit)))


def load(schema: Schema, value: object) -> object:
    """`value` through the schema, faults as one sentence each, the first one's field in `field`."""
    if not isinstance(value, dict):
        raise Refusal("broken_request", f"The body has to be an object, found {type(value).__name__}.")
    try:
        return schema.load(value)
    except ValidationError as error:
        faults = list(_faults(error.messages, ""))
        sentence = " ".join(f"{field}: {message}" if field else message for field, message in faults[:10])
        raise Refusal("broken_request", sentence, faults[0][0]) from error


def _faults(messages: object, path: str) -> list[tuple[str, str]]:
    if isinstance(messages, dict):
        return [fault for key, inner in messages.items() for fault in _faults(inner, _join(path, str(key)))]
    if isinstance(messages, list):
        return [fault for inner in messages for fault in _faults(inner, path)]
    return [(path, str(messages))]


def _join(path: str, key: str) -> str:
    if key == "_schema":
        return path
    if key.isdigit():
        return f"{path}[{key}]"
    return f"{path}.{key}" if path else key


def _safe_integer(digits: str) -> int:
    if len(digits) > 17 or abs(int(digits)) > SAFE_INTEGER:  # noqa: PLR2004  (2^53 and its sign: 17 characters)
        raise Refusal("unsafe_number", f"A number has to lie within 2^53 - 1, found {digits[:40]}.")
    return int(digits)


def _no_constant(name: str) -> NoReturn:
    raise Refusal("unreadable_json", f"The body is not JSON: {name} is no JSON number.")


def require_keepable(value: object) -> None:
    """Refuse U+0000, and raise UnicodeError for a lone surrogate, anywhere in the value."""
    text = json.dumps(value, ensure_ascii=False)
    text.encode("utf-8")  # a lone surrogate raises here
    if "\\u0000" in text.replace("\\\\", ""):
        raise Refusal("nul_character", "A text has the character U+0000, which no text may have.")
