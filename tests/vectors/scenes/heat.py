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
        "conditions": [{"id": "pads_hot", "on": False, "by": []}],
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
    return {"conditions": [{"id": "pads_hot", "on": True, "by": [run]}]}


@vector("A run that is cold is hot no more, and answers its ask", "heat")
def a_cold_run_answers_its_ask(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "cold", 9 * S)
    return {"conditions": [{"id": "pads_hot", "on": False, "by": []}], "steps[step=warm]/open": []}


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


@vector("The soak counts by run_ms and never by the wall clock", "heat")
def the_soak_counts_by_run_ms(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    for sensor in ("a", "b"):
        s.tech.heat_reading(run, sensor, (10 * S, 115), at_ms=9_000_000)
        s.tech.heat_reading(run, sensor, (40 * S, 118), at_ms=1)
    return {"runs[0]/soak_ms": 30 * S, "runs[0]/soak_counts_to_ms": 40 * S}


@vector("An interval counts only if the lagging sensor is at or above the minimum at both ends", "heat")
def an_interval_counts_if_the_lagging_is_hot_at_both_ends(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.heat_reading(run, "a", (0, 130), (10 * S, 130), (20 * S, 130), (30 * S, 130))
    s.tech.heat_reading(run, "b", (0, 109), (10 * S, 110), (20 * S, 110), (30 * S, 109))
    return {"runs[0]/soak_ms": 10 * S, "runs[0]/soak_counts_to_ms": 20 * S}


@vector("A gap longer than the method's limit does not count; one as long does", "heat")
def a_gap_over_the_limit_does_not_count(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    _both(s, run, (0, 120), (60 * S, 120), (60 * S + 60_001, 120))
    return {"runs[0]/soak_ms": 60 * S, "runs[0]/soak_counts_to_ms": 60 * S}


@vector("A moment without a reading of every sensor is none: the interval spans it", "heat")
def a_moment_needs_every_sensor(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.heat_reading(run, "a", (0, 120), (20 * S, 90), (40 * S, 120))
    s.tech.heat_reading(run, "b", (0, 120), (40 * S, 120))
    return {"runs[0]/soak_ms": 40 * S}


@vector("With one sensor silent nothing counts", "heat")
def with_one_sensor_silent_nothing_counts(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.heat_reading(run, "a", (0, 120), (40 * S, 121))
    return {
        "runs[0]/soak_ms": 0,
        "runs[0]/soak_counts_to_ms": 0,
        "runs[0]/peak": 121,
        "runs[0]/peak_sensor": "a",
    }


@vector("Intervals add up across a pause", "heat")
def soak_intervals_add_up_across_a_pause(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    _both(s, run, (0, 120), (30 * S, 120), (50 * S, 100), (70 * S, 120), (100 * S, 120))
    return {"runs[0]/soak_ms": 60 * S, "runs[0]/soak_counts_to_ms": 100 * S}


@vector("A struck reading is not in the soak", "heat")
def a_struck_reading_is_not_in_the_soak(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    readings = _both(s, run, (0, 120), (30 * S, 120))
    s.tech.strike(readings[0])
    return {"runs[0]/soak_ms": 0, "runs[0]/readings": [readings[1]]}


@vector("Of two values of one sensor at one moment the lower counts for the soak, the higher as peak", "heat")
def of_two_values_at_one_moment_the_soak_takes_the_lower(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    _both(s, run, (0, 120), (30 * S, 120))
    s.second.heat_reading(run, "b", (30 * S, 109))
    s.second.heat_reading(run, "a", (0, 125))
    return {"runs[0]/soak_ms": 0, "runs[0]/peak": 125, "runs[0]/peak_sensor": "a"}


@vector("Readings of other sensors, units or scales are kept and do not count", "heat")
def readings_of_other_sensors_or_units_do_not_count(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    _both(s, run, (0, 120), (30 * S, 120))
    s.tech.heat_reading(run, "m", (0, 90), (30 * S, 190))
    s.tech.heat_reading(run, "a", (30 * S, 30), unit="mV")
    s.tech.heat_reading(run, "a", (30 * S, 1200), decimals=1)
    return {"runs[0]/soak_ms": 30 * S, "runs[0]/peak": 120, "findings": []}


@vector("A run called soaked before the readings show it is found as short", "heat")
def a_soak_called_too_early_is_found(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    _both(s, run, (0, 120), (59 * S, 120), (119 * S, 120))
    s.tech.act(run, "soaked", 119 * S)
    return {"runs[0]/soak_ms": 119 * S, "findings": findings(found("soak_short", [run], run))}


@vector("A run soaked for as long as the method wants is in order", "heat")
def a_soak_of_the_wanted_length_is_in_order(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    _both(s, run, (0, 120), (60 * S, 120), (120 * S, 120))
    s.tech.act(run, "soaked", 120 * S)
    s.tech.act(run, "off", 130 * S)
    return {"findings": []}


@vector("A run switched off without soak is found; an aborted one is not", "heat")
def a_run_switched_off_without_soak_is_found(s: Scene) -> Expect:
    s.office.pin("heat")
    aborted = s.tech.heat_on(W, "run", zone="lower")
    s.tech.act(aborted, "abort", 5 * S)
    s.tech.act(aborted, "off", 6 * S)
    run = s.tech.heat_on(W, "run")
    s.tech.act(run, "off", 9 * S)
    return {"findings": findings(found("soak_short", [run], run))}


@vector("A leading sensor above the maximum is found with the readings that hold it", "heat")
def a_leading_sensor_above_the_maximum_is_found(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    hot = s.tech.heat_reading(run, "a", (0, 120), (30 * S, 141))
    s.tech.heat_reading(run, "b", (0, 120), (30 * S, 140))
    return {
        "runs[0]/peak": 141,
        "runs[0]/peak_sensor": "a",
        "findings": findings(found("over_maximum", [run], hot)),
    }


@vector("Of sensors at one peak the first by id is named", "heat")
def of_equal_peaks_the_first_sensor_is_named(s: Scene) -> Expect:
    s.office.pin("heat")
    run = s.tech.heat_on(W, "run")
    s.tech.heat_reading(run, "b", (0, 120))
    s.tech.heat_reading(run, "a", (30 * S, 120))
    return {"runs[0]/peak": 120, "runs[0]/peak_sensor": "a"}


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
