"""Steps: done, not applicable, open asks, holds, needs, conditions, and values outside their limits."""

from vectors.scene import Expect, Scene, findings, found, hashes, vector

M = "values:measure"
W = "values:wipe"


@vector("A step is done when its own tick stands as done", "values")
def a_step_is_done_by_its_own_tick(s: Scene) -> Expect:
    s.office.pin("values")
    tick = s.tech.tick(W)
    return {
        "steps[step=wipe]/done": "done",
        "steps[step=wipe]/tick": tick,
        "steps[step=measure]/needs_open": [],
    }


@vector("A step is done when its own tick stands as not applicable", "values")
def a_step_is_done_as_not_applicable(s: Scene) -> Expect:
    s.office.pin("values")
    s.tech.tick(W, "not_applicable")
    return {"steps[step=wipe]/done": "not_applicable", "steps[step=measure]/needs_open": []}


@vector("The tick of an ask does not make its step done", "values")
def the_tick_of_an_ask_is_not_the_steps_own(s: Scene) -> Expect:
    s.office.pin("values")
    s.tech.tick(M, ask="clean")
    return {"steps[step=measure]/done": "", "steps[step=measure]/open": ["gap", "finish", "words", "edges"]}


@vector("An ask ticked not applicable is answered", "values")
def an_ask_not_applicable_is_answered(s: Scene) -> Expect:
    s.office.pin("values")
    s.tech.tick(M, "not_applicable", ask="clean")
    return {"steps[step=measure]/open": ["gap", "finish", "words", "edges"]}


@vector("Each open ask of a done step is a finding that names the tick", "evidence")
def each_open_ask_of_a_done_step_is_found(s: Scene) -> Expect:
    s.office.pin("evidence")
    s.photographer.photo("evidence:show", "before")
    show, glue = s.tech.tick("evidence:show"), s.tech.tick("evidence:glue")
    return {
        "findings": findings(
            found("open_ask", ["evidence", "show", "after"], show),
            found("open_ask", ["evidence", "glue", "paste"], glue),
        )
    }


@vector("An open ask of a step that is not applicable is found too", "evidence")
def an_open_ask_of_a_step_not_applicable_is_found(s: Scene) -> Expect:
    s.office.pin("evidence")
    glue = s.tech.tick("evidence:glue", "not_applicable")
    return {"findings": findings(found("open_ask", ["evidence", "glue", "paste"], glue))}


@vector("A step that does not hold says so, done or not", "values")
def a_step_without_a_hold_has_none(s: Scene) -> Expect:
    s.office.pin("values")
    return {"steps[step=wipe]/hold": "none"}


@vector("A value exactly at the least is inside", "values")
def a_value_at_the_least_is_inside(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 5)
    return {"registers[kind=reading]/shown": gap, "findings": []}


@vector("A value exactly at the greatest is inside", "values")
def a_value_at_the_greatest_is_inside(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 20)
    return {"registers[kind=reading]/shown": gap, "findings": []}


@vector("A reading below its least is found, at its ask", "values")
def a_reading_below_its_least_is_found(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 4)
    return {"findings": findings(found("outside_limits", ["values", "measure", "gap"], gap))}


@vector("A reading in another unit or scale than its ask cannot be compared and counts as outside", "values")
def a_reading_in_another_scale_counts_as_outside(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 10, decimals=2)
    return {"findings": findings(found("outside_limits", ["values", "measure", "gap"], gap))}


@vector("A reading outside that was corrected is no finding any more", "values")
def a_corrected_reading_is_judged_no_more(s: Scene) -> Expect:
    s.office.pin("values")
    wrong = s.tech.reading(M, "gap", 99)
    s.tech.reading(M, "gap", 9, over=[wrong])
    return {"findings": []}


@vector("A condition is set by the step that sets it", "lock")
def a_condition_is_set_by_its_step(s: Scene) -> Expect:
    s.office.pin("lock")
    tick = s.tech.tick("lock:lock_out")
    return {"conditions": [{"id": "locked", "on": True, "by": [tick], "asked": ""}]}


@vector("A condition is cleared by a later step in method order, whatever the clocks say", "lock")
def a_condition_is_cleared_by_a_later_step_of_the_method(s: Scene) -> Expect:
    s.office.pin("lock")
    unlock = s.tech.tick("lock:unlock")
    s.tech.tick("lock:lock_out")
    return {"conditions": [{"id": "locked", "on": False, "by": [unlock], "asked": ""}]}


@vector("A condition that a still later step sets again is on", "lock")
def a_condition_is_set_again_by_a_still_later_step(s: Scene) -> Expect:
    s.office.pin("lock")
    s.tech.tick("lock:lock_out")
    s.tech.tick("lock:unlock")
    again = s.tech.tick("lock:lock_again")
    return {"conditions": [{"id": "locked", "on": True, "by": [again], "asked": ""}]}


@vector("A step that is not applicable neither sets nor clears a condition", "lock")
def a_step_not_applicable_sets_no_condition(s: Scene) -> Expect:
    s.office.pin("lock")
    s.tech.tick("lock:lock_out", "not_applicable")
    return {"conditions": [{"id": "locked", "on": False, "by": [], "asked": ""}]}


@vector("An accept equal in code, at and hashes marks its finding accepted", "values")
def an_equal_accept_holds(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 4)
    accept = s.office.accept("outside_limits", ["values", "measure", "gap"], [gap])
    return {"findings": findings(found("outside_limits", ["values", "measure", "gap"], gap, accepted=accept))}


@vector("An accept holds no more when the finding names another entry", "values")
def an_accept_does_not_carry_over_to_a_changed_finding(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 4)
    s.office.accept("outside_limits", ["values", "measure", "gap"], [gap])
    worse = s.tech.reading(M, "gap", 3, over=[gap])
    return {"findings": findings(found("outside_limits", ["values", "measure", "gap"], worse))}


@vector("An accept with another code or place holds nothing", "values")
def an_accept_with_another_code_or_place_holds_nothing(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 4)
    s.office.accept("two_values", ["values", "measure", "gap"], [gap])
    s.office.accept("outside_limits", ["values", "measure"], [gap])
    return {"findings": findings(found("outside_limits", ["values", "measure", "gap"], gap))}


@vector("Of two equal accepts the later is named", "values")
def of_two_equal_accepts_the_later_is_named(s: Scene) -> Expect:
    s.office.pin("values")
    at = ["values", "measure", "gap"]
    gap = s.tech.reading(M, "gap", 4)
    s.office.accept("outside_limits", at, [gap])
    later = s.office.accept("outside_limits", at, [gap])
    return {"findings": findings(found("outside_limits", at, gap, accepted=later))}


@vector("Clock entries make findings and change nothing else", "values")
def a_clock_entry_is_a_finding_and_nothing_else(s: Scene) -> Expect:
    s.office.pin("values")
    clock = s.tech.clock_stepped(by="00000000-0000-0000-0000-000000000000")
    tick = s.tech.tick(W)
    return {
        "clock": [clock],
        "steps[step=wipe]/tick": tick,
        "findings": findings(found("clock_changed", [s.tech.device, "1"], clock)),
    }


@vector("What was heard is listed and changes nothing")
def what_was_heard_is_listed(s: Scene) -> Expect:
    heard = s.tech.heard("0" * 64)
    return {"heard": [heard], "findings": []}


@vector("Notes are a set", "values")
def notes_are_a_set(s: Scene) -> Expect:
    one, two = s.tech.note("a"), s.second.note("b")
    return {"notes": hashes(one, two), "findings": []}
