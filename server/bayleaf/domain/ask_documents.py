"""Reads the asks of a compiled method document, which the compiler has already checked."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, Final

from bayleaf.domain.asks import (
    RUN_PARTS,
    AnswerRef,
    Ask,
    ChoiceAsk,
    ComputeAsk,
    ComputeInput,
    CountersignAsk,
    HeatAsk,
    HeatSettings,
    LotAsk,
    Named,
    Option,
    PhotoAsk,
    ReadingAsk,
    RivetRow,
    TallyAsk,
    TextAsk,
    TickAsk,
    When,
)

Document = Mapping[str, Any]


def ask_of(ask: Document) -> Ask:
    """The typed ask of one ask of a compiled document."""
    return _ASKS[ask["kind"]](ask)


def named(items: Iterable[Mapping[str, str]]) -> tuple[Named, ...]:
    """Ids with their names, in the order given."""
    return tuple(Named(item["id"], item["name"]) for item in items)


def _when(ask: Document) -> When | None:
    return When(**ask["when"]) if "when" in ask else None


def _ref(ask: Document, member: str) -> AnswerRef | None:
    return AnswerRef(**ask[member]) if member in ask else None


def _tick(ask: Document) -> TickAsk:
    return TickAsk(ask["id"], ask["name"], when=_when(ask))


def _text(ask: Document) -> TextAsk:
    return TextAsk(ask["id"], ask["name"], when=_when(ask), of=ask.get("of", ""))


def _choice(ask: Document) -> ChoiceAsk:
    options = tuple(Option(**option) for option in ask["options"])
    return ChoiceAsk(ask["id"], ask["name"], options, when=_when(ask))


def _reading(ask: Document) -> ReadingAsk:
    plausible = ask.get("plausible")
    return ReadingAsk(
        ask["id"],
        ask["name"],
        ask["unit"],
        ask["decimals"],
        ask.get("min"),
        ask.get("max"),
        (plausible[0], plausible[1]) if plausible else None,
        named(ask.get("points", [])),
        against=_ref(ask, "against"),
        since=_ref(ask, "since"),
        when=_when(ask),
        where_needed=ask.get("where_needed", False),
    )


def _photo(ask: Document) -> PhotoAsk:
    return PhotoAsk(
        ask["id"],
        ask["name"],
        ask["show"],
        ask.get("deadline", ""),
        framing=ask.get("framing", ""),
        outline=ask.get("outline", ""),
        when=_when(ask),
    )


def _lot(ask: Document) -> LotAsk:
    return LotAsk(ask["id"], ask["name"], ask["of"], when=_when(ask))


def _tally(ask: Document) -> TallyAsk:
    return TallyAsk(ask["id"], ask["name"], ask["group"], ask["to"], when=_when(ask))


def _heat(ask: Document) -> HeatAsk:
    settings = HeatSettings(**{**ask["settings"], "release": tuple(ask["settings"]["release"])})
    return HeatAsk(
        ask["id"],
        ask["name"],
        ask["zone"],
        ask["purpose"],
        settings,
        parts=tuple(ask.get("parts", RUN_PARTS)),
        continues=_ref(ask, "continues"),
        when=_when(ask),
    )


def _countersign(ask: Document) -> CountersignAsk:
    return CountersignAsk(
        ask["id"], ask["name"], ask["of"], ask["other_device"], ask["at_the_car"], when=_when(ask)
    )


def _compute(ask: Document) -> ComputeAsk:
    return ComputeAsk(
        ask["id"],
        ask["name"],
        ask["computation"],
        tuple(ask.get("groups", ())),
        zone=ask.get("zone", ""),
        purpose=ask.get("purpose", ""),
        points=ask.get("points", ""),
        inputs=tuple(_input(one) for one in ask.get("inputs", ())),
        when=_when(ask),
    )


def _input(one: Document) -> ComputeInput:
    return ComputeInput(
        one["name"],
        sources=tuple(AnswerRef(**source) for source in one.get("from", ())),
        many=one.get("many", False),
        value=one.get("value"),
        unit=one.get("unit", ""),
        decimals=one.get("decimals", 0),
        text=one.get("text", ""),
        rows=tuple(RivetRow(**row) for row in one.get("rows", ())),
    )


_ASKS: Final[dict[str, Callable[[Document], Ask]]] = {
    "tick": _tick,
    "text": _text,
    "choice": _choice,
    "reading": _reading,
    "photo": _photo,
    "lot": _lot,
    "tally": _tally,
    "heat_run": _heat,
    "countersign": _countersign,
    "compute": _compute,
}
