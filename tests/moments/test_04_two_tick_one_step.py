"""Moment 4. Offline, both answer rem-14 nine minutes apart, one "none", one "scratch in the coating".

The step is done, both names stay, and the contradiction is shown: the later answer must not quietly hide the
scratch.
"""

from __future__ import annotations

import pytest

from bayleaf.demo_scenario.cast import MARA, MARAS_PHONE, OSKAR, OSKARS_PHONE
from bayleaf.demo_scenario.deeds import Answer, Away, Back, Step
from moments.day import Day, findings, step_of

NONE, SCRATCH = "none", "scratch in the coating"


@pytest.mark.parametrize(("first", "second"), [(NONE, SCRATCH), (SCRATCH, NONE)])
def test_a_scratch_is_not_hidden_by_who_answers_later(day: Day, first: str, second: str) -> None:
    day.upto("rem-14")
    maras = Answer("marks", first, unheard=True, name="maras")
    oskars = Answer("marks", second, unheard=True, name="oskars")
    day.do("rem-14", "2 08:00", MARA, Away(MARAS_PHONE), Away(OSKARS_PHONE))
    done = Answer("", "done", unheard=True)
    day.play(
        Step("rem-14", "2 08:05", MARA, instead={"marks": (maras,)}, then=(done,), ticked=False, minutes=1)
    )
    day.play(
        Step("rem-14", "2 08:14", OSKAR, instead={"marks": (oskars,)}, then=(done,), ticked=False, minutes=1)
    )
    assert not [one for one in day.entries() if one.kind == "choice" and one.body["step"] == "rem-14"]
    day.do("rem-14", "2 09:30", OSKAR, Back(OSKARS_PHONE))
    day.do("rem-14", "2 09:40", MARA, Back(MARAS_PHONE))

    state = day.state()
    assert step_of(state, "rem-14")["done"] == "done"
    (register,) = (one for one in state["registers"] if (one["step"], one["ask"]) == ("rem-14", "marks"))
    assert register["standing"] == sorted([day.hash("maras"), day.hash("oskars")])
    named = [one["hashes"] for one in state["findings"] if one["at"] == ["removal", "rem-14", "marks"]]
    assert named == [register["standing"]]
    assert ("two_values", "removal", "rem-14", "marks") in findings(state)
    assert {day.entry("maras").by, day.entry("oskars").by} == {
        day.pens.people["mara"],
        day.pens.people["oskar"],
    }
    assert day.entry("oskars").at_ms - day.entry("maras").at_ms == 9 * 60_000
