"""Rivets taken through their states one by one, group by group."""

from __future__ import annotations

from collections.abc import Iterator

from bayleaf.demo_scenario.bodies import Body
from bayleaf.demo_scenario.deeds import Climbed
from bayleaf.demo_scenario.stage import Stage
from bayleaf.domain.asks import TallyAsk
from bayleaf.domain.method import SETTING, TAKING_OUT


def climbs(stage: Stage, deed: Climbed) -> Iterator[Body]:
    """Position by position, every state that it was not in before, up to what the ask wants."""
    ask = stage.ask_of(deed.ask, TallyAsk)
    for position in deed.positions or stage.method.group_positions(ask.group):
        generation = _generation(stage, ask, position) if deed.generation is None else deed.generation
        for state in deed.states or _states(stage, ask, position, generation):
            yield {"position": position, "generation": generation, "state": state}


def _generation(stage: Stage, ask: TallyAsk, position: str) -> int:
    """What is taken out was found on the car; what is set is the newest since."""
    return 0 if ask.to in TAKING_OUT else max(1, stage.memory.generation(position))


def _states(stage: Stage, ask: TallyAsk, position: str, generation: int) -> tuple[str, ...]:
    """`in_place` is what a rivet is before anybody touches it, and is not recorded."""
    ladder = TAKING_OUT[1:] if ask.to in TAKING_OUT else SETTING
    before = stage.memory.deciding.get((position, generation))
    first = ladder.index(before.body["state"]) + 1 if before is not None else 0
    return ladder[first : ladder.index(ask.to) + 1]
