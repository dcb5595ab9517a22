"""The soak and peak of a heat run: which intervals count, and what is found short or too hot."""

from vectors.scene import Expect, Scene, findings, found, vector

W = "heat:warm"
S = 1000  # ms in a second; the method: lagging at least 110, leading at most 140, soak 120 s, gaps to 60 s


def _both(s: Scene, run: str, *points: tuple[int, int]) -> list[str]:
    return [s.tech.heat_reading(run, sensor, *points) for sensor in ("a", "b")]


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
