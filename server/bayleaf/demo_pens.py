"""Plays the invented rear-frame jobs into a shop, as its phones and its office would have written them.

Every entry of a phone comes in through `receive_entries` with a head signed by that phone's own key, every
photo through an upload, and what the office did through the server's own pen. Only the clock is turned.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from io import BytesIO
from typing import Any, Protocol
from uuid import uuid4

from PIL import Image

from bayleaf.adapters.signatures import PrivateKey
from bayleaf.canonical.digest import sha256_hex
from bayleaf.demo_photos import demo_photo
from bayleaf.demo_scenario.cast import DESK
from bayleaf.demo_scenario.chain_pens import ChainPen
from bayleaf.demo_scenario.deeds import Hand
from bayleaf.domain.entries import Entry, read_entry
from bayleaf.photo_ports import Upload
from bayleaf.ports import Caller, SignedHead
from bayleaf.usecases.fates import Brought, DeviceClock, Fate
from bayleaf.usecases.office import Office
from bayleaf.usecases.receive_entries import receive_entries
from bayleaf.usecases.receive_photo import add_to_upload, begin_upload, put_thumb
from bayleaf.usecases.server_pen import Draft
from bayleaf.usecases.write_office_entry import write_office_entries

THUMB_PX = 320
SIGNAL_EVERY_MS = 90 * 60_000


class Turned(Protocol):
    """A clock that stands where it was turned to."""

    at_ms: int


@dataclass
class TurnedClock:
    """The port Clock, turned to when each thing was done."""

    at_ms: int
    load: str = field(default_factory=lambda: str(uuid4()))

    def now_ms(self) -> int:
        return self.at_ms

    def mono_ms(self) -> int:
        return self.at_ms


@dataclass(frozen=True)
class PastPhone:
    """A phone that the demo's people used before anybody looked: its id, person and key."""

    device: str
    person: str
    key: PrivateKey


@dataclass(frozen=True)
class Shot:
    """A drawn photo with its thumbnail."""

    content: bytes
    small: bytes
    width: int
    height: int

    @property
    def sha256(self) -> str:
        return sha256_hex(self.content)

    @property
    def bytes(self) -> int:
        return len(self.content)

    @property
    def thumb(self) -> str:
        return sha256_hex(self.small)


@dataclass
class DrawnPhotos:
    """The darkroom of the demo: drawn photos, each with a thumbnail made once."""

    shots: dict[str, Shot] = field(default_factory=dict)

    def shot(self, method: str, step: str, slot: str) -> Shot:  # noqa: ARG002  (a step's id is one of all)
        name = f"{step}-{slot}"
        if name not in self.shots:
            self.shots[name] = _shot(demo_photo(step, slot))
        return self.shots[name]

    def by_hash(self, sha256: str) -> Shot:
        return next(one for one in self.shots.values() if one.sha256 == sha256)


def _shot(content: bytes) -> Shot:
    picture = Image.open(BytesIO(content))
    width, height = picture.size
    picture.draft("RGB", (THUMB_PX, THUMB_PX))
    picture.thumbnail((THUMB_PX, THUMB_PX))
    small = BytesIO()
    picture.save(small, "JPEG", quality=70)
    return Shot(content, small.getvalue(), width, height)


@dataclass
class _Unsent:
    """A phone's chain in this job, and how much of it the office has."""

    pen: ChainPen
    sent: int = 0
    away: bool = False


@dataclass
class ShopPens:
    """The pens of a scenario in a shop: phones with chains of their own, the office's desk by the server."""

    office: Office
    clock: Turned
    job: str
    people: Mapping[str, str]
    phones: Mapping[str, PastPhone]
    photos: DrawnPhotos
    _handed_in_ms: int = 0
    _chains: dict[str, _Unsent] = field(init=False)

    def __post_init__(self) -> None:
        self._chains = {
            name: _Unsent(ChainPen(self.job, phone.device, self.people))
            for name, phone in self.phones.items()
        }

    def write(self, hand: Hand, at_ms: int, kind: str, body: Mapping[str, Any]) -> Entry:
        """On a phone; or at the desk, which sees what the phones in reach have written."""
        if hand.device != DESK:
            return self._chains[hand.device].pen.write(hand, at_ms, kind, body)
        self.hand_in(at_ms)
        self.clock.at_ms = max(at_ms, self.clock.at_ms)
        return self.at_the_desk(hand, kind, body)

    def at_the_desk(self, hand: Hand, kind: str, body: Mapping[str, Any]) -> Entry:
        """The office writes through the server."""
        person = self.people[hand.person]
        written = write_office_entries(self.office, self.job, person, [Draft(kind, body)])
        return read_entry(written[0].text)

    def away(self, device: str) -> None:
        self._chains[device].away = True

    def back(self, device: str, at_ms: int) -> None:
        self._chains[device].away = False
        self.hand_in(at_ms)

    def pause(self, at_ms: int) -> None:
        """Phones come by a spot with signal now and then, not after every step."""
        if at_ms - self._handed_in_ms >= SIGNAL_EVERY_MS:
            self.hand_in(at_ms)

    def hand_in(self, at_ms: int) -> None:
        """Every phone in reach hands in what it has."""
        self._handed_in_ms = at_ms
        for name, chain in self._chains.items():
            if not chain.away and chain.sent < len(chain.pen.texts):
                self._bring(self.phones[name], chain, at_ms)

    def _bring(self, phone: PastPhone, chain: _Unsent, at_ms: int) -> None:
        self.clock.at_ms = max(at_ms, chain.pen.last_ms)
        texts, head, clock = self._push(phone, chain)
        brought = Brought(texts, [head], clock=clock, settles=True)
        for fate in receive_entries(self.office, phone.device, brought):
            assert fate.fate is Fate.TAKEN, fate  # noqa: S101  (the scenario is ours)
        self.office.devices.heard(phone.device, self.clock.at_ms, 0, 0)
        chain.sent = len(chain.pen.texts)
        for entry in map(read_entry, texts):
            if entry.kind == "photo":
                self._upload(phone, self.photos.by_hash(entry.body["sha256"]))

    def _push(self, phone: PastPhone, chain: _Unsent) -> tuple[list[str], SignedHead, DeviceClock]:
        """What a phone sends: its unsent entries, the newest one signed, and what its clocks show now."""
        texts = chain.pen.texts[chain.sent :]
        newest = read_entry(texts[-1])
        bare = SignedHead(self.job, phone.device, newest.seq, newest.hash, "")
        now_ms = self.clock.at_ms
        clock = DeviceClock(newest.load, now_ms, newest.mono_ms + now_ms - newest.at_ms)
        return texts, replace(bare, signature=phone.key.sign(bare.text)), clock

    def _upload(self, phone: PastPhone, shot: Shot) -> None:
        caller = Caller("device", phone.device, phone.person)
        claimed = Upload("", shot.sha256, shot.bytes, "image/jpeg", self.job, "", 0)
        begun = begin_upload(self.office, caller, claimed)
        if begun.offset < begun.bytes:
            add_to_upload(self.office, caller, begun.id, 0, [shot.content])
        put_thumb(self.office, shot.thumb, shot.small)
