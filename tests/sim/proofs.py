"""Which entries of a job valid signed heads cover, looked at from outside."""

from __future__ import annotations

import json
from collections.abc import Mapping

from bayleaf.adapters.signatures import verifies
from bayleaf.canonical.digest import text_hash
from bayleaf.domain.entries import NIL
from sim.phone_store import EntryRow
from sim.world import World


def let_in_by_hand(rows: list[EntryRow]) -> set[str]:
    """The office may admit what nobody has signed."""
    return {
        one
        for row in rows
        if row.kind == "admit" and row.parsed["by"] != NIL
        for one in row.parsed["body"]["hashes"]
    }


def uncovered(world: World, rows: list[EntryRow], heads: list[dict[str, object]]) -> set[str]:
    prevs = {row.hash: str(row.parsed["prev"]) for row in rows}
    keys = _public_keys(world)
    left = set(prevs)
    for head in heads:
        text = f"bayleaf-head-1\n{head['job']}\n{head['device']}\n{head['seq']}\n{head['hash']}"
        at = str(head["hash"])
        if at in prevs and verified(keys.get(str(head["device"]), ""), text, str(head["signature"])):
            while at in prevs and at in left:
                left.discard(at)
                at = prevs[at]
    return left


_VERIFIED: dict[str, bool] = {}


def verified(key: str, text: str, signature: str) -> bool:
    """Once for each: the same heads are looked at on every phone."""
    name = text_hash(key + text + signature)
    if name not in _VERIFIED:
        if len(_VERIFIED) > 100_000:
            _VERIFIED.clear()
        _VERIFIED[name] = verifies(key, text, signature)
    return _VERIFIED[name]


def _public_keys(world: World) -> Mapping[str, str]:
    """By the cards: a server that was put back has had other devices of its own."""
    cards = [card["card"] for phone in world.phones for card in phone.store.cards.values()]
    cards += [device.card for device in world.server.disk.log.on_disk.own_devices().values()]
    read = [json.loads(card) for card in cards]
    return {card["device"]: card["public_key"] for card in read}
