"""A dossier filed by an earlier fold: seal, chains and photos are checked, its card state is not."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

from bayleaf.adapters.dossier_zip import ContainerReader
from bayleaf.adapters.signatures import verifies
from bayleaf.canonical.form import dumps
from bayleaf.domain import dossier
from bayleaf.domain.dossier import Member, text_member
from bayleaf.usecases.check_dossier import Verdict, check_dossier
from bayleaf.usecases.dossier_contents import payload_of
from unit.dossier.shop import PHOTO, Shop, container

NOT_FOLDED = "card state not folded anew: filed by fold 1, this program has 2"


def check(members: Sequence[Member]) -> Verdict:
    return check_dossier(ContainerReader(io.BytesIO(container(members))), verifies)


def filed_by_fold_one(shop: Shop, **other: Any) -> list[Member]:
    """As the earlier program sealed it, with a digest of the card state as that one folded it."""
    about, payload = payload_of(shop.gathered(), shop.fingerprint, lambda _: PHOTO)
    about |= {"fold": 1, "state_digest": "1" * 64, **other}
    told = [
        text_member(dossier.ABOUT, dumps(about)) if member.name == dossier.ABOUT else member
        for member in payload
    ]
    return shop.sealed(about, told)


def test_it_is_intact_and_says_that_its_card_state_was_not_folded_anew() -> None:
    verdict = check(filed_by_fold_one(Shop().work().file()))
    assert verdict.good
    assert verdict.notes[0] == NOT_FOLDED


def test_a_dossier_of_this_fold_says_no_such_thing() -> None:
    assert NOT_FOLDED not in check(Shop().work().file().members()).notes


def test_all_else_of_it_is_still_checked() -> None:
    shop = Shop().work().file()
    faults = check(filed_by_fold_one(shop, set_digest="2" * 64)).faults
    assert faults
    assert not any("card state" in fault for fault in faults)
