"""Photos in slots and without, and lots."""

from vectors.scene import Expect, Scene, findings, found, hashes, vector
from vectors.writers import FIRST_AT_MS

SHOW, GLUE = "evidence:show", "evidence:glue"


@vector("A slot is answered by a photo entry, whoever took it", "evidence")
def a_slot_is_answered_by_a_photo_entry(s: Scene) -> Expect:
    s.office.pin("evidence")
    photo = s.photographer.photo(SHOW, "before")
    return {"slots[slot=before]/photos": [photo], "steps[step=show]/open": ["after"], "loose_photos": []}


@vector("Several unstruck photos may fill a slot", "evidence")
def several_photos_may_fill_a_slot(s: Scene) -> Expect:
    s.office.pin("evidence")
    one = s.photographer.photo(SHOW, "before")
    two = s.tech.photo(SHOW, "before", sha256="c" * 64)
    return {"slots[slot=before]/photos": hashes(one, two), "findings": []}


@vector("A move is a new photo of the same bytes plus a strike of the old one", "evidence")
def a_moved_photo_fills_its_new_slot_only(s: Scene) -> Expect:
    s.office.pin("evidence")
    old = s.photographer.photo(SHOW, "before")
    new = s.photographer.photo(SHOW, "after")
    s.photographer.strike(old, reason="belongs to after")
    return {"slots[slot=before]/photos": [], "slots[slot=after]/photos": [new], "findings": []}


@vector("A photo without a slot is loose", "evidence")
def a_photo_without_a_slot_is_loose(s: Scene) -> Expect:
    s.office.pin("evidence")
    one, two = s.photographer.photo(), s.tech.photo()
    return {"loose_photos": hashes(one, two), "slots[slot=before]/photos": []}


@vector("A photo for a slot that the pinned method does not have is loose", "evidence")
def a_photo_for_no_such_slot_is_loose(s: Scene) -> Expect:
    s.office.pin("evidence")
    photo = s.photographer.photo(SHOW, "sideways")
    return {"loose_photos": [photo]}


@vector("A lot answers its ask", "evidence")
def a_lot_answers_its_ask(s: Scene) -> Expect:
    s.office.pin("evidence")
    lot = s.tech.lot(GLUE, "paste", "paste_x", FIRST_AT_MS + 10_000_000)
    return {
        "lots": [{"method": "evidence", "step": "glue", "ask": "paste", "answers": [lot], "marked": []}],
        "steps[step=glue]/open": [],
        "findings": [],
    }


@vector("Two lots at one ask are a set, as when a cartridge runs out", "evidence")
def two_lots_are_a_set(s: Scene) -> Expect:
    s.office.pin("evidence")
    one, two = s.tech.lot(GLUE, "paste", "paste_x"), s.second.lot(GLUE, "paste", "paste_x")
    return {"lots[ask=paste]/answers": hashes(one, two), "findings": []}


@vector("A lot of another material is marked and found, and does not answer", "evidence")
def a_lot_of_another_material_is_found(s: Scene) -> Expect:
    s.office.pin("evidence")
    lot = s.tech.lot(GLUE, "paste", "paste_y")
    return {
        "lots[ask=paste]/answers": [lot],
        "lots[ask=paste]/marked": [lot],
        "steps[step=glue]/open": ["paste"],
        "findings": findings(found("wrong_lot", ["evidence", "glue", "paste"], lot)),
    }


@vector("A lot recorded after its expiry is marked and found; at the very expiry it is not", "evidence")
def a_lot_past_its_expiry_is_found(s: Scene) -> Expect:
    s.office.pin("evidence")
    lot = s.tech.lot(GLUE, "paste", "paste_x", 5000, at_ms=5001)
    s.tech.lot(GLUE, "paste", "paste_x", 5000, at_ms=5000)
    return {
        "lots[ask=paste]/marked": [lot],
        "findings": findings(found("expired_lot", ["evidence", "glue", "paste"], lot)),
    }


@vector("A lot without a printed expiry never expires", "evidence")
def a_lot_without_a_printed_expiry_never_expires(s: Scene) -> Expect:
    s.office.pin("evidence")
    s.tech.lot(GLUE, "paste", "paste_x", 0)
    return {"lots[ask=paste]/marked": [], "findings": []}


@vector("A lot may be both wrong and expired", "evidence")
def a_lot_may_be_wrong_and_expired(s: Scene) -> Expect:
    s.office.pin("evidence")
    lot = s.tech.lot(GLUE, "paste", "paste_y", 1)
    at = ["evidence", "glue", "paste"]
    return {
        "lots[ask=paste]/marked": [lot],
        "findings": findings(found("wrong_lot", at, lot), found("expired_lot", at, lot)),
    }
