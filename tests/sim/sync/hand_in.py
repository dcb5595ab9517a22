"""The unsent records as one file, as `web/src/sync/hand_in.ts`."""

from __future__ import annotations

from bayleaf.canonical.form import dumps
from sim import plan
from sim.phone import Phone


def hand_in(phone: Phone) -> bytes:
    """The unsent records as one file for the office."""
    entries = [phone.store.entries[found] for found in phone.store.outbox]
    owed = list(phone.store.heads_owed.values())
    photos = [
        row
        for row in phone.store.photos.values()
        if row.where == "phone" and row.sha256 in phone.store.photo_bytes
    ]
    blobs = [phone.store.photo_bytes[row.sha256] for row in photos]
    thumbs = [(thumb, found) for thumb, (found, where) in phone.store.thumbs.items() if where == "phone"]
    refused = [fate for fate in phone.store.fates.values() if fate.fate == "refused"]
    words = {
        "device": phone.device,
        "made_ms": phone.wall(),
        "cards": [dict(phone.card)],
        "heads": [dict(phone.signed_head(one)) for one in plan.heads_to_sign(entries, owed, phone.device)],
        "entries": [row.text for row in entries],
        "refused": [
            {"text": phone.store.entries[fate.hash].text, "code": fate.code}
            for fate in refused
            if fate.hash in phone.store.entries
        ],
        "photos": [
            {"sha256": row.sha256, "type": "image/png", "job": row.job, "bytes": len(blob)}
            for row, blob in zip(photos, blobs, strict=True)
        ],
        "thumbs": [{"sha256": thumb, "bytes": len(found)} for thumb, found in thumbs],
    }
    text = f"bayleaf-handin-1\n{dumps(words)}\n".encode()
    return b"".join([text, *blobs, *(found for _, found in thumbs)])
