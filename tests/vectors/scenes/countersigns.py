"""Countersigns: what makes one count, and each way in which it is void."""

from vectors.scene import OSKAR, Expect, Scene, findings, found, vector

C = "hold:check"
AT = ["hold", "check", "sign"]


def _void(sign: str, why: str) -> list[dict[str, object]]:
    return [{"hash": sign, "counts": False, "why": why}]


@vector("A second technician who saw the shown value signs for it", "hold")
def a_second_person_who_saw_the_shown_value_counts(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading(C, "gap", 12)
    sign = s.second.countersign(C, "sign", [gap])
    return {"countersigns": [{"hash": sign, "counts": True, "why": ""}], "findings": []}


@vector("One who wrote what is countersigned cannot countersign it", "hold")
def ones_own_value_voids_a_countersign(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading(C, "gap", 12)
    sign = s.tech.countersign(C, "sign", [gap])
    return {
        "countersigns": _void(sign, "own_value"),
        "steps[step=check]/open": ["sign"],
        "findings": findings(found("void_countersign", AT, sign)),
    }


@vector("Having written even a struck one of the named hashes voids it", "hold")
def having_written_a_struck_value_that_it_names_voids_it(s: Scene) -> Expect:
    s.office.pin("hold")
    own = s.second.reading(C, "gap", 11)
    s.second.strike(own)
    gap = s.tech.reading(C, "gap", 12)
    sign = s.second.countersign(C, "sign", [own, gap])
    return {"countersigns": _void(sign, "own_value")}


@vector("A countersign without the role that the ask demands is void", "hold")
def a_countersign_without_the_demanded_role_is_void(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading(C, "gap", 12)
    sign = s.photographer.countersign(C, "sign", [gap])
    return {
        "countersigns": _void(sign, "demand"),
        "findings": findings(found("void_countersign", AT, sign)),
    }


@vector("A photographer who holds the demanded qualification countersigns", "rivets")
def a_photographer_with_the_qualification_countersigns(s: Scene) -> Expect:
    s.office.pin("rivets")
    rivets = [s.tech.rivet("H1", "shank_out"), s.tech.rivet("H2", "shank_out")]
    sign = s.photographer.countersign("rivets:take_out", "sign", rivets, roles=["foreman", "photographer"])
    return {"countersigns": [{"hash": sign, "counts": True, "why": ""}]}


@vector("The fold believes what `as` says, also of somebody who holds nothing else", "rivets")
def as_alone_is_believed(s: Scene) -> Expect:
    s.office.pin("rivets")
    sign = s.second.countersign("rivets:take_out", "sign", [], roles=["foreman"])
    return {"countersigns": [{"hash": sign, "counts": True, "why": ""}]}


@vector("A countersign for an ask that is no countersign of the step is void", "hold")
def a_countersign_for_no_such_ask_is_void(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading(C, "gap", 12)
    sign = s.second.countersign(C, "gap", [gap])
    return {"countersigns": _void(sign, "demand")}


@vector("A countersign that does not name a shown value is void: missing", "hold")
def a_shown_value_not_named_voids_it(s: Scene) -> Expect:
    s.office.pin("hold")
    s.tech.reading(C, "gap", 12)
    sign = s.second.countersign(C, "sign", [])
    return {
        "countersigns": _void(sign, "missing"),
        "findings": findings(found("void_countersign", AT, sign)),
    }


@vector("A countersign whose value was corrected since is void: superseded", "hold")
def a_later_correction_supersedes_a_countersign(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading(C, "gap", 12)
    sign = s.second.countersign(C, "sign", [gap])
    s.tech.reading(C, "gap", 13, over=[gap])
    return {
        "countersigns": _void(sign, "superseded"),
        "steps[step=check]/hold": "held",
        "findings": findings(found("void_countersign", AT, sign)),
    }


@vector("A countersign before the value was recorded is void once it is", "hold")
def a_value_recorded_after_the_countersign_voids_it(s: Scene) -> Expect:
    s.office.pin("hold")
    sign = s.second.countersign(C, "sign", [])
    s.tech.reading(C, "gap", 13)
    return {"countersigns": _void(sign, "missing")}


@vector("A value sent back need not be named: its ask is not answered", "hold")
def a_value_sent_back_need_not_be_named(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading(C, "gap", 12)
    s.office.send_back(gap)
    sign = s.second.countersign(C, "sign", [])
    return {"countersigns": [{"hash": sign, "counts": True, "why": ""}]}


@vector("A struck countersign is listed as struck and is no finding", "hold")
def a_struck_countersign_is_listed_as_struck(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading(C, "gap", 12)
    sign = s.second.countersign(C, "sign", [gap])
    s.second.strike(sign)
    return {"countersigns": _void(sign, "struck"), "findings": [], "steps[step=check]/open": ["sign"]}


@vector("The deciding entry of each position of the step's tally group must be named", "rivets")
def the_deciding_entry_of_each_position_must_be_named(s: Scene) -> Expect:
    s.office.pin("rivets")
    one = s.tech.rivet("H1", "shank_out")
    s.tech.rivet("H2", "shank_out")
    sign = s.second.countersign("rivets:take_out", "sign", [one], roles=["foreman", "technician"])
    return {"countersigns": _void(sign, "missing")}


@vector("A rivet that went on since it was countersigned supersedes the countersign", "rivets")
def a_rivet_that_went_on_supersedes_a_countersign(s: Scene) -> Expect:
    s.office.pin("rivets")
    one = s.tech.rivet("H1", "head_off")
    sign = s.second.countersign("rivets:take_out", "sign", [one], roles=["foreman"])
    s.tech.rivet("H1", "shank_out")
    return {"countersigns": _void(sign, "superseded")}


@vector("A rivet entry that does not decide need not be named", "rivets")
def a_rivet_entry_that_does_not_decide_need_not_be_named(s: Scene) -> Expect:
    s.office.pin("rivets")
    s.tech.rivet("H1", "head_off")
    out = s.tech.rivet("H1", "shank_out")
    sign = s.second.countersign("rivets:take_out", "sign", [out], roles=["foreman"])
    return {"countersigns": [{"hash": sign, "counts": True, "why": ""}]}


@vector("A void countersign beside one that counts is still found", "hold")
def a_void_one_beside_one_that_counts_is_still_found(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading(C, "gap", 12)
    void = s.tech.countersign(C, "sign", [gap])
    s.second.countersign(C, "sign", [gap])
    return {
        "steps[step=check]/hold": "passed",
        "findings": findings(found("void_countersign", AT, void)),
    }


@vector("A countersign on the device of what it names is found where the method demands another", "hold")
def the_same_device_is_found_where_the_method_demands_another(s: Scene) -> Expect:
    s.office.pin("hold")
    gap = s.tech.reading(C, "gap", 12)
    sign = s.tech.countersign(C, "sign", [gap], by=OSKAR, auth="pin")
    return {
        "countersigns": [{"hash": sign, "counts": True, "why": ""}],
        "steps[step=check]/hold": "passed",
        "findings": findings(found("same_device", AT, sign)),
    }


@vector("A person picked from a list on the same device is found", "rivets")
def a_person_picked_on_the_same_device_is_found(s: Scene) -> Expect:
    s.office.pin("rivets")
    out = s.tech.rivet("H1", "shank_out")
    sign = s.tech.countersign("rivets:take_out", "sign", [out], by=OSKAR, auth="picked", roles=["foreman"])
    return {
        "countersigns": [{"hash": sign, "counts": True, "why": ""}],
        "findings": findings(found("picked_person", ["rivets", "take_out", "sign"], sign)),
    }


@vector("By PIN on the same device, where the method does not mind, is no finding", "rivets")
def a_pin_on_the_same_device_is_no_finding(s: Scene) -> Expect:
    s.office.pin("rivets")
    out = s.tech.rivet("H1", "shank_out")
    s.tech.countersign("rivets:take_out", "sign", [out], by=OSKAR, auth="pin", roles=["foreman"])
    return {"findings": []}


@vector("The countersign of a deviation must name it", "hold")
def the_countersign_of_a_deviation_must_name_it(s: Scene) -> Expect:
    s.office.pin("hold")
    s.tech.deviation("hold:judge", passes_hold=True)
    sign = s.second.countersign("hold:judge", "", [], roles=["foreman"])
    return {"countersigns": _void(sign, "missing"), "steps[step=judge]/hold": "held"}


@vector("The countersign of a deviation that was struck since is superseded", "hold")
def the_countersign_of_a_struck_deviation_is_superseded(s: Scene) -> Expect:
    s.office.pin("hold")
    deviation = s.tech.deviation("hold:judge", passes_hold=True)
    sign = s.second.countersign("hold:judge", "", [deviation], roles=["foreman"])
    s.tech.strike(deviation)
    return {"countersigns": _void(sign, "superseded"), "steps[step=judge]/hold": "held"}


@vector("One does not countersign one's own deviation", "hold")
def one_does_not_countersign_ones_own_deviation(s: Scene) -> Expect:
    s.office.pin("hold")
    deviation = s.tech.deviation("hold:judge", passes_hold=True)
    sign = s.tech.countersign("hold:judge", "", [deviation], roles=["foreman"])
    return {"countersigns": _void(sign, "own_value"), "steps[step=judge]/hold": "held"}


@vector("The countersign of one deviation does not make another pass the hold", "hold")
def the_countersign_of_one_deviation_passes_no_other(s: Scene) -> Expect:
    s.office.pin("hold")
    signed = s.tech.deviation("hold:judge", passes_hold=True)
    s.second.countersign("hold:judge", "", [signed], roles=["foreman"])
    s.tech.deviation("hold:judge", passes_hold=True)
    s.tech.strike(signed)
    return {"steps[step=judge]/hold": "held"}


@vector("Of two deviations one countersigned is enough", "hold")
def of_two_deviations_one_countersigned_is_enough(s: Scene) -> Expect:
    s.office.pin("hold")
    s.tech.deviation("hold:judge", passes_hold=True)
    signed = s.tech.deviation("hold:judge", passes_hold=True)
    s.second.countersign("hold:judge", "", [signed], roles=["foreman"])
    return {"steps[step=judge]/hold": "deviation"}


@vector("A rivet mark named in place of the deciding entry does not make it superseded", "rivets")
def a_mark_named_in_place_of_the_deciding_entry_is_missing(s: Scene) -> Expect:
    s.office.pin("rivets")
    s.tech.rivet("H1", "shank_out")
    hole = s.tech.mark("H1", "damaged_hole")
    sign = s.second.countersign("rivets:take_out", "sign", [hole], roles=["foreman"])
    return {"countersigns": _void(sign, "missing")}


@vector("Having written an entry that is set aside, and naming it, voids a countersign", "hold")
def having_written_an_entry_set_aside_voids_a_countersign(s: Scene) -> Expect:
    s.office.pin("hold")
    own = s.second.reading(C, "gap", 11)
    s.office.aside(own)
    gap = s.tech.reading(C, "gap", 12)
    sign = s.second.countersign(C, "sign", [own, gap])
    return {"countersigns": _void(sign, "own_value")}


@vector("A deviation that answers passes only if it is itself countersigned, not another of its step", "hold")
def a_countersign_signs_only_the_deviation_that_it_names(s: Scene) -> Expect:
    s.office.pin("hold")
    at = {"method": "hold", "digest": "f" * 64, "step": "judge"}
    other = s.tech.write("deviation", {"text": "as agreed", **at, "about": [], "passes_hold": True})
    sign = s.second.countersign("hold:judge", "", [other], roles=["foreman"])
    s.tech.deviation("hold:judge", passes_hold=True)
    return {
        "steps[step=judge]/hold": "held",
        "countersigns": [{"hash": sign, "counts": True, "why": ""}],
        "elsewhere": [other],
    }
