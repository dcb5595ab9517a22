"""Heat asks that each ask for a part of a run, and sensors on bond, metal and neighbour."""

from vectors.scene import Expect, Scene, findings, found, vector

RAMP = "parts:ramp"
S = 1000  # ms in a second
# bond a and b: at least 110, at most 140 C; metal m: at most 150; neighbour n: at most 60; soak and gaps 60 s


def _run(s: Scene) -> str:
    s.office.pin("parts")
    return s.tech.heat_on(RAMP, "run")


def _open(*steps: str) -> Expect:
    """What each step of the upper zone has open: the named ones their heat ask."""
    asks = {"ramp": "run", "soak": "soaking", "let_go": "release", "cool": "cooling", "end": "rest"}
    return {f"steps[step={name}]/open": [ask] if name in steps else [] for name, ask in asks.items()}


@vector("Before any run every part is open", "parts")
def without_a_run_every_part_is_open(s: Scene) -> Expect:
    s.office.pin("parts")
    return _open("ramp", "soak", "let_go", "cool", "end")


@vector("A heat ask for the ramp is answered by switching on", "parts")
def a_ramp_is_answered_by_on(s: Scene) -> Expect:
    _run(s)
    return _open("soak", "let_go", "cool", "end")


@vector("A heat ask for the soak is answered by the moment soaked of the run that it continues", "parts")
def a_soak_is_answered_by_soaked(s: Scene) -> Expect:
    run = _run(s)
    s.tech.act(run, "soaked", 90 * S)
    return _open("let_go", "cool", "end")


@vector("A heat ask for the release is answered when every pad is lifted", "parts")
def a_release_is_answered_by_lifted(s: Scene) -> Expect:
    run = _run(s)
    s.tech.act(run, "lift", 90 * S, "U1")
    s.tech.act(run, "lift", 95 * S, "U2")
    return _open("soak", "cool", "end")


@vector("One pad still on leaves the release open", "parts")
def a_release_waits_for_every_pad(s: Scene) -> Expect:
    run = _run(s)
    s.tech.act(run, "lift", 90 * S, "U1")
    return _open("soak", "let_go", "cool", "end")


@vector("A heat ask for the release is answered by switching off, too", "parts")
def a_release_is_answered_by_off(s: Scene) -> Expect:
    run = _run(s)
    s.tech.act(run, "off", 90 * S)
    return _open("soak", "cool", "end")


@vector("A heat ask for the cool-down, alone or last of its parts, is answered by cold", "parts")
def a_cool_down_is_answered_by_cold(s: Scene) -> Expect:
    run = _run(s)
    s.tech.act(run, "cold", 900 * S)
    return _open("soak", "let_go")


@vector("The last part decides in the order of a run, however the method lists them", "parts")
def the_last_part_in_the_order_of_a_run_decides(s: Scene) -> Expect:
    s.office.pin("parts")
    run = s.tech.heat_on("parts:begin", "short", zone="lower")
    return {"steps[step=begin]/open": ["short"], "runs[0]/moments": ["on"], "runs[0]/run": run}


@vector("An ask for ramp and soak is answered by soaked, long before it is cold", "parts")
def ramp_and_soak_are_answered_by_soaked(s: Scene) -> Expect:
    s.office.pin("parts")
    run = s.tech.heat_on("parts:begin", "short", zone="lower")
    s.tech.act(run, "soaked", 90 * S)
    return {"steps[step=begin]/open": []}


@vector("An aborted run answers no part", "parts")
def an_aborted_run_answers_no_part(s: Scene) -> Expect:
    run = _run(s)
    for act in ("soaked", "off", "cold"):
        s.tech.act(run, act, 90 * S)
    s.tech.act(run, "abort", 91 * S)
    return _open("ramp", "soak", "let_go", "cool", "end")


@vector("A run begun at another ask does not answer the ask that continues this one", "parts")
def a_continuing_ask_looks_only_at_the_run_it_continues(s: Scene) -> Expect:
    s.office.pin("parts")
    astray = s.tech.heat_on("parts:cool", "cooling")
    s.tech.act(astray, "cold", 90 * S)
    return _open("ramp", "soak", "let_go", "cool", "end")


@vector("A second run after an aborted one is no finding", "parts")
def a_second_run_after_an_aborted_one_is_no_finding(s: Scene) -> Expect:
    first = _run(s)
    s.tech.act(first, "abort", 5 * S)
    s.tech.heat_on(RAMP, "run")
    return {"findings": []}


@vector("Of three runs of a zone, one aborted, the other two are found", "parts")
def two_unaborted_runs_beside_an_aborted_one_are_found(s: Scene) -> Expect:
    aborted = _run(s)
    s.tech.act(aborted, "abort", 5 * S)
    one, two = s.tech.heat_on(RAMP, "run"), s.second.heat_on(RAMP, "run")
    return {"findings": findings(found("two_runs", ["parts", "upper"], one, two))}


@vector("Only sensors on the bond count for the soak; metal and neighbour may be cold or silent", "parts")
def the_soak_is_of_the_bond_alone(s: Scene) -> Expect:
    run = _run(s)
    for sensor in ("a", "b"):
        s.tech.heat_reading(run, sensor, (0, 120), (60 * S, 120))
    s.tech.heat_reading(run, "n", (0, 25), (60 * S, 30))
    s.tech.act(run, "soaked", 60 * S)
    return {"runs[0]/soak_ms": 60 * S, "runs[0]/soak_counts_to_ms": 60 * S, "findings": []}


@vector("A hot metal sensor does not stand in for a silent one on the bond", "parts")
def metal_does_not_stand_in_for_the_bond(s: Scene) -> Expect:
    run = _run(s)
    for sensor in ("a", "m"):
        s.tech.heat_reading(run, sensor, (0, 120), (60 * S, 120))
    return {"runs[0]/soak_ms": 0}


@vector("The peak is of bond and metal, and each sensor has its own", "parts")
def each_sensor_has_its_peak(s: Scene) -> Expect:
    run = _run(s)
    s.tech.heat_reading(run, "n", (0, 20), (60 * S, 55))
    s.tech.heat_reading(run, "m", (0, 148), (60 * S, 120))
    s.tech.heat_reading(run, "b", (0, 110))
    return {
        "runs[0]/peak": 148,
        "runs[0]/peak_sensor": "m",
        "runs[0]/peaks": [
            {"sensor": "b", "value": 110},
            {"sensor": "m", "value": 148},
            {"sensor": "n", "value": 55},
        ],
        "findings": [],
    }


@vector("A neighbour alone makes no peak of the run", "parts")
def a_neighbour_makes_no_peak(s: Scene) -> Expect:
    run = _run(s)
    reading = s.tech.heat_reading(run, "n", (0, 55))
    about = {
        "run": run,
        "method": "parts",
        "step": "ramp",
        "ask": "run",
        "zone": "upper",
        "purpose": "removal",
    }
    nothing = {"acts": [], "turned_down": [], "lifted": [], "aborted": False, "off": False}
    soak = {"soak_ms": 0, "soak_counts_to_ms": 0}
    read = {"readings": [reading], "moments": ["on"], "peaks": [{"sensor": "n", "value": 55}]}
    return {"runs": [{**about, **nothing, **soak, **read}]}


@vector("Metal and neighbour are held to their own maxima, and one finding names all readings over", "parts")
def each_place_has_its_own_maximum(s: Scene) -> Expect:
    run = _run(s)
    bond = s.tech.heat_reading(run, "a", (0, 141))
    metal = s.tech.heat_reading(run, "m", (0, 151))
    neighbour = s.tech.heat_reading(run, "n", (0, 61))
    s.tech.heat_reading(run, "b", (0, 140))
    s.tech.heat_reading(run, "m", (10 * S, 150))
    s.tech.heat_reading(run, "n", (10 * S, 60))
    return {"findings": findings(found("over_maximum", [run], bond, metal, neighbour))}


@vector("A place for which the method sets no maximum is held to none", "no_maxima")
def a_place_without_a_maximum_is_held_to_none(s: Scene) -> Expect:
    s.office.pin("no_maxima")
    run = s.tech.heat_on("no_maxima:warm", "run")
    s.tech.heat_reading(run, "m", (0, 900))
    s.tech.heat_reading(run, "n", (0, 900))
    return {"runs[0]/peak": 900, "findings": []}
