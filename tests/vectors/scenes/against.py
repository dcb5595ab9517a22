"""Readings held against an earlier one, and needs of other methods' steps."""

from vectors.scene import Expect, Scene, findings, found, vector

FIRST, AFTER, ACROSS = "asked:first", "asked:compare", "asked:across"
# `after` at p and q: within 0.5 mm of `before` either way; `far`: at least `gap` of the method values


def _before(s: Scene, p: int, q: int) -> None:
    s.tech.reading(FIRST, "before", p, "p")
    s.tech.reading(FIRST, "before", q, "q")


@vector("A reading is judged by its difference to the earlier one, point by point, limits inclusive", "asked")
def a_difference_within_the_limits_is_inside(s: Scene) -> Expect:
    s.office.pin("asked")
    _before(s, 17000, 20000)
    s.tech.reading(AFTER, "after", 17005, "p")
    s.tech.reading(AFTER, "after", 19995, "q")
    return {"steps[step=compare]/hold": "passed", "findings": []}


@vector("A difference outside the limits is found at its point, and holds the hold", "asked")
def a_difference_outside_the_limits_is_found_at_its_point(s: Scene) -> Expect:
    s.office.pin("asked")
    _before(s, 17000, 20000)
    s.tech.reading(AFTER, "after", 17000, "p")
    after = s.tech.reading(AFTER, "after", 20006, "q")
    return {
        "steps[step=compare]/open": [],
        "steps[step=compare]/hold": "held",
        "findings": findings(found("outside_limits", ["asked", "compare", "after", "q"], after)),
    }


@vector("Each point is held against its own earlier value, and against no other's", "asked")
def points_are_not_compared_crosswise(s: Scene) -> Expect:
    s.office.pin("asked")
    _before(s, 100, 200)
    p = s.tech.reading(AFTER, "after", 200, "p")
    q = s.tech.reading(AFTER, "after", 100, "q")
    at = ["asked", "compare", "after"]
    return {
        "findings": findings(found("outside_limits", [*at, "p"], p), found("outside_limits", [*at, "q"], q))
    }


@vector("Without the earlier value at its point a reading has nothing to compare with", "asked")
def a_missing_earlier_value_leaves_nothing_to_compare(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.reading(FIRST, "before", 100, "p")
    s.tech.reading(AFTER, "after", 100, "p")
    after = s.tech.reading(AFTER, "after", 100, "q")
    return {
        "steps[step=compare]/open": [],
        "steps[step=compare]/hold": "held",
        "findings": findings(found("nothing_to_compare", ["asked", "compare", "after", "q"], after)),
    }


@vector("An earlier value that is struck later leaves nothing to compare with", "asked", "values")
def a_struck_earlier_value_leaves_nothing_to_compare(s: Scene) -> Expect:
    s.office.pin("asked", "values")
    gap = s.tech.reading("values:measure", "gap", 12)
    far = s.tech.reading(ACROSS, "far", 12)
    s.tech.strike(gap)
    return {"findings": findings(found("nothing_to_compare", ["asked", "across", "far"], far))}


@vector("The earlier value may be another method's", "asked", "values")
def a_reading_may_be_held_against_another_methods(s: Scene) -> Expect:
    s.office.pin("values", "asked")
    s.tech.reading("values:measure", "gap", 12)
    s.tech.reading(ACROSS, "far", 12)
    return {"steps[step=across]/hold": "passed", "findings": []}


@vector("A value below another method's earlier one is found where that is the least", "asked", "values")
def a_reading_below_another_methods_is_found(s: Scene) -> Expect:
    s.office.pin("values", "asked")
    s.tech.reading("values:measure", "gap", 12)
    far = s.tech.reading(ACROSS, "far", 11)
    return {
        "steps[step=across]/hold": "held",
        "findings": findings(found("outside_limits", ["asked", "across", "far"], far)),
    }


@vector("A corrected earlier value changes how the later one stands", "asked", "values")
def a_corrected_earlier_value_judges_anew(s: Scene) -> Expect:
    s.office.pin("values", "asked")
    gap = s.tech.reading("values:measure", "gap", 12)
    far = s.tech.reading(ACROSS, "far", 15)
    s.tech.reading("values:measure", "gap", 16, over=[gap])
    return {"findings": findings(found("outside_limits", ["asked", "across", "far"], far))}


@vector("An earlier value in another scale leaves nothing to compare with", "asked", "values")
def an_earlier_value_in_another_scale_leaves_nothing_to_compare(s: Scene) -> Expect:
    s.office.pin("values", "asked")
    gap = s.tech.reading("values:measure", "gap", 120, decimals=2)
    far = s.tech.reading(ACROSS, "far", 130)
    return {
        "findings": findings(
            found("outside_limits", ["values", "measure", "gap"], gap),
            found("nothing_to_compare", ["asked", "across", "far"], far),
        )
    }


@vector("A step needs another method's step and another method's moment of a run", "asked", "values", "parts")
def needs_reach_into_other_methods(s: Scene) -> Expect:
    s.office.pin("values", "parts", "asked")
    s.tech.tick("asked:sort")
    s.tech.tick("values:wipe")
    s.tech.heat_on("parts:ramp", "run")
    return {"steps[step=go_on]/needs_open": []}


@vector("Needs of other methods' steps are open until they are met", "asked", "values", "parts")
def needs_of_other_methods_are_open_until_met(s: Scene) -> Expect:
    s.office.pin("values", "parts", "asked")
    s.tech.tick("asked:sort")
    run = s.tech.heat_on("parts:ramp", "run")
    s.tech.act(run, "abort", 1000)
    return {"steps[step=go_on]/needs_open": ["values/wipe", "parts/ramp@on"]}


@vector("A need of a method that is not pinned is open, whatever was recorded", "asked", "values", "parts")
def a_need_of_a_method_not_pinned_is_open(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.tick("asked:sort")
    s.tech.tick("values:wipe")
    s.tech.heat_on("parts:ramp", "run")
    return {"steps[step=go_on]/needs_open": ["values/wipe", "parts/ramp@on"]}
