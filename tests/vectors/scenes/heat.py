"""Heat runs: identity, acts, moments, needs, soak, peak."""

from vectors.scene import Expect, Scene, findings, found, hashes, vector

W = "heat:warm"
S = 1000  # ms in a second; the method: lagging at least 110, leading at most 140, soak 120 s, gaps to 60 s


def _both(s: Scene, run: str, *points: tuple[int, int]) -> list[str]:
    return [s.tech.heat_reading(run, sensor, *points) for sensor in ("a", "b")]


@vector("A run is named by the hash of its on, and acts and readings name it", "heat")
def a_run_is_named_by_its_on(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    later = s.second.act(run, "remark", 9 * S)
    first = s.tech.act(run, "turn_down", 5 * S, "U2")
    reading = s.tech.heat_reading(run, "a", (1 * S, 60))
    return {
        "runs[run=" + run + "]/acts": [first, later],
        "runs[0]/readings": [reading],
        "runs[0]/turned_down": ["U2"],
        "runs[0]/moments": ["on"],
        "runs[0]/zone": "upper",
        "runs[0]/off": False,
        "findings": [],
    }


@vector("Moments are the acts that were recorded, in the order of a run", "heat")
def moments_are_acts_in_the_order_of_a_run(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    for ms, act in ((4 * S, "off"), (3 * S, "workable"), (9 * S, "cold")):
        s.tech.act(run, act, ms)
    return {"runs[0]/moments": ["on", "workable", "off", "cold"], "runs[0]/off": True}


@vector("The moment lifted is that every pad of the on was lifted", "heat")
def lifted_is_when_every_pad_is(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "lift", 4 * S, "U2")
    s.tech.act(run, "lift", 5 * S, "U1")
    return {
        "runs[0]/lifted": ["U1", "U2"],
        "runs[0]/moments": ["on", "lifted"],
        "steps[step=lift_off]/needs_open": [],
    }


@vector("While one pad is still on the run is not lifted", "heat")
def one_pad_still_on_is_not_lifted(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "lift", 4 * S, "U2")
    return {
        "runs[0]/lifted": ["U2"],
        "runs[0]/moments": ["on"],
        "steps[step=lift_off]/needs_open": ["warm@lifted"],
    }


@vector("Readings do not make a moment: hot enough for long enough is not yet soaked", "heat")
def moments_are_never_computed(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    _both(s, run, (0, 120), (60 * S, 120), (120 * S, 120))
    return {"runs[0]/moments": ["on"], "runs[0]/soak_ms": 120 * S}


@vector("A need of a moment holds when an unaborted run begun at that step has it", "heat")
def a_need_of_a_moment_holds_by_a_run_of_that_step(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "workable", 4 * S)
    return {"steps[step=wedge]/needs_open": []}


@vector("A need of a moment does not hold by an aborted run", "heat")
def a_need_does_not_hold_by_an_aborted_run(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "workable", 4 * S)
    s.tech.act(run, "abort", 5 * S)
    return {"steps[step=wedge]/needs_open": ["warm@workable"], "runs[0]/aborted": True}


@vector("A need of a moment holds by any run: a second one serves when the first was aborted", "heat")
def a_need_holds_by_any_unaborted_run(s: Scene) -> Expect:
    s.office.pin("heat")
    first = s.tech.heat_on(W, "run")
    s.tech.act(first, "abort", 5 * S)
    second = s.tech.heat_on(W, "run")
    s.tech.act(second, "workable", 6 * S)
    return {"steps[step=wedge]/needs_open": []}


@vector("Two on for one zone are two runs and a finding", "heat")
def two_on_for_one_zone_are_two_runs_and_found(s: Scene) -> Expect:
    s.office.pin("heat")
    one = s.tech.heat_on(W, "run")
    two = s.second.heat_on(W, "run")
    return {
        "runs[0]/run": min(one, two),
        "runs[1]/run": max(one, two),
        "findings": findings(found("two_runs", ["heat", "upper"], one, two)),
    }


@vector("A struck on is no run: its acts and readings are found", "heat")
def a_struck_on_is_no_run(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    act = s.tech.act(run, "workable", 4 * S)
    reading = s.tech.heat_reading(run, "a", (1 * S, 60))
    s.tech.strike(run)
    return {
        "runs": [],
        "conditions": [{"id": "pads_hot", "on": False, "by": [], "asked": ""}],
        "findings": findings(found("run_unknown", [run], act, reading)),
    }


@vector("Acts of a run that has not arrived are found", "heat")
def acts_of_an_absent_run_are_found(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    act = s.tech.act(run, "workable", 4 * S)
    del s.log[1]
    return {"runs": [], "findings": findings(found("run_unknown", [run], act))}


@vector("A struck act is not in its run", "heat")
def a_struck_act_is_not_in_its_run(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.strike(s.tech.act(run, "workable", 4 * S))
    return {"runs[0]/acts": [], "runs[0]/moments": ["on"]}


@vector("A begun run is hot until it is cold, aborted or not", "heat")
def a_begun_run_is_hot_until_cold(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "off", 4 * S)
    s.tech.act(run, "abort", 5 * S)
    return {"conditions": [{"id": "pads_hot", "on": True, "by": [run], "asked": ""}]}


@vector("A run that is cold is hot no more, and answers its ask", "heat")
def a_cold_run_answers_its_ask(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "cold", 9 * S)
    return {
        "conditions": [{"id": "pads_hot", "on": False, "by": [], "asked": ""}],
        "steps[step=warm]/open": [],
    }


@vector("A run that is off and not cold does not answer its ask", "heat")
def off_does_not_answer(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "off", 4 * S)
    return {"steps[step=warm]/open": ["run"]}


@vector("An aborted run does not answer its ask though it is cold", "heat")
def an_aborted_run_does_not_answer(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "abort", 4 * S)
    s.tech.act(run, "cold", 9 * S)
    return {"steps[step=warm]/open": ["run"]}


@vector("A run soaked for as long as the method wants is in order", "heat")
def a_soak_of_the_wanted_length_is_in_order(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    _both(s, run, (0, 120), (60 * S, 120), (120 * S, 120))
    s.tech.act(run, "soaked", 120 * S)
    s.tech.act(run, "off", 130 * S)
    return {"findings": []}


@vector("Without its method a run is kept, its soak unjudged")
def without_its_method_a_run_is_kept_unjudged(s: Scene) -> Expect:
    run = s.tech.heat_on(W, "run")
    readings = _both(s, run, (0, 120), (30 * S, 150))
    s.tech.act(run, "soaked", 30 * S)
    return {
        "runs[0]/soak_ms": 0,
        "runs[0]/readings": hashes(*readings),
        "runs[0]/moments": ["on", "soaked"],
        "findings": [],
    }


@vector("Readings of a run are sorted by their first run_ms, not by arrival", "heat")
def readings_are_sorted_by_their_first_run_ms(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    late = s.tech.heat_reading(run, "a", (90 * S, 100))
    early = s.tech.heat_reading(run, "a", (10 * S, 50), (95 * S, 101))
    return {"runs[0]/readings": [early, late]}


@vector("A run without pads is never lifted", "heat")
def a_run_without_pads_is_never_lifted(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run", pads=())
    s.tech.act(run, "lift", 4 * S, "U1")
    return {"runs[0]/moments": ["on"], "runs[0]/lifted": ["U1"]}
