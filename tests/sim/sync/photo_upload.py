"""Bundle and photo bytes, as `web/src/sync/bundle.ts` and `photo_upload.ts`."""

from __future__ import annotations

from dataclasses import replace

from sim.asking import Answer, Refused, Request, Talk
from sim.phone import Phone
from sim.phone_store import PhotoRow
from sim.sync import door

CHUNK_BYTES = 40


def fetch_bundle(phone: Phone, name: str) -> Talk[None]:
    answer = yield from door.ask(phone, Request("GET", "/api/bundle"))
    phone.store.methods |= answer.json["methods"]
    phone.store.settings["bundle_heard"] = name
    phone.store.settings["bundle_due"] = False


def send_photos(phone: Phone) -> Talk[None]:
    for thumb, (content, where) in list(phone.store.thumbs.items()):
        if where == "phone":
            yield from door.ask(phone, Request("PUT", f"/api/thumbs/{thumb}", content=content))
            phone.store.thumbs[thumb] = (content, "office")
    refused: Refused | None = None
    for row in [row for row in phone.store.photos.values() if row.where == "phone"]:
        if row.sha256 not in phone.store.photo_bytes:
            continue
        try:
            yield from _upload(phone, row, phone.store.photo_bytes[row.sha256])
            phone.mark_photo(row.sha256, "office")
        except Refused as said:
            refused = refused or said
    if refused is not None:
        raise refused


def _upload(phone: Phone, row: PhotoRow, content: bytes) -> Talk[None]:
    """As the tus client does: go on where the server says it is, else begin anew."""
    url, offset = row.upload_url, 0
    if url:
        head = yield from _resumed(phone, url)
        url, offset = (url, head.headers["Upload-Offset"]) if head is not None else ("", 0)
    if not url:
        told = {"sha256": row.sha256, "type": "image/png", "job": row.job, "length": len(content)}
        begun = yield from door.ask(phone, Request("POST", "/api/photos", headers=told))
        url, offset = begun.headers["Location"], begun.headers["Upload-Offset"]
        phone.store.photos[row.sha256] = replace(row, upload_url=url)
    while offset < len(content):
        piece = content[offset : offset + CHUNK_BYTES]
        patched = yield from door.ask(phone, Request("PATCH", url, content=piece, headers={"offset": offset}))
        offset = patched.headers["Upload-Offset"]


def _resumed(phone: Phone, url: str) -> Talk[Answer | None]:
    try:
        return (yield from door.ask(phone, Request("HEAD", url)))
    except Refused as said:
        if said.status == 404:
            return None
        raise
