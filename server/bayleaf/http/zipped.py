"""Bodies that travel gzipped: inflated within bounds on the way in, deflated on the way out."""

from __future__ import annotations

import gzip
import zlib

import orjson
from flask import Response, request

from bayleaf.http.reading import body_bytes
from bayleaf.usecases.refusal import Refusal

GZIP_WINDOW = 16 + zlib.MAX_WBITS
WORTH_IT = 1_000
LEVEL = 1  # answers repeat themselves: more effort gains little and is felt


def inflated_body(limit: int) -> bytes:
    """The body as it was before gzip; stops inflating as soon as it is over the limit."""
    raw = body_bytes(limit)
    encoding = request.headers.get("Content-Encoding", "identity").strip().lower()
    if encoding == "identity":
        return raw
    if encoding != "gzip":
        said = f"Content-Encoding: found {encoding[:40]}, allowed are gzip and identity."
        raise Refusal("wrong_encoding", said, "Content-Encoding")
    return inflate(raw, limit)


def inflate(raw: bytes, limit: int) -> bytes:
    """Bounded in what it gives and in what it holds meanwhile."""
    inflating = zlib.decompressobj(GZIP_WINDOW)
    try:
        found = inflating.decompress(raw, limit + 1)
    except zlib.error as error:
        raise Refusal("unreadable_json", f"The body is not gzip: {error}.") from error
    if len(found) > limit:
        raise Refusal("too_large", f"The body inflates to more than the {limit} bytes that are allowed here.")
    if not inflating.eof:
        raise Refusal("unreadable_json", "The body's gzip was cut before its end.")
    return found


def json_answer(found: object) -> Response:
    """JSON, gzipped where the caller takes it and it is worth it."""
    raw = orjson.dumps(found)
    response = Response(raw, content_type="application/json")
    response.headers["Vary"] = "Accept-Encoding"
    if len(raw) > WORTH_IT and request.accept_encodings["gzip"] > 0:
        response.set_data(gzip.compress(raw, LEVEL, mtime=0))
        response.headers["Content-Encoding"] = "gzip"
    return response
