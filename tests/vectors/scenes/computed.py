"""Results that rest on answers of other steps: when they stand, and when the records have moved on."""

from vectors.scene import Expect, Scene, findings, found, vector

M, J, OUT, SET = "computed:measure", "computed:judge", "computed:take_out", "computed:set"
STALE = ["computed", "judge", "fit"]


def _fit(s: Scene, *inputs: str, verdict: str = "inside") -> str:
    return s.tech.result(J, "fit", inputs, verdict, computation="gap_and_step")


def _gaps(s: Scene) -> list[str]:
    s.office.pin("computed")
    return [s.tech.reading(M, "gap", 34, "g1"), s.tech.reading(M, "gap", 35, "g2")]


@vector("A result that used every answer its ask names stands, and passes the hold", "computed")
def a_result_of_the_shown_answers_stands(s: Scene) -> Expect:
    _fit(s, *_gaps(s))
    return {"steps[step=judge]/open": [], "steps[step=judge]/hold": "passed", "findings": []}


@vector("A reading that is read again makes a result of it stale, and the hold waits", "computed")
def a_reading_read_again_makes_its_result_stale(s: Scene) -> Expect:
    first, second = _gaps(s)
    result = _fit(s, first, second)
    s.tech.reading(M, "gap", 38, "g2", over=[second])
    return {
        "steps[step=judge]/open": ["fit"],
        "steps[step=judge]/hold": "held",
        "findings": findings(found("stale_result", STALE, result)),
    }


@vector("A struck or sent back input makes a result stale, though nothing stands in its place", "computed")
def a_struck_input_makes_its_result_stale(s: Scene) -> Expect:
    first, second = _gaps(s)
    result = _fit(s, first, second)
    s.tech.strike(first)
    s.office.send_back(second)
    return {"findings": findings(found("stale_result", STALE, result))}


@vector("An answer that was given after the result makes it stale", "computed")
def an_answer_given_later_makes_a_result_stale(s: Scene) -> Expect:
    s.office.pin("computed")
    first = s.tech.reading(M, "gap", 34, "g1")
    result = _fit(s, first, verdict="none")
    s.tech.reading(M, "gap", 35, "g2")
    return {"findings": findings(found("stale_result", STALE, result))}


@vector("An answer that is not asked is not missed; once it is asked, it is", "computed")
def an_answer_that_is_not_asked_is_not_missed(s: Scene) -> Expect:
    gaps = _gaps(s)
    how = s.tech.choice(M, "how", "gauge")
    s.tech.reading(M, "again", 3)
    result = _fit(s, *gaps)
    s.tech.choice(M, "how", "eye", over=[how])
    return {"findings": findings(found("stale_result", STALE, result))}


@vector("An answer to an ask that its choice leaves out may come late: the result stands", "computed")
def an_answer_to_what_is_not_asked_changes_nothing(s: Scene) -> Expect:
    gaps = _gaps(s)
    s.tech.choice(M, "how", "gauge")
    _fit(s, *gaps)
    s.tech.reading(M, "again", 3)
    return {"findings": []}


@vector("An input that has not arrived is no reason to doubt a result", "computed")
def an_input_that_has_not_arrived_makes_nothing_stale(s: Scene) -> Expect:
    _fit(s, *_gaps(s), "f" * 64)
    return {"findings": []}


@vector("A reconciliation of what was taken out stands while new rivets are set", "computed")
def taking_out_is_reconciled_without_the_rivets_set_since(s: Scene) -> Expect:
    s.office.pin("computed")
    rivets = [s.tech.rivet("H1", "shank_out"), s.tech.rivet("H2", "shank_out")]
    heads = s.tech.reading(OUT, "heads", 2, unit="pcs", decimals=0)
    s.tech.result(OUT, "balance", [*rivets, heads])
    s.tech.rivet("H1", "hole_checked", 1)
    s.tech.rivet("H2", "set", 1)
    return {"steps[step=take_out]/open": [], "findings": []}


@vector("A reconciliation of what was set rests on the rivets set, whatever was found on the car", "computed")
def setting_is_reconciled_without_the_rivets_found_on_the_car(s: Scene) -> Expect:
    s.office.pin("computed")
    s.tech.rivet("H1", "shank_out")
    new = [s.tech.rivet("H1", "set", 1), s.tech.rivet("H2", "set", 1)]
    s.tech.result(SET, "balance", new)
    s.tech.rivet("H2", "shank_out")
    return {"steps[step=set]/open": [], "findings": []}


@vector("A reconciliation is stale once a rivet that it counts moves on, or a count beside it", "computed")
def a_reconciliation_rests_on_its_rivets_and_its_counts(s: Scene) -> Expect:
    s.office.pin("computed")
    out = [s.tech.rivet("H1", "shank_out"), s.tech.rivet("H2", "head_off")]
    heads = s.tech.reading(OUT, "heads", 1, unit="pcs", decimals=0)
    taken = s.tech.result(OUT, "balance", [*out, heads], "outside")
    new = s.tech.rivet("H1", "set", 1)
    was_set = s.tech.result(SET, "balance", [new])
    s.tech.reading(OUT, "heads", 2, over=[heads], unit="pcs", decimals=0)
    s.tech.rivet("H2", "set", 1)
    return {
        "findings": findings(
            found("stale_result", ["computed", "take_out", "balance"], taken),
            found("stale_result", ["computed", "set", "balance"], was_set),
        )
    }
