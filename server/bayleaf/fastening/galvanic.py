"""Galvanic pairing: how far apart the materials stand that touch in a joint, and how careful to be.

Five electromotive groups after Niu, Airframe Structural Design; MIL-STD-889C table I gives aluminium
with graphite the highest need of protection. The words none, mild, moderate, strong are ours. Fasteners
should be the nobler metal, since a small anode in a large cathode goes first (MIL-STD-1250A, 5.6 f).
Model "galvanic-1".
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from bayleaf.fastening.refusal import Refused

MODEL: Final = "galvanic-1"
CARBON: Final = "carbon laminate"
ISOLATOR: Final = "glass ply"
GROUPS: Final[Mapping[str, int]] = {
    "magnesium": 1,
    "aluminium": 2,
    "zinc": 2,
    "steel": 3,
    "stainless steel": 4,
    "titanium": 4,
    CARBON: 5,
}
Caution = Literal["none", "mild", "moderate", "strong"]
_BY_GROUPS_APART: Final[tuple[Caution, ...]] = ("none", "mild", "moderate", "strong", "strong")
_ORDER: Final[tuple[Caution, ...]] = ("none", "mild", "moderate", "strong")
_STRONG_BESIDE_CARBON: Final = 2


@dataclass(frozen=True, slots=True)
class Pair:
    """Two materials that touch; the anode is the one that corrodes ("" if they are of one group)."""

    first: str
    second: str
    groups_apart: int
    caution: Caution
    anode: str


@dataclass(frozen=True, slots=True)
class Contact:
    """A pair in a joint: which two things touch, wet or dry, and what counts once that is known."""

    first: str
    second: str
    pair: Pair
    wet: bool

    @property
    def counts_as(self) -> Caution:
        """Dry and kept dry there is no electrolyte and so one word less; a strong pair stays strong."""
        if self.wet or self.pair.caution in ("none", "strong"):
            return self.pair.caution
        return _ORDER[_ORDER.index(self.pair.caution) - 1]


@dataclass(frozen=True, slots=True)
class JointPairing:
    """All pairs of a joint that touch, and whether the maker has to be asked before the rivet is set."""

    contacts: tuple[Contact, ...]
    worst: Pair
    worst_of_rivet: Pair
    small_anode: bool
    needs_maker: bool


def pair(first: str, second: str) -> Pair:
    """Two materials by their groups; symmetric. Refused names the materials that have a group."""
    apart = _group("first", first) - _group("second", second)
    caution = _BY_GROUPS_APART[abs(apart)]
    if abs(apart) >= _STRONG_BESIDE_CARBON and CARBON in (first, second):
        caution = "strong"
    anode = "" if apart == 0 else first if apart < 0 else second
    return Pair(first, second, abs(apart), caution, anode)


def rivet_pairing(rivet: str, layers: Sequence[str], *, wet: bool = True) -> JointPairing:
    """A rivet through layers, outside to inside; the rivet touches every layer, layers touch their
    neighbours.

    A glass ply has no group: what it parts does not touch. It isolates layers, never the rivet that goes
    through it. An aluminium rivet through carbon laminate needs the maker's word, whatever keeps it dry.
    """
    _group("rivet", rivet)
    for place, layer in enumerate(layers):
        if layer != ISOLATOR:
            _group(f"layers[{place}]", layer)
    through = [layer for layer in layers if layer != ISOLATOR]
    if not through:
        raise Refused("layers", list(layers), f"at least one of {', '.join(sorted(GROUPS))}")
    by_rivet = [Contact("rivet", layer, pair(rivet, layer), wet) for layer in through]
    by_layer = [Contact(a, b, pair(a, b), wet) for a, b in pairwise(layers) if ISOLATOR not in (a, b)]
    contacts = tuple(by_rivet + by_layer)
    worst_of_rivet = max((one.pair for one in by_rivet), key=_severity)
    return JointPairing(
        contacts,
        max((one.pair for one in contacts), key=_severity),
        worst_of_rivet,
        small_anode=worst_of_rivet.anode == rivet,
        needs_maker=rivet == "aluminium" and CARBON in through,
    )


def _severity(one: Pair) -> tuple[int, int]:
    return _ORDER.index(one.caution), one.groups_apart


def _group(field: str, material: str) -> int:
    if material not in GROUPS:
        raise Refused(field, material, f"one of {', '.join(sorted(GROUPS))}")
    return GROUPS[material]
