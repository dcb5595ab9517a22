"""Lots that are wrong or expired: marked either way, and answers only where a deviation names them."""

from vectors.scene import Expect, Scene, findings, found, vector
from vectors.writers import FIRST_AT_MS

GLUE = "evidence:glue"
AT = ["evidence", "glue", "paste"]


@vector("A lot used past its expiry does not answer its ask", "evidence")
def an_expired_lot_does_not_answer(s: Scene) -> Expect:
    s.office.pin("evidence")
    lot = s.tech.lot(GLUE, "paste", "paste_x", FIRST_AT_MS)
    return {
        "steps[step=glue]/open": ["paste"],
        "lots[ask=paste]/marked": [lot],
        "findings": findings(found("expired_lot", AT, lot)),
    }


@vector("A wrong lot that an unstruck deviation names answers, and stays marked and found", "evidence")
def a_deviation_that_names_a_wrong_lot_lets_it_answer(s: Scene) -> Expect:
    s.office.pin("evidence")
    lot = s.tech.lot(GLUE, "paste", "paste_y")
    s.second.deviation(GLUE, about=[lot])
    return {
        "steps[step=glue]/open": [],
        "lots[ask=paste]/marked": [lot],
        "findings": findings(found("wrong_lot", AT, lot)),
    }


@vector("An expired lot that a deviation of the whole job names answers", "evidence")
def a_deviation_that_names_an_expired_lot_lets_it_answer(s: Scene) -> Expect:
    s.office.pin("evidence")
    lot = s.tech.lot(GLUE, "paste", "paste_x", FIRST_AT_MS)
    s.office.deviation(about=[lot])
    return {"steps[step=glue]/open": [], "lots[ask=paste]/marked": [lot]}


@vector("A deviation that does not name the wrong lot changes nothing for it", "evidence")
def a_deviation_that_names_another_lot_changes_nothing(s: Scene) -> Expect:
    s.office.pin("evidence")
    other = s.tech.lot(GLUE, "paste", "paste_y")
    s.tech.strike(other)
    s.tech.lot(GLUE, "paste", "paste_y")
    s.tech.deviation(GLUE, about=[other])
    return {"steps[step=glue]/open": ["paste"]}


@vector("When the deviation that named a wrong lot is struck, the lot answers no more", "evidence")
def a_struck_deviation_excuses_no_lot(s: Scene) -> Expect:
    s.office.pin("evidence")
    lot = s.tech.lot(GLUE, "paste", "paste_y")
    s.tech.strike(s.tech.deviation(GLUE, about=[lot]))
    return {"steps[step=glue]/open": ["paste"], "lots[ask=paste]/marked": [lot]}


@vector("One lot in order beside a wrong one answers", "evidence")
def a_lot_in_order_beside_a_wrong_one_answers(s: Scene) -> Expect:
    s.office.pin("evidence")
    wrong = s.tech.lot(GLUE, "paste", "paste_y")
    s.tech.lot(GLUE, "paste", "paste_x")
    return {"steps[step=glue]/open": [], "lots[ask=paste]/marked": [wrong]}


@vector("A step done with only a wrong lot has an open ask", "evidence")
def a_step_done_with_a_wrong_lot_has_an_open_ask(s: Scene) -> Expect:
    s.office.pin("evidence")
    lot = s.tech.lot(GLUE, "paste", "paste_y")
    tick = s.tech.tick(GLUE)
    return {"findings": findings(found("wrong_lot", AT, lot), found("open_ask", AT, tick))}
