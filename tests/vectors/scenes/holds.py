"""Hold points: what passes them, what holds them, and that the record is never held."""

from vectors.scene import Expect, Scene, findings, found, vector


@vector("A hold point holds until its asks are answered and its countersign counts", "hold")
def a_hold_point_holds_while_an_ask_is_open(s: Scene) -> Expect:
    s.office.pin("hold")
    s.tech.reading("hold:check", "gap", 12)
    return {"steps[step=check]/hold": "held", "steps[step=check]/open": ["sign"]}


@vector("A hold point passes when all is answered inside its limits and countersigned", "hold")
def a_hold_point_passes_when_answered_and_countersigned(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading("hold:check", "gap", 12)
    s.second.countersign("hold:check", "sign", [gap])
    return {"steps[step=check]/hold": "passed", "steps[step=check]/open": [], "findings": []}


@vector("A reading outside its limits is an answer, but holds the hold", "hold")
def a_reading_outside_its_limits_holds_the_hold(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading("hold:check", "gap", 21)
    s.second.countersign("hold:check", "sign", [gap])
    return {
        "steps[step=check]/hold": "held",
        "steps[step=check]/open": [],
        "findings": findings(found("outside_limits", ["hold", "check", "gap"], gap)),
    }


@vector("A deviation that only names a reading outside leaves it outside: the hold holds", "hold")
def a_deviation_about_a_reading_does_not_pass_the_hold(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading("hold:check", "gap", 21)
    deviation = s.tech.deviation("hold:check", about=[gap])
    s.second.countersign("hold:check", "sign", [gap])
    return {
        "steps[step=check]/hold": "held",
        "deviations": [deviation],
        "findings": findings(found("outside_limits", ["hold", "check", "gap"], gap)),
    }


@vector("A deviation with passes_hold passes the hold that it names, its asks staying open", "hold")
def a_deviation_passes_the_hold(s: Scene) -> Expect:
    s.office.pin("hold")
    deviation = s.tech.deviation("hold:check", passes_hold=True)
    return {
        "steps[step=check]/hold": "deviation",
        "steps[step=check]/open": ["gap", "sign"],
        "deviations": [deviation],
    }


@vector("A deviation with passes_hold at another step does not pass this hold", "hold")
def a_deviation_passes_only_the_hold_it_names(s: Scene) -> Expect:
    s.office.pin("hold")
    s.tech.deviation("hold:go_on", passes_hold=True)
    return {"steps[step=check]/hold": "held"}


@vector("Where the method wants it, a deviation must be countersigned to pass the hold", "hold")
def an_uncountersigned_deviation_does_not_pass_where_the_method_wants_one(s: Scene) -> Expect:
    s.office.pin("hold")
    s.tech.deviation("hold:judge", passes_hold=True)
    return {"steps[step=judge]/hold": "held"}


@vector("A countersigned deviation passes the hold", "hold")
def a_countersigned_deviation_passes_the_hold(s: Scene) -> Expect:
    s.office.pin("hold")
    deviation = s.tech.deviation("hold:judge", passes_hold=True)
    sign = s.second.countersign("hold:judge", "", [deviation], roles=["foreman", "technician"])
    return {
        "steps[step=judge]/hold": "deviation",
        "countersigns": [{"hash": sign, "counts": True, "why": ""}],
    }


@vector("A deviation countersigned without the qualification that the method wants does not pass", "hold")
def a_deviation_countersigned_without_the_qualification_does_not_pass(s: Scene) -> Expect:
    s.office.pin("hold")
    deviation = s.tech.deviation("hold:judge", passes_hold=True)
    sign = s.second.countersign("hold:judge", "", [deviation])
    return {
        "steps[step=judge]/hold": "held",
        "countersigns": [{"hash": sign, "counts": False, "why": "demand"}],
    }


@vector("A passed hold stays passed though a deviation was written too", "hold")
def passing_goes_before_deviation(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading("hold:check", "gap", 12)
    s.tech.deviation("hold:check", passes_hold=True)
    s.second.countersign("hold:check", "sign", [gap])
    return {"steps[step=check]/hold": "passed"}


@vector("A step ticked before its hold passed is taken as done", "hold")
def a_step_done_before_its_hold_is_taken(s: Scene) -> Expect:
    s.office.pin("hold")
    tick = s.tech.tick("hold:go_on")
    return {
        "steps[step=go_on]/done": "done",
        "steps[step=go_on]/tick": tick,
        "steps[step=go_on]/needs_open": ["check", "judge"],
        "findings": [],
    }


@vector("A stop option is an answer, is found, and holds the hold", "hold")
def a_stop_option_is_found_and_holds(s: Scene) -> Expect:
    s.office.pin("hold")
    looks = s.tech.choice("hold:judge", "looks", "bad")
    return {
        "steps[step=judge]/hold": "held",
        "steps[step=judge]/open": [],
        "findings": findings(found("stop_option", ["hold", "judge", "looks"], looks)),
    }
