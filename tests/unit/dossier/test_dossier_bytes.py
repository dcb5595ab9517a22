"""A dossier has no byte that could be another: not in its container, not in any member."""

from __future__ import annotations

import io
import json
import random
import struct
import zipfile
from pathlib import Path
from typing import Any

import bagit
import pytest

from bayleaf.adapters import dossier_zip
from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.signatures import verifies
from bayleaf.canonical.form import dumps
from bayleaf.domain.dossier import BAG_INFO, P256_ORDER, SEAL, DossierFault, Member, member_of, text_member
from bayleaf.usecases.check_dossier import SealShown, Verdict, check_dossier
from unit.dossier.shop import JOB, Shop, container, tiny_dossier

SHOP, DOSSIER = tiny_dossier()
SEED = 20_240_611


def check(dossier: bytes, seal: str = "") -> Verdict:
    return check_dossier(ContainerReader(io.BytesIO(dossier)), verifies, seal)


def changed(dossier: bytes, at: int, flip: int) -> bytes:
    return dossier[:at] + bytes([dossier[at] ^ flip]) + dossier[at + 1 :]


def bytes_of(member: Member) -> bytes:
    return b"".join(member.read())


def test_an_untouched_dossier_is_intact_and_names_what_could_be_shown_of_its_seal() -> None:
    assert check(DOSSIER).good
    assert check(DOSSIER).seal is SealShown.NOT_COMPARED
    assert check(DOSSIER, SHOP.fingerprint).seal is SealShown.SAME
    assert check(DOSSIER, "0" * 64).seal is SealShown.OTHER
    assert not check(DOSSIER, "0" * 64).good


def test_any_single_byte_changed_is_found_over_every_byte_of_a_dossier() -> None:
    chance = random.Random(SEED)
    missed = [
        (at, flip)
        for at in range(len(DOSSIER))
        for flip in (0x01, 0x80, chance.randrange(2, 0x80))
        if check(changed(DOSSIER, at, flip)).intact
    ]
    assert missed == []


@pytest.mark.parametrize("name", [member.name for member in SHOP.members()])
def test_a_byte_changed_in_a_member_is_found_where_the_container_was_made_to_fit(name: str) -> None:
    chance = random.Random(name)
    members = SHOP.members()
    content = next(bytes_of(member) for member in members if member.name == name)
    for at in sorted(chance.sample(range(len(content)), min(len(content), 60))):
        forged = member_of(name, changed(content, at, 1 << chance.randrange(8)))
        verdict = check(container([forged if member.name == name else member for member in members]))
        assert not verdict.intact, f"byte {at} of {name}"


@pytest.mark.parametrize("name", [member.name for member in SHOP.members()])
def test_a_member_left_out_is_found(name: str) -> None:
    assert not check(container([member for member in SHOP.members() if member.name != name])).intact


@pytest.mark.parametrize("folder", ["photos/{}.jpg", "drawings/{}.svg", "methods/{}.json"])
def test_a_member_added_is_found(folder: str) -> None:
    more = member_of(f"data/{folder.format('0' * 64)}", b"more")
    added = container(sorted([*SHOP.members(), more], key=lambda member: member.name))
    assert not check(added).intact


@pytest.mark.parametrize("name", [member.name for member in SHOP.members()])
def test_a_member_that_no_dossier_has_is_neither_written_nor_read(name: str) -> None:
    with pytest.raises(DossierFault, match="a member that a dossier does not have"):
        container([*SHOP.members(), member_of(f"{name}x", b"more")])
    renamed = DOSSIER.replace(name.encode(), f"{name[:-1]}~".encode())
    assert not check(renamed).intact


CUTS = {"0": 0, "1": 1, "29": 29, "30": 30, "500": 500,
        "half": len(DOSSIER) // 2, "22 less": len(DOSSIER) - 22, "1 less": len(DOSSIER) - 1}  # fmt: skip


@pytest.mark.parametrize("cut", CUTS.values(), ids=CUTS)
def test_a_dossier_cut_short_is_found(cut: int) -> None:
    assert not check(DOSSIER[:cut]).intact


@pytest.mark.parametrize("tail", [b"\0", b"PK", DOSSIER])
def test_bytes_after_the_end_or_before_the_start_are_found(tail: bytes) -> None:
    assert not check(DOSSIER + tail).intact
    assert not check(tail + DOSSIER).intact


@pytest.mark.parametrize(
    "otherwise",
    [
        {"compress_type": zipfile.ZIP_DEFLATED},
        {"date_time": (2024, 1, 1, 0, 0, 0)},
        {"comment": b"x"},
        {"extra": b"\x01\x00\x00\x00"},
        {"create_system": 3},
        {"external_attr": 0o600 << 16},
    ],
)
def test_a_zip_of_the_same_files_in_another_spelling_is_no_dossier(otherwise: dict[str, Any]) -> None:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as other:
        for member in SHOP.members():
            info = zipfile.ZipInfo(f"bayleaf-{JOB}/{member.name}")
            info.create_system = 0
            for key, found in otherwise.items():
                setattr(info, key, found)
            other.writestr(info, bytes_of(member))
    assert not check(file.getvalue()).intact


def test_the_order_of_members_is_fixed() -> None:
    members = SHOP.members()
    assert not check(container([members[1], members[0], *members[2:]])).intact


@pytest.mark.parametrize("folder", ["bayleaf-other", "..", "", "a/b"])
def test_a_bag_in_another_folder_is_found(folder: str) -> None:
    assert not check(container(SHOP.members(), folder)).intact


def test_a_size_over_the_members_cap_is_refused_before_it_is_read() -> None:
    header = bytearray(DOSSIER[:200])
    struct.pack_into("<II", header, 18, 0xF000_0000, 0xF000_0000)
    file = Counting(bytes(header) + b"\0" * 100_000)
    verdict = check_dossier(ContainerReader(file), verifies)
    assert verdict.faults == ("bag-info.txt: 4026531840 bytes, allowed are 4096",)
    assert file.taken < 200


def test_a_member_that_no_check_would_read_is_not_written() -> None:
    with pytest.raises(DossierFault, match=r"bag-info.txt: 4097 bytes, allowed are 4096"):
        container([member_of(BAG_INFO, b"x" * 4097)])


def test_many_members_together_cannot_fill_the_memory_of_a_check(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(dossier_zip, "MOST_KEPT", 5000)
    verdict = check_dossier(ContainerReader(io.BytesIO(DOSSIER)), verifies)
    assert "what is to be looked into has over 5000 bytes by here" in verdict.faults[0]


def test_the_container_is_read_once_and_front_to_back() -> None:
    file = Counting(DOSSIER)
    assert check_dossier(ContainerReader(file), verifies).intact
    assert file.taken == len(DOSSIER)


class Counting(io.BytesIO):
    """A file that can only be read on, and counts."""

    taken = 0

    def read(self, size: int | None = -1) -> bytes:
        found = super().read(size)
        self.taken += len(found)
        return found

    def seek(self, offset: int, whence: int = 0) -> int:
        raise AssertionError(f"sought {offset} {whence}")


def test_the_bag_is_valid_for_the_bagit_library_once_extracted(tmp_path: Path) -> None:
    with zipfile.ZipFile(io.BytesIO(DOSSIER)) as extracted:
        extracted.extractall(tmp_path)
    bag = bagit.Bag(str(tmp_path / f"bayleaf-{JOB}"))
    assert bag.validate()
    assert bag.info["External-Identifier"] == JOB


def test_the_same_members_make_the_same_bytes() -> None:
    members = SHOP.members()
    assert container(members) == container(members)


def test_the_seals_signature_has_one_spelling_though_another_would_verify() -> None:
    members = SHOP.members()
    seal = json.loads(next(bytes_of(member) for member in members if member.name == SEAL))
    r, s = seal["signature"][:64], int(seal["signature"][64:], 16)
    twin = text_member(SEAL, dumps({**seal, "signature": f"{r}{P256_ORDER - s:064x}"}))
    verdict = check(container([twin if member.name == SEAL else member for member in members]))
    assert verdict.faults == ("seal.json: its signature is not in its one spelling",)


def test_a_zip_that_is_none_of_ours_is_told_in_a_sentence() -> None:
    verdict = check(b"this is no zip at all, but some text that somebody named dossier.zip")
    assert verdict.seal is SealShown.BROKEN
    assert len(verdict.faults) == 1
    assert Shop().fingerprint not in verdict.faults[0]
