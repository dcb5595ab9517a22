"""A phone that will never see the network again: its records come as a file, with the same fates."""

from __future__ import annotations

import json
import tracemalloc
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest

from harness.at_work import Shop
from harness.pictures import jpeg, sha
from harness.record import TICK
from harness.server import error_of

PHOTO, THUMB = jpeg(900), jpeg(901, (20, 15))


def file_of(shop: Shop, *texts: str, **other: Any) -> bytes:
    """The file that the phone writes."""
    told = {
        "device": shop.phone.device,
        "made_ms": 1,
        "cards": [{"card": shop.phone.card, "signature": shop.phone.card_signature}],
        "heads": [asdict(shop.writer.head(shop.job))] if texts else [],
        "entries": list(texts),
        "refused": [],
        "photos": [{"sha256": sha(PHOTO), "type": "image/jpeg", "bytes": len(PHOTO), "job": shop.job}],
        "thumbs": [{"sha256": sha(THUMB), "bytes": len(THUMB)}],
        **other,
    }
    return b"bayleaf-handin-1\n" + json.dumps(told).encode() + b"\n" + PHOTO + THUMB


def hand_in(shop: Shop, file: bytes) -> Any:
    return shop.server.office().post("/api/handin", data=file, content_type="application/octet-stream")


def test_a_hand_in_is_taken_and_a_second_time_known(shop: Shop) -> None:
    texts = [shop.writer.write(shop.job), shop.writer.write(shop.job)]
    broken = shop.writer.write(shop.job, body={**TICK, "value": 3})
    file = file_of(shop, *texts, refused=[{"text": broken, "code": "broken_body"}])
    file = file.replace(asdict(shop.writer.head(shop.job))["signature"].encode(), b"0" * 128)
    signed = file_of(shop, *texts, heads=[asdict(shop.writer.head(shop.job, 2))])
    assert hand_in(shop, file).get_json()["set_aside"] == 2
    found = hand_in(shop, signed).get_json()
    assert (found["known"], found["set_aside"]) == (2, 0)
    assert (found["jobs"], found["devices"]) == ([shop.job], ["technician's phone"])
    pulled = shop.server.office().get(f"/api/jobs/{shop.job}/entries").get_json()
    kinds = [json.loads(one["text"])["kind"] for one in pulled["entries"]]
    assert kinds[-4:] == ["tick", "tick", "aside", "admit"]
    refused = shop.server.office().get(f"/api/jobs/{shop.job}/asides").get_json()["refused"]
    assert [one["text"] for one in refused] == [broken]


def test_photos_and_thumbnails_come_in_with_it_once(shop: Shop) -> None:
    photo, thumb = jpeg(902), jpeg(903, (20, 15))
    told = {
        "photos": [{"sha256": sha(photo), "type": "image/jpeg", "bytes": len(photo), "job": shop.job}],
        "thumbs": [{"sha256": sha(thumb), "bytes": len(thumb)}],
    }
    file = file_of(shop, shop.writer.write(shop.job), **told)
    file = file[: -len(PHOTO + THUMB)] + photo + thumb
    assert [hand_in(shop, file).get_json()["photos"] for _ in range(2)] == [1, 0]
    office = shop.server.parts.office
    assert office.photos.photo_bytes(sha(photo)) == photo
    assert office.photos.thumb(sha(thumb)) == thumb


@pytest.mark.parametrize(
    "spoil",
    [
        lambda file: b"",
        lambda file: b"PK\x03\x04" + file,
        lambda file: file[:40],
        lambda file: file[:-1],
        lambda file: file + b"x",
        lambda file: file.replace(b'"device"', b'"devise"', 1),
        lambda file: file.replace(b'"entries": []', b'"entries": [7]'),
        lambda file: file.replace(b'"made_ms": 1', b'"made_ms": [[[[[[['),
    ],
)
def test_a_file_that_was_cut_or_changed_is_no_hand_in(shop: Shop, spoil: Any) -> None:
    answer = hand_in(shop, spoil(file_of(shop)))
    assert error_of(answer) == (400, "broken_handin")


def test_a_file_whose_photo_was_changed_is_refused_whole(shop: Shop) -> None:
    photo, text = jpeg(904), shop.writer.write(shop.job)
    told = {"photos": [{"sha256": sha(photo), "type": "image/jpeg", "bytes": len(photo), "job": shop.job}]}
    file = file_of(shop, text, thumbs=[], **told)[: -len(PHOTO + THUMB)] + photo[:-3] + b"abc"
    assert error_of(hand_in(shop, file)) == (400, "broken_handin")
    assert not shop.server.parts.office.photos.held([sha(photo)])
    pulled = shop.server.office().get(f"/api/jobs/{shop.job}/entries").get_json()
    assert pulled["cursor"] == 4, "its entries are not in"


def test_a_picture_that_is_none_holds_up_nothing_else(shop: Shop) -> None:
    page, text = b"<html>no photo</html>", shop.writer.write(shop.job)
    told = {"photos": [{"sha256": sha(page), "type": "image/jpeg", "bytes": len(page), "job": shop.job}]}
    file = file_of(shop, text, thumbs=[], **told)[: -len(PHOTO + THUMB)] + page
    found = hand_in(shop, file).get_json()
    assert (found["taken"], found["photos"], found["pictures_refused"]) == (1, 0, 1)


def test_a_hand_in_is_never_held_in_memory_whole(shop: Shop, tmp_path: Path) -> None:
    photos = [jpeg(1000 + number, (900, 700)) for number in range(12)]
    told = {
        "photos": [
            {"sha256": sha(one), "type": "image/jpeg", "bytes": len(one), "job": shop.job} for one in photos
        ]
    }
    file = file_of(shop, shop.writer.write(shop.job), thumbs=[], **told)[: -len(PHOTO + THUMB)]
    place = tmp_path / "phone.bayleaf-handin"
    place.write_bytes(file + b"".join(photos))
    size = place.stat().st_size
    with place.open("rb") as body:
        tracemalloc.start()
        answer = shop.server.office().post(
            "/api/handin", input_stream=body, content_length=size, content_type="application/octet-stream"
        )
        most = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
    assert answer.get_json()["photos"] == 12
    assert most < size / 2


def test_a_phone_cannot_import_a_hand_in(shop: Shop) -> None:
    answer = shop.phone.client.post("/api/handin", data=file_of(shop))
    assert error_of(answer) == (403, "wrong_door")
