"""What calls by web push need of the outside: who wants them, what was sent, the way out, and settings."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol


@dataclass(frozen=True)
class Subscription:
    """How to call one device, and for what. Keys are base64url without padding, as browsers give them."""

    device: str
    endpoint: str
    p256dh: str
    auth: str
    runs: bool
    signs: bool
    made_ms: int
    trouble: str = ""
    trouble_ms: int = 0


class Subscriptions(Protocol):
    """The devices that want to be called, and what they were called for."""

    def all(self) -> Sequence[Subscription]:
        """By device."""

    def find(self, device: str) -> Subscription | None: ...
    def put(self, put: Subscription) -> None:
        """Add it, or replace that of its device; an older device of the same endpoint loses it."""

    def forget(self, device: str, endpoint: str = "") -> None:
        """Forget the device's; where an endpoint is named, only if it is still that one."""

    def note_trouble(self, device: str, trouble: str, now_ms: int) -> None:
        """Why its newest call was refused; empty once one was taken."""

    def sent(self, device: str, keys: Collection[str]) -> set[str]:
        """Those of the keys that this device was called for."""

    def note_sent(self, device: str, key: str, now_ms: int) -> None:
        """Once is enough."""

    def sweep(self, before_ms: int) -> None:
        """Forget what was sent before."""


class Settings(Protocol):
    """Plain settings of the shop; one that nobody set is empty."""

    def get(self, name: str) -> str: ...
    def put(self, name: str, value: str) -> None: ...


class Fate(StrEnum):
    """What became of a call."""

    TAKEN = "taken"
    GONE = "gone"
    REFUSED = "refused"
    LATER = "later"


@dataclass(frozen=True)
class Answer:
    """A push service's answer. `cause`: a sentence for who can mend it; `retry_s`: not before."""

    fate: Fate
    cause: str = ""
    retry_s: int = 0


@dataclass(frozen=True)
class Letter:
    """What goes out: `payload` is encrypted on the way, `topic` replaces a waiting one of the same topic."""

    payload: str
    contact: str
    topic: str
    ttl_s: int


class Notifier(Protocol):
    """The way out. `public_key`: the shop's VAPID key as browsers take it, base64url."""

    public_key: str

    def send(self, to: Subscription, letter: Letter) -> Answer:
        """Never raises for what the other side does."""


@dataclass(frozen=True)
class Calling:
    """All that the use cases of calling need, picked in app.py."""

    subscriptions: Subscriptions
    settings: Settings
    notifier: Notifier
