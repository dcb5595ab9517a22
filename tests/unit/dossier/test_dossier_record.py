"""What a dossier shows of the record: nothing dropped, cut, removed or signed by other keys goes unseen."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import pytest

from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.signatures import PrivateKey, verifies
from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import dumps
from bayleaf.domain import dossier
from bayleaf.domain.dossier import Member, text_member
from bayleaf.domain.entries import read_entry
from bayleaf.usecases.check_dossier import SealShown, Verdict, check_dossier
from bayleaf.usecases.dossier_contents import Gathered, payload_of
from unit.dossier.shop import DRAWING, PHOTO, Shop, container, tiny_dossier


def check(members: Sequence[Member], seal: str = "") -> Verdict:
    return check_dossier(ContainerReader(io.BytesIO(container(members))), verifies, seal)


def rebuilt(shop: Shop, texts: Sequence[str]) -> list[Member]:
    """The dossier of these entries with manifests and figures to match, sealed by the shop's key."""
    shop.texts = list(texts)
    return shop.members()


def with_seal_of(members: Sequence[Member], original: Sequence[Member]) -> list[Member]:
    """As a forger without the seal key has it: everything made to fit, but the seal kept."""
    seal = next(member for member in original if member.name == dossier.SEAL)
    return [seal if member.name == dossier.SEAL else member for member in members]


def parts_of(gathered: Gathered, shop: Shop) -> tuple[dict[str, Any], list[Member]]:
    return payload_of(gathered, shop.fingerprint, lambda _: PHOTO)


CUTS: dict[str, Callable[[list[str]], list[str]]] = {
    "an entry dropped": lambda texts: [text for number, text in enumerate(texts) if number != 2],
    "a tail cut": lambda texts: [text for number, text in enumerate(texts) if number != 5],
    "a chain removed": lambda texts: [text for number, text in enumerate(texts) if number not in {4, 5}],
    "the file entry removed": lambda texts: texts[:-1],
    "an entry moved": lambda texts: [texts[1], texts[0], *texts[2:]],
}


@pytest.mark.parametrize("cut", CUTS)
def test_entries_dropped_by_whoever_lacks_the_seal_key_are_found(cut: str) -> None:
    shop = Shop().work().file()
    original = shop.members()
    forged = with_seal_of(rebuilt(shop, CUTS[cut](list(shop.texts))), original)
    verdict = check(forged, shop.fingerprint)
    assert not verdict.intact
    assert verdict.seal is SealShown.BROKEN


@pytest.mark.parametrize(
    ("cut", "sentence"),
    [
        ("a tail cut", "the tail differs"),
        ("a chain removed", "a chain was removed"),
        ("the file entry removed", "the last entry is not the file entry"),
    ],
)
def test_the_file_entry_tells_of_a_cut_even_under_the_right_seal(cut: str, sentence: str) -> None:
    shop = Shop().work().file()
    filed = shop.texts[-1]
    shop.texts = CUTS[cut](list(shop.texts))
    about, payload = parts_of(shop.gathered(), shop)
    about = {**about, "file": read_entry(filed).hash}
    kept = [text_member(dossier.ABOUT, dumps(about)) if m.name == dossier.ABOUT else m for m in payload]
    verdict = check(shop.sealed(about, kept))
    assert any(sentence in fault for fault in verdict.faults), verdict.faults


def test_all_keys_replaced_is_found_with_the_seals_fingerprint_and_only_with_it() -> None:
    honest, _ = tiny_dossier()
    forger = Shop().work().file().members()
    assert check(forger).good
    assert check(forger).seal is SealShown.NOT_COMPARED
    verdict = check(forger, honest.fingerprint)
    assert verdict.intact
    assert verdict.seal is SealShown.OTHER
    assert not verdict.good


def test_a_head_signed_by_another_key_is_found() -> None:
    shop = Shop().work().file()
    shop.mara.key, kept = PrivateKey.new(), shop.mara.key
    gathered = shop.gathered()
    shop.mara.key = kept
    cards = {writer.id: writer.card(shop.seal) for writer in shop.writers}
    about, payload = parts_of(replace(gathered, cards=cards), shop)
    assert any("its signature does not hold" in fault for fault in check(shop.sealed(about, payload)).faults)


def test_a_card_signed_by_another_seal_is_found() -> None:
    shop = Shop().work().file()
    cards = {writer.id: writer.card(PrivateKey.new()) for writer in shop.writers}
    about, payload = parts_of(replace(shop.gathered(), cards=cards), shop)
    faults = check(shop.sealed(about, payload)).faults
    assert len(faults) == 3
    assert all("not signed by this dossier's seal key" in fault for fault in faults)


def test_another_card_state_than_the_entries_give_is_found() -> None:
    shop = Shop().work().file()
    gathered = shop.gathered()
    other = replace(gathered, state={**gathered.state, "count": 99})
    about, payload = parts_of(other, shop)
    assert any("card state" in fault for fault in check(shop.sealed(about, payload)).faults)


def test_a_photo_that_no_entry_names_and_one_that_is_not_here_are_found() -> None:
    shop = Shop().work().file()
    about, payload = parts_of(shop.gathered(), shop)
    without = [member for member in payload if not member.name.startswith("data/photos/")]
    assert any(
        "named by an entry and not here" in fault for fault in check(shop.sealed(about, without)).faults
    )
    stranger = Member(
        dossier.photo_name("0" * 64, "image/png"), sha256_hex(DRAWING), len(DRAWING), lambda: (DRAWING,)
    )
    faults = check(shop.sealed(about, [*payload, stranger])).faults
    assert any("named by no entry" in fault for fault in faults)
    assert any("its bytes have the digest" in fault for fault in faults)


def test_a_photo_that_had_not_arrived_at_filing_is_a_note_and_no_fault() -> None:
    shop = Shop().work().file()
    gathered = replace(shop.gathered(), photos=[], photos_missing=[sha256_hex(PHOTO)])
    about, payload = parts_of(gathered, shop)
    verdict = check(shop.sealed(about, payload))
    assert verdict.good
    assert "photos that never arrived: 1" in verdict.notes


def test_a_gap_that_was_there_at_filing_is_a_note_and_no_fault() -> None:
    shop = Shop().work()
    del shop.texts[2]
    shop.file()
    gathered = replace(shop.gathered(), photos=[])
    about, payload = parts_of(gathered, shop)
    verdict = check(shop.sealed(about, payload))
    assert verdict.good, verdict.faults
    assert f"chain {shop.mara.id}: 1 to 1 never arrived" in verdict.notes


def test_a_fork_is_filed_with_both_its_branches() -> None:
    shop = Shop().work()
    restored = replace(shop.mara, texts=shop.mara.texts[:1], last=read_entry(shop.mara.texts[0]).hash)
    shop.texts.append(restored.write("clock", {"what": "stepped", "jump_ms": 9}))
    shop.file()
    gathered = shop.gathered()
    both = replace(gathered, heads=[*gathered.heads, restored.head()])
    verdict = check(shop.sealed(*parts_of(both, shop)))
    assert verdict.good, verdict.faults
    assert not any("without a signed head" in note for note in verdict.notes)


def test_hostile_entries_that_no_schema_took_are_a_fault_and_no_crash() -> None:
    shop = Shop().work()
    honest = shop.gathered()
    shop.texts.append(shop.mara.write("tick", {"step": 7}))
    shop.texts.append(shop.mara.write("photo", {"sha256": [], "type": {}}))
    shop.file()
    heads = [writer.head() for writer in shop.writers]
    texts = "".join(f"{text}\n" for text in shop.texts)
    about, payload = parts_of(replace(honest, heads=heads), shop)
    forged = [text_member(dossier.ENTRIES, texts) if m.name == dossier.ENTRIES else m for m in payload]
    verdict = check(shop.sealed(about, forged))
    assert any("not in their form" in fault for fault in verdict.faults), verdict.faults


def test_a_hostile_word_about_itself_is_a_fault_and_no_crash() -> None:
    shop = Shop().work().file()
    about, payload = parts_of(shop.gathered(), shop)
    hostile = {**about, "gaps": [7], "photos_missing": [{}], "filed_ms": 2**53 - 1}
    forged = [text_member(dossier.ABOUT, dumps(hostile)) if m.name == dossier.ABOUT else m for m in payload]
    assert not check(shop.sealed(about, forged)).intact


def test_the_report_says_invented_names_the_seal_and_gives_no_line_to_written_text() -> None:
    shop, _ = tiny_dossier()
    report = next(m for m in shop.members() if m.name == dossier.REPORT)
    text = b"".join(report.read()).decode()
    assert "INVENTED" in text
    assert shop.fingerprint[:4] in text
    assert "\nline" not in text
    assert "Mara Ilves" in text
