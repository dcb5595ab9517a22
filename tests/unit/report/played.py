"""Plays whole methods as a shop without trouble would: every ask answered, inside its limits, in order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bayleaf.domain.asks import (
    Ask,
    ChoiceAsk,
    ComputeAsk,
    CountersignAsk,
    HeatAsk,
    LotAsk,
    PhotoAsk,
    ReadingAsk,
    TallyAsk,
    TextAsk,
    TickAsk,
)
from bayleaf.domain.method import MethodDoc, StepDoc, method_of
from bayleaf.method_files import compile_methods
from unit.report.made_up import Log, at

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
MINUTE = 60_000


@dataclass
class Player:
    """Answers step after step; each answer takes a minute."""

    log: Log
    picture: Callable[[int], bytes]
    now_ms: int = at("3 07:00")
    runs: dict[tuple[str, str, str], tuple[str, int]] = field(default_factory=dict)
    saw: list[str] = field(default_factory=list)
    photos: int = 0

    def tick(self) -> int:
        self.now_ms += MINUTE
        return self.now_ms

    def play(self, method: MethodDoc) -> None:
        for step in method.steps():
            self.do(method, step)

    def do(self, method: MethodDoc, step: StepDoc) -> None:
        self.saw = []
        here = self.log.step(step.id)
        for ask in step.asks:
            if ask.when is None:
                self.answer(method, here, ask)
        self.log.write(
            "mara", self.tick(), "tick", {**here, "ask": "", "value": "done", "reason": "", "over": []}
        )

    def answer(self, method: MethodDoc, here: dict[str, str], ask: Ask) -> None:
        value = {**here, "ask": ask.id, "over": []}
        match ask:
            case TallyAsk():
                self.tally(method, ask)
            case HeatAsk():
                self.heat(method, here, ask)
            case ReadingAsk():
                self.read(value, ask)
            case PhotoAsk():
                self.photos += 1
                self.log.photo("pim", self.tick(), here["step"], ask.id, self.picture(self.photos))
            case LotAsk():
                lot = {"material": ask.of, "lot": f"{ask.of[:3].upper()}-{self.photos:03d}"}
                body = {**here, "ask": ask.id, **lot, "expires_ms": at("30 00:00")}
                self.log.write("mara", self.tick(), "lot", body)
            case CountersignAsk():
                body = {**here, "ask": ask.id, "saw": sorted(self.saw)}
                self.log.write("ada" if ask.of == "office" else "oskar", self.tick(), "countersign", body)
            case TickAsk() | TextAsk() | ChoiceAsk() | ComputeAsk():
                self.put(*_plain(value, ask))

    def put(self, kind: str, body: dict[str, Any]) -> None:
        self.saw.append(self.log.write("mara", self.tick(), kind, body))

    def read(self, value: dict[str, Any], ask: ReadingAsk) -> None:
        """In the middle of the limits; beside an earlier value, that value."""
        low, high = ask.min, ask.max
        chosen = (low + high) // 2 if low is not None and high is not None else low if high is None else high
        if ask.against is not None:
            chosen = 20_000 if ask.id == "falling" else chosen
        for point in ask.point_ids():
            figure = {"value": chosen if chosen is not None else 20_000, "unit": ask.unit}
            self.put("reading", {**value, "point": point, **figure, "decimals": ask.decimals})

    def tally(self, method: MethodDoc, ask: TallyAsk) -> None:
        generation = 0 if ask.to == "shank_out" else 1
        for position in method.group_positions(ask.group):
            body = {"position": position, "generation": generation, "state": ask.to}
            self.saw.append(self.log.write("mara", self.tick(), "tally", body))

    def heat(self, method: MethodDoc, here: dict[str, str], ask: HeatAsk) -> None:
        if ask.continues is None:
            self.begin(method, here, ask)
        if "release" in ask.parts:
            self.release(method, here, ask)

    def begin(self, method: MethodDoc, here: dict[str, str], ask: HeatAsk) -> None:
        zone = method.zone(ask.zone)
        assert zone is not None
        pads = [pad.id for pad in zone.pads]
        zone_of = {"zone": ask.zone, "purpose": ask.purpose, "pads": pads, "plan": ""}
        body = {**here, "ask": ask.id, "act": "on", **zone_of}
        on = self.log.write("mara", self.tick(), "heat", body)
        self.runs[(here["method"], here["step"], ask.id)] = (on, self.now_ms)
        self.now_ms += (1800 + ask.settings.soak_s + 600) * 1000
        for place, sensor in enumerate(zone.sensors):
            times = range(0, 2400 + ask.settings.soak_s, 240)
            points = [[1000 * s, self.curve(ask, sensor.of, place, s)] for s in times]
            what: dict[str, Any] = {
                "run": on,
                "sensor": sensor.id,
                "unit": "C",
                "decimals": ask.settings.decimals,
            }
            reading = {**what, "points": points, "run_doubt": False, "typed_time": False}
            self.log.write("mara", self.now_ms, "reading", reading)
        for act, seconds in (
            ("soaked", 1800 + ask.settings.soak_s),
            ("workable", 1860 + ask.settings.soak_s),
        ):
            self.act(on, act, seconds)

    @staticmethod
    def curve(ask: HeatAsk, of: str, place: int, seconds: int) -> int:
        """Up to seven degrees over the minimum within the ramp; metal warmer, the neighbour cool."""
        scale = 10**ask.settings.decimals
        low = ask.settings.lagging_min
        top = {"bond": low + (5 + 2 * place) * scale, "metal": low + 12 * scale, "neighbour": 45 * scale}[of]
        return int(20 * scale + (top - 20 * scale) * min(seconds, 1440) // 1440)

    def release(self, method: MethodDoc, here: dict[str, str], ask: HeatAsk) -> None:
        begun = ask.continues
        key = (begun.method, begun.step, begun.ask) if begun else (here["method"], here["step"], ask.id)
        on, on_ms = self.runs[key]
        zone = method.zone(ask.zone)
        assert zone is not None
        self.now_ms = max(self.now_ms, on_ms + (2700 + ask.settings.soak_s) * 1000)
        seconds = 1 + (self.now_ms - on_ms) // 1000
        for pad in ask.settings.release or tuple(pad.id for pad in zone.pads):
            self.act(on, "turn_down", seconds := seconds + 120, pad)
        for pad in [pad.id for pad in zone.pads]:
            self.act(on, "lift", seconds := seconds + 180, pad)
        self.act(on, "off", seconds + 10)
        self.act(on, "cold", seconds + 900)
        self.now_ms = on_ms + (seconds + 960) * 1000

    def act(self, on: str, act: str, seconds: int, pad: str = "") -> None:
        body = {"act": act, "run": on, "pad": pad, "run_ms": 1000 * seconds, "text": ""}
        body |= {"run_doubt": False, "typed_time": False}
        self.log.write("mara", self.tick(), "heat", body)


def _plain(
    value: dict[str, Any], ask: TickAsk | TextAsk | ChoiceAsk | ComputeAsk
) -> tuple[str, dict[str, Any]]:
    """Kind and body of an answer that needs no thought."""
    match ask:
        case TickAsk():
            return "tick", {**value, "value": "done", "reason": ""}
        case TextAsk():
            return "text", {**value, "point": "", "value": f"invented {ask.id}, due 2027-05"}
        case ChoiceAsk():
            option = next(one for one in ask.options if not one.stop)
            return "choice", {**value, "point": "", "option": option.id}
        case ComputeAsk():
            figure = {"name": "largest", "value": 12, "unit": "mm", "decimals": 1}
            model = {"computation": ask.computation, "model": "made-up 1", "inputs": [], "values": [figure]}
            return "result", {**value, "point": "", **model, "verdict": "inside"}


def rear_frame(picture: Callable[[int], bytes]) -> tuple[Log, dict[str, bytes]]:
    """The two shipped methods, played to the end; and their drawings by hash."""
    files = {path.name: path.read_bytes() for path in SEED.glob("*.svg")}
    compiled = compile_methods((SEED / "rear_frame.yaml").read_text(encoding="utf-8"), files)
    drawings = {sha256: svg for one in compiled for sha256, svg in one.drawings.items()}
    log = Log(methods=[one.document for one in compiled], drawings=frozenset(drawings))
    log.open(order="R-12", part="left half of the rear-aperture frame", vehicle="small electric minibus")
    player = Player(log, picture)
    for one in compiled:
        player.play(method_of(one.document))
    log.write("ada", player.tick(), "close", {"reason": "", "over": []})
    return log, drawings
