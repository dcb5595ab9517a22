"""The bodies of entries: what the wire's schemas ask for, from a deed and what was written before it."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_HALF_UP, Decimal
from typing import Any, Protocol

from bayleaf.demo_scenario.deeds import Answer, Plain
from bayleaf.domain.asks import Ask, ChoiceAsk, ReadingAsk, TextAsk, TickAsk
from bayleaf.domain.kinds import RegisterKey

Body = dict[str, Any]
DAY_MS = 86_400_000


class Shot(Protocol):
    """A photo that was taken: what an entry says of it."""

    @property
    def sha256(self) -> str: ...
    @property
    def bytes(self) -> int: ...
    @property
    def width(self) -> int: ...
    @property
    def height(self) -> int: ...
    @property
    def thumb(self) -> str: ...


def scaled(value: Plain, decimals: int) -> int:
    """A number as people write it, as an integer of that many decimals."""
    return int((Decimal(str(value)) * 10**decimals).quantize(Decimal(1), rounding=ROUND_HALF_UP))


def slug(words: str) -> str:
    """An option's id from its words, as the method language makes it."""
    return "_".join("".join(c if c.isalnum() else " " for c in words.lower()).split())


def kind_of(ask: Ask | None) -> str:
    """Which kind of entry answers an ask; a step's own tick has none."""
    match ask:
        case None | TickAsk():
            return "tick"
        case TextAsk():
            return "text"
        case ChoiceAsk():
            return "choice"
        case ReadingAsk():
            return "reading"
        case _:
            raise LookupError(f"{ask.id}: is answered by no value")


def value_body(place: Mapping[str, str], ask: Ask | None, deed: Answer, over: list[str]) -> Body:
    """Of a tick, text, choice or reading."""
    of = {**place, "ask": deed.ask, "over": over}
    match ask:
        case None | TickAsk():
            return {**of, "value": "done", "reason": ""}
        case TextAsk():
            return {**of, "point": deed.point, "value": str(deed.value)}
        case ChoiceAsk():
            option = slug(str(deed.value))
            if option not in {one.id for one in ask.options}:
                raise LookupError(f"{ask.id}: {deed.value} is none of its options")
            return {**of, "point": deed.point, "option": option}
        case ReadingAsk():
            value = scaled(deed.value, ask.decimals)
            return {**of, "point": deed.point, "value": value, "unit": ask.unit, "decimals": ask.decimals}
        case _:
            raise LookupError(f"{ask.id}: is answered by no value")


def value_key(place: Mapping[str, str], ask: Ask | None, deed: Answer) -> RegisterKey:
    """The register of such a value."""
    return (kind_of(ask), place["method"], place["step"], deed.ask, deed.point)


def photo_body(place: Mapping[str, str], slot: str, shot: Shot, caption: str = "") -> Body:
    """Of a photo in a slot."""
    body: Body = {**place, "slot": slot, "sha256": shot.sha256, "bytes": shot.bytes, "type": "image/jpeg"}
    body |= {"width": shot.width, "height": shot.height, "thumb": shot.thumb}
    return {**body, "caption": caption} if caption else body


def mark_body(position: str, generation: int, mark: str, piece: str, lost: str) -> Body:
    """Of a rivet mark."""
    return {"position": position, "generation": generation, "mark": mark, "piece": piece, "lost": lost}


def act_body(run: str, act: str, pad: str, run_ms: int, text: str, *, typed: bool) -> Body:
    """Of an act of a run after its `on`."""
    times = {"run_ms": run_ms, "run_doubt": typed, "typed_time": typed}
    return {"run": run, "act": act, "pad": pad, "text": text, **times}


def run_reading_body(run: str, sensor: str, points: list[list[int]], *, typed: bool = False) -> Body:
    """Of one sensor's readings in a run."""
    body: Body = {"run": run, "sensor": sensor, "unit": "C", "decimals": 0, "points": points}
    return {**body, "run_doubt": typed, "typed_time": typed}
