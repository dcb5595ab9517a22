"""What answers the tally asks of a step, and the computation that rests on the tally."""

from vectors.scene import Expect, Scene, findings, found, hashes, vector

R = "rivets:take_out"


@vector("A tally ask of taking out is answered when every position is at or beyond its state", "rivets")
def a_tally_of_taking_out_is_answered_by_every_position(s: Scene) -> Expect:
    s.office.pin("rivets")
    s.tech.rivet("H1", "shank_out")
    s.tech.rivet("H2", "shank_out")
    return {"steps[step=take_out]/open": ["balance", "sign"]}


@vector("A tally ask is open while one position is short of its state", "rivets")
def a_tally_is_open_while_one_position_is_short(s: Scene) -> Expect:
    s.office.pin("rivets")
    s.tech.rivet("H1", "shank_out")
    s.tech.rivet("H2", "head_off")
    return {"steps[step=take_out]/open": ["header", "balance", "sign"]}


@vector("A tally ask is open while a piece is lost there", "rivets")
def a_tally_is_open_while_a_piece_is_lost(s: Scene) -> Expect:
    s.office.pin("rivets")
    s.tech.rivet("H1", "shank_out")
    s.tech.rivet("H2", "shank_out")
    s.tech.mark("H2", "lost", "mandrel")
    return {"steps[step=take_out]/open": ["header", "balance", "sign"]}


@vector("A tally ask of setting is not answered by the rivet found on the car", "setting")
def setting_is_not_answered_by_the_rivet_found_on_the_car(s: Scene) -> Expect:
    s.office.pin("setting")
    s.tech.rivet("P1", "in_place", 0)
    s.tech.rivet("P2", "shank_out", 0)
    return {"steps[step=set]/open": ["all_set"], "steps[step=drill]/open": ["holes"]}


@vector("A tally ask of setting is answered by the newest rivet, at or beyond its state", "setting")
def setting_is_answered_by_the_newest_rivet(s: Scene) -> Expect:
    s.office.pin("setting")
    s.tech.rivet("P1", "set_and_checked", 1)
    s.tech.rivet("P2", "in_place", 1)
    return {"steps[step=set]/open": [], "steps[step=drill]/open": []}


@vector("A set rivet that is drilled out again leaves the ask of setting open", "setting")
def a_set_rivet_drilled_out_again_opens_the_ask(s: Scene) -> Expect:
    s.office.pin("setting")
    s.tech.rivet("P1", "set_and_checked", 1)
    s.tech.rivet("P2", "set_and_checked", 1)
    s.tech.rivet("P2", "head_drilled", 1)
    return {"steps[step=set]/open": ["all_set"]}


@vector("A result of current inputs answers its ask", "rivets")
def a_result_of_current_inputs_answers(s: Scene) -> Expect:
    s.office.pin("rivets")
    rivets = [s.tech.rivet("H1", "shank_out"), s.tech.rivet("H2", "shank_out")]
    result = s.tech.result(R, "balance", rivets)
    return {
        "registers[kind=result]/shown": result,
        "steps[step=take_out]/open": ["sign"],
        "findings": [],
    }


@vector("A result that a later rivet entry made stale is found and answers nothing", "rivets")
def a_stale_result_is_found_and_answers_nothing(s: Scene) -> Expect:
    s.office.pin("rivets")
    one = s.tech.rivet("H1", "shank_out")
    result = s.tech.result(R, "balance", [one], "outside")
    s.tech.rivet("H2", "shank_out")
    return {
        "steps[step=take_out]/open": ["balance", "sign"],
        "findings": findings(found("stale_result", ["rivets", "take_out", "balance"], result)),
    }


@vector("A rivet mark made since makes a result stale too", "rivets")
def a_mark_makes_a_result_stale(s: Scene) -> Expect:
    s.office.pin("rivets")
    one = s.tech.rivet("H1", "shank_out")
    result = s.tech.result(R, "balance", [one])
    hole = s.tech.mark("H2", "damaged_hole")
    return {
        "findings": findings(
            found("stale_result", ["rivets", "take_out", "balance"], result),
            found("damaged_hole", ["H2"], hole),
        )
    }


@vector("A result that rests on marks as well as states is current", "rivets")
def a_result_rests_on_states_and_marks(s: Scene) -> Expect:
    s.office.pin("rivets")
    one = s.tech.rivet("H1", "shank_out")
    hole = s.tech.mark("H2", "damaged_hole")
    s.tech.result(R, "balance", [one, hole])
    return {"findings": findings(found("damaged_hole", ["H2"], hole))}


@vector("A result with the verdict outside answers, and holds the hold", "rivets")
def a_result_outside_holds_the_hold(s: Scene) -> Expect:
    s.office.pin("rivets")
    rivets = [s.tech.rivet("H1", "shank_out"), s.tech.rivet("H2", "shank_out")]
    result = s.tech.result(R, "balance", rivets, "outside")
    s.second.countersign(R, "sign", [*rivets, result], roles=["foreman"])
    return {"steps[step=take_out]/open": [], "steps[step=take_out]/hold": "held", "findings": []}


@vector("Rivets out, balance inside, countersigned: the hold passes", "rivets")
def a_balanced_and_countersigned_tally_passes_its_hold(s: Scene) -> Expect:
    s.office.pin("rivets")
    rivets = [s.tech.rivet("H1", "shank_out"), s.tech.rivet("H2", "shank_out")]
    result = s.tech.result(R, "balance", rivets)
    s.second.countersign(R, "sign", hashes(*rivets, result), roles=["foreman"])
    return {"steps[step=take_out]/hold": "passed", "counts": {"shank_out": 2}, "findings": []}


@vector("A setting state of generation 0 does not answer an ask of setting", "setting")
def generation_zero_does_not_answer_an_ask_of_setting(s: Scene) -> Expect:
    s.office.pin("setting")
    s.tech.rivet("P1", "set_and_checked", 0)
    s.tech.rivet("P2", "set_and_checked", 0)
    return {"steps[step=set]/open": ["all_set"], "steps[step=drill]/open": ["holes"]}
