"""Photos: tus 1.0 (core, creation) on the way in, by hash on the way out; thumbnails in one piece."""

from __future__ import annotations

import base64
import binascii
from collections.abc import Iterator

from flask import Response, request, send_file, url_for
from werkzeug.exceptions import ClientDisconnected, RequestEntityTooLarge

from bayleaf.http.callers import Callers
from bayleaf.http.parts import parts
from bayleaf.http.reading import body_bytes
from bayleaf.http.routes import Routes
from bayleaf.http.who_calls import any_caller, device_caller
from bayleaf.photo_ports import Upload
from bayleaf.usecases.receive_photo import (
    MOST_BYTES,
    THUMB_BYTES,
    Progress,
    add_to_upload,
    begin_upload,
    may_see,
    put_thumb,
    upload_progress,
)
from bayleaf.usecases.refusal import Refusal
from bayleaf.wire.image_header import type_of
from bayleaf.wire.values import digest, uuid

routes = Routes("photos")
TUS = "1.0.0"
PIECE = "application/offset+octet-stream"
CHUNK = 1 << 18
SANDBOX = "default-src 'none'; sandbox"
IS_DIGEST, IS_UUID = digest().check, uuid().check


@routes.on("OPTIONS", "/api/photos", Callers.SIGNED_IN, status=204)
def abilities() -> Response:
    """What this end of tus can do."""
    response = _tus(204)
    response.headers["Tus-Version"] = TUS
    response.headers["Tus-Extension"] = "creation"
    response.headers["Tus-Max-Size"] = str(MOST_BYTES)
    return response


@routes.on("POST", "/api/photos", Callers.DEVICE, status=201)
def create() -> Response:
    """Begin an upload. Upload-Metadata names sha256, type and job."""
    _require_tus()
    told = _metadata(request.headers.get("Upload-Metadata", ""))
    for name, check in (("sha256", IS_DIGEST), ("job", IS_UUID)):
        if not check(told.get(name)):
            raise Refusal("broken_request", f"Upload-Metadata: {name} is missing or malformed.", name)
    length = _count("Upload-Length")
    claimed = Upload("", told["sha256"], length, told.get("type", ""), told["job"], "", 0)
    progress = begin_upload(parts().office, device_caller(), claimed)
    response = _tus(201, progress)
    response.headers["Location"] = url_for("photos.progress", upload=progress.id)
    return response


@routes.on("HEAD", "/api/photos/<string(length=36):upload>", Callers.DEVICE)
def progress(upload: str) -> Response:
    """Where to go on."""
    _require_tus()
    found = upload_progress(parts().office, device_caller(), upload)
    response = _tus(200, found)
    response.headers["Upload-Length"] = str(found.bytes)
    response.headers["Cache-Control"] = "no-store"
    return response


@routes.on("PATCH", "/api/photos/<string(length=36):upload>", Callers.DEVICE, raw=PIECE, status=204)
def add(upload: str) -> Response:
    """The next piece. What came of it is on disk when this is answered."""
    _require_tus()
    if request.mimetype != PIECE:
        raise Refusal("wrong_type", f"Content-Type: allowed is {PIECE}.", "Content-Type")
    request.max_content_length = MOST_BYTES
    found = add_to_upload(parts().office, device_caller(), upload, _count("Upload-Offset"), _chunks())
    return _tus(204, found)


@routes.on("GET", "/api/photos/<string(length=64):sha256>", Callers.SIGNED_IN, media="image/jpeg")
def photo(sha256: str) -> Response:
    """The photo's bytes, under their own type and in a sandbox."""
    store = parts().office.photos
    found = store.find(sha256)
    if found is None or not may_see(parts().office, any_caller(), sha256):
        raise Refusal("not_found", "No photo of this hash is here for this caller.", "sha256")
    return _for_ever(send_file(store.photo_path(sha256), mimetype=found.type, conditional=True))


@routes.on("GET", "/api/thumbs/<string(length=64):sha256>", Callers.SIGNED_IN, media="image/jpeg")
def thumb(sha256: str) -> Response:
    """A thumbnail's bytes."""
    found = parts().office.photos.thumb(sha256) if IS_DIGEST(sha256) else None
    if found is None or not may_see(parts().office, any_caller(), sha256):
        raise Refusal("not_found", "No thumbnail of this hash is here for this caller.", "sha256")
    return _for_ever(Response(found, mimetype=type_of(found)))


@routes.on("PUT", "/api/thumbs/<string(length=64):sha256>", Callers.DEVICE, raw="image/jpeg", status=204)
def keep_thumb(sha256: str) -> Response:
    """A thumbnail, by the hash of its own bytes."""
    put_thumb(parts().office, sha256, body_bytes(THUMB_BYTES))
    return Response(status=204)


def _chunks() -> Iterator[bytes]:
    """What arrives, for as long as it does: a line that breaks leaves what came before it."""
    try:
        while chunk := request.stream.read(CHUNK):
            yield chunk
    except (ClientDisconnected, OSError):
        return
    except RequestEntityTooLarge as error:
        raise Refusal("too_large", f"A photo has at most {MOST_BYTES} bytes.") from error


def _require_tus() -> None:
    found = request.headers.get("Tus-Resumable", "none")
    if found != TUS:
        raise Refusal("wrong_tus_version", f"Tus-Resumable: found {found[:20]}, allowed is {TUS}.")


def _count(header: str) -> int:
    found = request.headers.get(header, "")
    if not found.isascii() or not found.isdigit() or len(found) > 15:  # noqa: PLR2004  (far above any length)
        raise Refusal(
            "broken_request", f"{header}: found {found[:20] or 'nothing'}, allowed is a length.", header
        )
    return int(found)


def _metadata(header: str) -> dict[str, str]:
    """Keys and base64 values, as tus writes them."""
    told: dict[str, str] = {}
    for pair in header.split(","):
        name, _, encoded = pair.strip().partition(" ")
        try:
            told[name] = base64.b64decode(encoded, validate=True).decode()
        except (binascii.Error, UnicodeDecodeError) as error:
            raise Refusal(
                "broken_request", f"Upload-Metadata: {name[:40]} is no base64.", name[:40]
            ) from error
    return told


def _tus(status: int, progress: Progress | None = None) -> Response:
    response = Response(status=status)
    response.headers["Tus-Resumable"] = TUS
    if progress is not None:
        response.headers["Upload-Offset"] = str(progress.offset)
    return response


def _for_ever(response: Response) -> Response:
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    response.headers["Content-Security-Policy"] = SANDBOX
    response.headers["X-Content-Type-Options"] = "nosniff"
    response.headers["Content-Disposition"] = "inline"
    return response
