"""What became of an entry that was brought: taken, set aside or refused."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from bayleaf.ports import SignedHead


class Fate(StrEnum):
    """The three."""

    TAKEN = "taken"
    SET_ASIDE = "set_aside"
    REFUSED = "refused"


@dataclass(frozen=True)
class FateOf:
    """The fate of the entry at `index` of what was brought; `known`: it was here before."""

    index: int
    job: str
    hash: str
    fate: Fate
    code: str = ""
    message: str = ""
    field: str = ""
    known: bool = False


@dataclass(frozen=True)
class ShownCard:
    """A device card with its signature by the seal."""

    text: str
    signature: str


@dataclass(frozen=True)
class DeviceClock:
    """What the clocks of the bringing device showed when it asked."""

    load: str
    at_ms: int
    mono_ms: int


@dataclass(frozen=True)
class Brought:
    """What a device, or a hand-in, lays on the counter. `settles`: it says that nothing else is unsent."""

    texts: Sequence[str]
    heads: Sequence[SignedHead] = ()
    cards: Sequence[ShownCard] = ()
    clock: DeviceClock | None = None
    settles: bool = False
    log: str = ""
    heard: Mapping[str, int] = field(default_factory=dict)
    """How many entries of each job the device has heard of that log."""
