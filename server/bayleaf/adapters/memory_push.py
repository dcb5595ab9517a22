"""Subscriptions, settings and a way out that keeps what it was given, for tests."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace

from bayleaf.push_ports import Answer, Fate, Letter, Subscription

TAKEN = Answer(Fate.TAKEN)


@dataclass
class MemorySubscriptions:
    """The port Subscriptions."""

    kept: dict[str, Subscription] = field(default_factory=dict)
    called: dict[tuple[str, str], int] = field(default_factory=dict)

    def all(self) -> Sequence[Subscription]:
        """By device."""
        return sorted(self.kept.values(), key=lambda one: one.device)

    def find(self, device: str) -> Subscription | None:
        """That of a device."""
        return self.kept.get(device)

    def put(self, put: Subscription) -> None:
        """Add or replace."""
        self.kept = {one.device: one for one in self.kept.values() if one.endpoint != put.endpoint}
        self.kept[put.device] = put

    def forget(self, device: str, endpoint: str = "") -> None:
        """Forget it."""
        found = self.kept.get(device)
        if found is not None and endpoint in ("", found.endpoint):
            del self.kept[device]

    def note_trouble(self, device: str, trouble: str, now_ms: int) -> None:
        """Why the newest call was refused."""
        if device in self.kept:
            at_ms = now_ms if trouble else 0
            self.kept[device] = replace(self.kept[device], trouble=trouble, trouble_ms=at_ms)

    def sent(self, device: str, keys: Collection[str]) -> set[str]:
        """Those that it was called for."""
        return {key for key in keys if (device, key) in self.called}

    def note_sent(self, device: str, key: str, now_ms: int) -> None:
        """Once is enough."""
        self.called.setdefault((device, key), now_ms)

    def sweep(self, before_ms: int) -> None:
        """Forget what was sent long ago."""
        self.called = {one: at_ms for one, at_ms in self.called.items() if at_ms >= before_ms}


@dataclass
class MemorySettings:
    """The port Settings."""

    values: dict[str, str] = field(default_factory=dict)

    def get(self, name: str) -> str:
        """Empty where nobody set it."""
        return self.values.get(name, "")

    def put(self, name: str, value: str) -> None:
        """Add or replace."""
        self.values[name] = value


@dataclass
class MemoryNotifier:
    """The port Notifier: `answers` by device, `everyone` where none is given; `letters` as they went out."""

    public_key: str = "a key"
    answers: dict[str, Answer] = field(default_factory=dict)
    everyone: Answer = TAKEN
    letters: list[tuple[str, Letter]] = field(default_factory=list)

    def send(self, to: Subscription, letter: Letter) -> Answer:
        """Keep it."""
        self.letters.append((to.device, letter))
        return self.answers.get(to.device, self.everyone)
