"""Photos arrive in pieces, resume wherever they were cut, and are whole only by length and hash."""

from __future__ import annotations

import random
import struct
import zlib
from itertools import count
from typing import Any

import pytest
from werkzeug.test import TestResponse

from bayleaf.photo_ports import Upload
from bayleaf.wire.image_header import ImageHeader, read_header
from harness.at_work import Shop
from harness.pictures import PIECE, TUS, jpeg, sha
from harness.server import error_of

CHUNK = 1 << 16
SHORTEST = 66_000
PLACES = sorted(random.Random(3).sample(range(2, SHORTEST), 50))
CUTS = [0, 1, CHUNK - 1, CHUNK, CHUNK + 1, -1, *PLACES]
SEEDS = count(1)


@pytest.fixture
def photo() -> bytes:
    """Another one in every test, and longer than a chunk."""
    taken = jpeg(next(SEEDS), (320, 240))
    assert len(taken) > SHORTEST
    return taken


def png(width: int, height: int) -> bytes:
    """A header that claims so many pixels, and nothing behind it."""
    claim = b"IHDR" + struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + claim + struct.pack(">I", zlib.crc32(claim))


def held(shop: Shop, content: bytes) -> bool:
    return bool(shop.server.parts.office.photos.held([sha(content)]))


@pytest.mark.parametrize("cut", CUTS)
def test_an_upload_that_was_cut_resumes_where_it_was(shop: Shop, photo: bytes, cut: int) -> None:
    tus = shop.tus()
    cut %= len(photo)
    place = tus.create(photo).headers["Location"]
    answer = tus.patch(place, 0, photo[:cut], announced=len(photo))
    assert answer.status_code < 500
    assert not held(shop, photo)
    at = tus.offset(place)
    assert at == cut
    assert tus.patch(place, at, photo[at:]).headers["Upload-Offset"] == str(len(photo))
    assert shop.server.parts.office.photos.photo_bytes(sha(photo)) == photo


def test_an_upload_that_nobody_went_on_with_is_swept_when_another_begins(shop: Shop, photo: bytes) -> None:
    office, tus = shop.server.parts.office, shop.tus()
    tus.create(photo)
    old = Upload("0" * 36, sha(photo), len(photo), "image/jpeg", shop.job, shop.phone.device, 1)
    office.photos.begin(old)
    office.photos.add(old.id, 0, [photo[:9]])
    place = tus.create(photo).headers["Location"]
    assert (office.photos.upload(old.id), office.photos.size(old.id)) == (None, 0)
    assert tus.patch(place, 0, photo).status_code == 204


def test_a_photo_is_served_under_its_own_type_in_a_sandbox(shop: Shop, photo: bytes) -> None:
    shop.tus().send(photo)
    answer = shop.server.office().get(f"/api/photos/{sha(photo)}")
    assert (answer.data, answer.mimetype) == (photo, "image/jpeg")
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert "sandbox" in answer.headers["Content-Security-Policy"]
    stored = shop.server.parts.office.photos.find(sha(photo))
    assert stored is not None
    assert read_header(photo) == ImageHeader(stored.type, stored.width, stored.height)


def test_the_same_photo_twice_is_stored_once(shop: Shop, photo: bytes) -> None:
    tus = shop.tus()
    first = tus.send(photo)
    second = tus.create(photo)
    place = second.headers["Location"]
    assert (second.status_code, place != first) == (201, True)
    assert tus.offset(place) == len(photo)
    assert error_of(tus.patch(place, 0, photo)) == (409, "wrong_offset")


def test_two_uploads_of_one_photo_at_a_time_both_end_whole(shop: Shop, photo: bytes) -> None:
    tus = shop.tus()
    places = [tus.create(photo).headers["Location"] for _ in range(2)]
    for place in places:
        tus.patch(place, 0, photo[:1000])
    for place in places:
        assert tus.patch(place, 1000, photo[1000:]).status_code == 204
        assert tus.offset(place) == len(photo)
    assert shop.server.parts.office.photos.photo_bytes(sha(photo)) == photo


def test_a_short_piece_is_not_taken_for_the_whole(shop: Shop, photo: bytes) -> None:
    tus = shop.tus()
    place = tus.create(photo).headers["Location"]
    assert tus.patch(place, 0, photo[:-1]).status_code == 204
    assert not held(shop, photo)
    assert error_of(shop.server.office().get(f"/api/photos/{sha(photo)}")) == (404, "not_found")


def test_bytes_beyond_the_announced_length_are_not_kept(shop: Shop, photo: bytes) -> None:
    tus = shop.tus()
    place = tus.create(photo).headers["Location"]
    assert tus.patch(place, 0, photo + b"more").headers["Upload-Offset"] == str(len(photo))
    assert held(shop, photo)


def test_a_piece_at_another_offset_is_refused(shop: Shop, photo: bytes) -> None:
    tus = shop.tus()
    place = tus.create(photo).headers["Location"]
    tus.patch(place, 0, photo[:100])
    for offset in (0, 99, 101):
        assert error_of(tus.patch(place, offset, photo[offset:])) == (409, "wrong_offset")
    assert tus.offset(place) == 100


def test_a_photo_with_another_hash_is_dropped_whole(shop: Shop, photo: bytes) -> None:
    tus = shop.tus()
    other = jpeg(next(SEEDS), (320, 240))
    place = tus.create(photo, length=len(other)).headers["Location"]
    assert error_of(tus.patch(place, 0, other)) == (422, "wrong_digest")
    assert not held(shop, photo)
    assert not held(shop, other)
    assert shop.phone.client.head(place, headers=TUS).status_code == 404


@pytest.mark.parametrize(
    ("content", "told", "status", "code"),
    [
        (b"<html><script>alert(1)</script>", {"type": "image/jpeg"}, 422, "not_a_photo"),
        (png(3, 3), {"type": "image/jpeg"}, 422, "not_a_photo"),
        (b"\xff\xd8\xff\xd9" * 9, {"type": "image/jpeg"}, 422, "not_a_photo"),
        (png(60_000, 60_000), {"type": "image/png"}, 422, "too_many_pixels"),
        (png(0, 3), {"type": "image/png"}, 422, "too_many_pixels"),
    ],
)
def test_what_is_no_photo_is_refused_whatever_it_is_called(
    shop: Shop, content: bytes, told: dict[str, str], status: int, code: str
) -> None:
    tus = shop.tus()
    place = tus.create(content, **told).headers["Location"]
    assert error_of(tus.patch(place, 0, content)) == (status, code)
    assert not held(shop, content)
    assert shop.phone.client.head(place, headers=TUS).status_code == 404


@pytest.mark.parametrize(
    ("told", "status", "code"),
    [
        ({"length": 4 << 30}, 413, "too_large"),
        ({"length": 0}, 400, "broken_request"),
        ({"length": "-5"}, 400, "broken_request"),
        ({"type": "image/heic"}, 415, "wrong_type"),
        ({"sha256": "x"}, 400, "broken_request"),
        ({"job": ""}, 400, "broken_request"),
        ({"job": "00000000-0000-4000-8000-00000000f00d"}, 403, "foreign_job"),
    ],
)
def test_an_upload_that_cannot_be_is_refused_at_once(
    shop: Shop, photo: bytes, told: dict[str, Any], status: int, code: str
) -> None:
    answer = shop.tus().create(photo, **told)
    assert error_of(answer) == (status, code)
    assert "Location" not in answer.headers


def test_another_version_of_tus_is_refused(shop: Shop) -> None:
    answer = shop.phone.client.post("/api/photos", headers={"Tus-Resumable": "0.2.0"})
    assert error_of(answer) == (412, "wrong_tus_version")


def test_a_piece_of_another_media_type_is_refused(shop: Shop, photo: bytes) -> None:
    place = shop.tus().create(photo).headers["Location"]
    headers = {**TUS, "Upload-Offset": "0"}
    answer = shop.phone.client.patch(place, data=photo, headers=headers, content_type="image/jpeg")
    assert error_of(answer) == (415, "wrong_type")
    assert PIECE in answer.get_json()["message"]


def test_an_upload_belongs_to_its_device(shop: Shop, photo: bytes) -> None:
    place = shop.tus().create(photo).headers["Location"]
    other = shop.server.phone("photographer").client
    assert other.head(place, headers=TUS).status_code == 404


def test_a_photo_is_shown_to_devices_of_jobs_that_name_it(shop: Shop, photo: bytes) -> None:
    shop.tus().send(photo)
    path = f"/api/photos/{sha(photo)}"
    pim = shop.server.phone("photographer").client
    assert error_of(pim.get(path)) == (404, "not_found")
    thumb = jpeg(next(SEEDS), (20, 15))
    body = {
        "sha256": sha(photo), "bytes": len(photo), "type": "image/jpeg", "width": 320, "height": 240,
        "thumb": sha(thumb), "method": "", "digest": "", "step": "", "slot": "",
    }  # fmt: skip
    shop.server.office().post(f"/api/jobs/{shop.job}/entries", json={"kind": "photo", "body": body})
    assert pim.get(path).data == photo
    assert _put_thumb(shop, thumb).status_code == 204
    assert pim.get(f"/api/thumbs/{sha(thumb)}").data == thumb
    pulled = shop.server.office().get(f"/api/jobs/{shop.job}/entries").get_json()
    assert (pulled["photos_here"], pulled["thumbs_here"]) == ([sha(photo)], [sha(thumb)])


@pytest.mark.parametrize(
    ("thumb", "named", "status", "code"),
    [
        (jpeg(5, (20, 15)), "0" * 64, 422, "wrong_digest"),
        (b"<svg/>", "", 422, "not_a_photo"),
        (b"x" * 400_001, "", 413, "too_large"),
    ],
)
def test_a_thumbnail_is_judged_like_a_photo(
    shop: Shop, thumb: bytes, named: str, status: int, code: str
) -> None:
    assert error_of(_put_thumb(shop, thumb, named)) == (status, code)


def _put_thumb(shop: Shop, thumb: bytes, named: str = "") -> TestResponse:
    answer: TestResponse = shop.phone.client.put(f"/api/thumbs/{named or sha(thumb)}", data=thumb)
    return answer


def test_what_this_end_can_do_is_told(shop: Shop) -> None:
    answer = shop.phone.client.options("/api/photos")
    assert (answer.status_code, answer.headers["Tus-Extension"]) == (204, "creation")
