"""The photos: numbered through the report, each with its slot, time, person, device and hash."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final

from bayleaf.domain.asks import PhotoAsk
from bayleaf.domain.entries import Entry
from bayleaf.report.ledger import Ledger
from bayleaf.report.words import count, listed, short

NO_PLACE: Final = 10**6
NO_PICTURE: Final = -1
NOT_HERE: Final = "The picture never reached the office. Its record did, with this hash."


@dataclass(frozen=True)
class Album:
    """Every photo entry, struck ones too, in the order of steps and slots; its place here is its number."""

    ledger: Ledger

    @cached_property
    def entries(self) -> list[Entry]:
        out = self.ledger.out
        photos = [one for one in self.ledger.source.entries if one.kind == "photo" and one.hash not in out]
        return sorted(photos, key=self._order)

    @cached_property
    def numbers(self) -> dict[str, int]:
        return {entry.hash: number for number, entry in enumerate(self.entries, 1)}

    def _order(self, entry: Entry) -> tuple[int, int, int, str]:
        place = self.ledger.place(entry.body["method"], entry.body["step"])
        asks = [ask.id for ask in place.step.asks] if place else []
        slot = asks.index(entry.body["slot"]) if entry.body["slot"] in asks else NO_PLACE
        return place.number if place else NO_PLACE, slot, entry.at_ms, entry.hash

    def words_for(self, entries: list[Entry]) -> str:
        """`photos 3 and 4`."""
        numbers = sorted(self.numbers[entry.hash] for entry in entries)
        return f"photo{'s' * (len(numbers) > 1)} {listed([str(one) for one in numbers])}" if numbers else ""

    def rows(self) -> list[dict[str, Any]]:
        return [self._row(entry) for entry in self.entries]

    def pictures(self) -> list[dict[str, Any]]:
        """What the typesetter needs to find and name each picture; a picture of two photos stands once."""
        here = self.ledger.source.photos
        return [{"sha256": sha256, "type": here[sha256].type} for sha256 in self._places]

    @cached_property
    def _places(self) -> dict[str, int]:
        """The place of each picture in the list of pictures."""
        named = dict.fromkeys(entry.body["sha256"] for entry in self.entries)
        here = [sha256 for sha256 in named if sha256 in self.ledger.source.photos]
        return {sha256: place for place, sha256 in enumerate(here)}

    def _row(self, entry: Entry) -> dict[str, Any]:
        ledger, body = self.ledger, entry.body
        ask = ledger.ask_of(entry)
        place = ledger.place(body["method"], body["step"])
        held = {digest for slot in ledger.state["slots"] for digest in slot["photos"]}
        held |= set(ledger.state["loose_photos"])
        return {
            "number": self.numbers[entry.hash],
            "step": f"{place.number} {place.step.id}" if place else body["step"] or "no step",
            "slot": ledger.ask_name(entry) if body["slot"] else "without a slot",
            "show": ask.show if isinstance(ask, PhotoAsk) else "",
            "caption": str(body.get("caption", "")),
            "position": str(body.get("position", "")),
            "when": ledger.when(entry),
            "who": ledger.who(entry),
            "how": ledger.how_known(entry),
            "device": ledger.device(entry),
            "hash": short(body["sha256"]),
            "size": f"{body['width']} \u00d7 {body['height']}, {count(max(body['bytes'] // 1000, 1))} kB",
            "struck_by": ledger.struck_by(entry.hash),
            "late": ledger.late(entry),
            "struck": entry.hash in ledger.struck,
            "answers": entry.hash in held,
            "picture": self._places.get(body["sha256"], NO_PICTURE),
            "missing": "" if body["sha256"] in ledger.source.photos else NOT_HERE,
        }
