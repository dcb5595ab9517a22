"""Laws of the step's computations: monotone where nature is, and the same in any unit step."""

import math

from hypothesis import given
from hypothesis import strategies as st

from bayleaf.fastening.tally import Rivet
from bayleaf.step_computations import answer
from bayleaf.step_computations.figures import rounded
from bayleaf.step_computations.inputs import Earlier, Input, Moment, Points, Quantity, Rivets
from bayleaf.step_computations.question import Group, Question

TENTHS_C = st.integers(50, 400)


def value(question: Question, name: str) -> int:
    return next(one.value for one in answer(question).values if one.name == name)


def open_time(air: int, flange: int = 200) -> Question:
    return Question(
        "open_time",
        {
            "air": Quantity(air, "C", 1),
            "flange": Quantity(flange, "C", 1),
            "sheet_time": Quantity(35, "min", 0),
            "sheet_temperature": Quantity(23, "C", 0),
        },
    )


@given(TENTHS_C, st.integers(0, 100))
def test_warmer_never_leaves_more_open_time_and_never_more_than_the_sheet(air: int, warmer: int) -> None:
    assert value(open_time(air + warmer), "open_time") <= value(open_time(air), "open_time") <= 35


@given(TENTHS_C, TENTHS_C)
def test_it_does_not_matter_which_of_the_two_is_the_warmer(air: int, flange: int) -> None:
    assert value(open_time(air, flange), "open_time") == value(open_time(flange, air), "open_time")


def dew(air: int, humidity: int, surface: int, decimals: int = 1) -> Question:
    scale = 10 ** (decimals - 1)
    return Question(
        "dew_point_margin",
        {
            "air": Quantity(air * scale, "C", decimals),
            "humidity": Quantity(humidity, "%", 0),
            "surface": Quantity(surface * scale, "C", decimals),
            "least": Quantity(30 * scale, "K", decimals),
        },
    )


@given(TENTHS_C, st.integers(1, 99), TENTHS_C, st.integers(0, 50))
def test_a_warmer_surface_or_drier_air_never_has_less_margin(
    air: int, humidity: int, surface: int, more: int
) -> None:
    margin = value(dew(air, humidity, surface), "margin")
    assert value(dew(air, humidity, surface + more), "margin") >= margin
    assert value(dew(air, min(100, humidity + more), surface), "margin") <= margin


@given(TENTHS_C, st.integers(1, 100), TENTHS_C)
def test_the_same_reading_with_more_decimals_says_the_same(air: int, humidity: int, surface: int) -> None:
    tenths, hundredths = answer(dew(air, humidity, surface)), answer(dew(air, humidity, surface, 2))
    assert tenths.values == hundredths.values
    assert tenths.verdict == hundredths.verdict


@given(st.integers(0, 300), st.integers(0, 100))
def test_more_edge_never_has_less_room(edge: int, more: int) -> None:
    def room(tenths: int) -> int:
        inputs: dict[str, Input] = {
            "edge": Quantity(tenths, "mm", 1),
            "nominal": Quantity(48, "mm", 1),
            "least": Quantity(2, "diameters", 0),
        }
        return value(Question("edge_distance", inputs), "room")

    assert room(edge + more) == room(edge) + more


@given(st.integers(600, 6000), st.integers(50, 400), st.integers(0, 200))
def test_a_colder_cure_is_never_farther(minutes: int, coldest: int, colder: int) -> None:
    def equivalent(tenths_C: int) -> int:
        inputs: dict[str, Input] = {
            "started": Moment(0),
            "coldest": Quantity(tenths_C, "C", 1),
            "handling_time": Quantity(16, "h", 0),
            "full_time": Quantity(96, "h", 0),
            "sheet_temperature": Quantity(23, "C", 0),
            "activation_energy": Quantity(60, "kJ/mol", 0),
        }
        question = Question("cure_progress", inputs, asked_at_ms=minutes * 60_000)
        return value(question, "equivalent")

    assert equivalent(coldest - colder) <= equivalent(coldest)


@given(st.lists(st.integers(50, 250), min_size=1, max_size=8), st.permutations(range(8)))
def test_the_order_of_gaps_changes_no_grip(gaps: list[int], order: list[int]) -> None:
    def grip(read: list[int]) -> object:
        inputs: dict[str, Input] = {
            "laminate": Points((("post", 320),), "mm", 2),
            "bondline": Points(tuple((f"p{i}", gap) for i, gap in enumerate(read)), "mm", 2),
            "flange": Quantity(300, "mm", 2),
            "grip_from": Quantity(65, "mm", 1),
            "grip_to": Quantity(85, "mm", 1),
        }
        return answer(Question("grip", inputs, groups=(Group("post", ("P1",)),)))

    shuffled = [gaps[i] for i in order if i < len(gaps)]
    assert grip(shuffled) == grip(gaps)


@given(st.integers(0, 20), st.integers(0, 20), st.integers(0, 20))
def test_a_surplus_of_one_kind_never_makes_up_for_another(heads: int, mandrels: int, shanks: int) -> None:
    rivets = Rivets("taking_out", tuple(Rivet(f"P{i}", 0, "shank_out", ()) for i in range(10)))
    counted = {"heads": heads, "mandrels": mandrels, "shanks": shanks}
    inputs: dict[str, Input] = {
        "tallies": rivets,
        **{name: Quantity(one, "pcs", 0) for name, one in counted.items()},
    }
    group = Group("post", tuple(f"P{i}" for i in range(10)))
    found = answer(Question("tally_reconciliation", inputs, groups=(group,)))
    assert (found.verdict == "inside") == (heads == mandrels == shanks == 10)


@given(st.integers(1, 60), st.integers(0, 100))
def test_spares_are_never_fewer_than_their_share(positions: int, percent: int) -> None:
    inputs: dict[str, Input] = {
        "positions": Quantity(positions, "pcs", 0),
        "grip": Earlier("grip", (), "inside", 0),
        "spares": Quantity(percent, "%", 0),
        "least_spares": Quantity(2, "pcs", 0),
    }
    group = Group("post", tuple(f"P{i}" for i in range(positions)))
    found = answer(Question("pick_list", inputs, groups=(group,)))
    spares = next(one.value for one in found.values if one.name == "spares")
    assert spares == max(2, math.ceil(positions * percent / 100))


@given(st.integers(-10_000, 10_000))
def test_rounding_is_symmetric_and_takes_a_half_away_from_zero(steps: int) -> None:
    half = (2 * steps + 1) / 20
    assert rounded(half, 1) == (steps + 1 if steps >= 0 else steps)
    assert rounded(-half, 1) == -rounded(half, 1)
