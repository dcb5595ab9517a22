"""Strikes: rights, reach, and what a strike cannot do."""

from vectors.scene import Expect, Scene, findings, found, hashes, vector

M = "values:measure"


@vector("One strikes one's own entry", "values")
def one_strikes_ones_own(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    strike = s.tech.strike(gap)
    return {"struck": [{"target": gap, "by": [strike]}], "registers[kind=reading]/shown": "", "findings": []}


@vector("One's own is what the same person wrote, on whatever device", "values")
def ones_own_is_by_person_and_not_by_device(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    strike = s.second.strike(gap, by=s.tech.by, auth="pin")
    return {"struck": [{"target": gap, "by": [strike]}], "findings": []}


@vector("Office strikes anybody's entry, with a reason", "values")
def office_strikes_any_with_a_reason(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    strike = s.office.strike(gap, reason="another car's value")
    return {"struck": [{"target": gap, "by": [strike]}], "findings": []}


@vector("A strike of another's entry without office has no effect and is a finding", "values")
def another_persons_strike_has_no_effect(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    strike = s.second.strike(gap)
    return {
        "struck": [],
        "registers[kind=reading]/standing": [gap],
        "findings": findings(found("strike_without_effect", ["values", "measure", "gap"], strike, gap)),
    }


@vector("A strike of a strike has no effect and is a finding; the entry stays struck", "values")
def a_strike_of_a_strike_has_no_effect(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    strike = s.tech.strike(gap)
    again = s.tech.strike(strike)
    return {
        "struck": [{"target": gap, "by": [strike]}],
        "findings": findings(found("strike_without_effect", [], strike, again)),
    }


@vector("Two strikes of one entry are both named", "values")
def two_strikes_of_one_entry_are_both_named(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    own = s.tech.strike(gap)
    office = s.office.strike(gap)
    return {"struck": [{"target": gap, "by": hashes(own, office)}], "findings": []}


@vector("A strike of an entry that has not arrived waits without a finding", "values")
def a_strike_of_an_absent_entry_waits(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    s.tech.strike(gap)
    del s.log[0]
    return {"struck": [], "findings": [], "count": 1}


@vector("A strike works on notes, photos, lots, marks and countersigns alike", "evidence")
def a_strike_works_on_members_of_sets(s: Scene) -> Expect:
    s.office.pin("evidence")
    note = s.tech.note()
    photo = s.tech.photo("evidence:show", "before")
    lot = s.tech.lot("evidence:glue", "paste", "paste_x")
    mark = s.tech.mark("H1", "damaged_hole")
    for target in (note, photo, lot, mark):
        s.tech.strike(target)
    return {
        "notes": [],
        "slots[slot=before]/photos": [],
        "lots[ask=paste]/answers": [],
        "findings": [],
    }


@vector("A struck accept accepts nothing", "values")
def a_struck_accept_accepts_nothing(s: Scene) -> Expect:
    s.office.pin("values")
    one, two = s.tech.reading(M, "gap", 12), s.second.reading(M, "gap", 13)
    accept = s.office.accept("two_values", ["values", "measure", "gap"], [one, two])
    s.office.strike(accept)
    return {"findings": findings(found("two_values", ["values", "measure", "gap"], one, two))}


@vector("A struck deviation is not listed and passes no hold", "hold")
def a_struck_deviation_passes_no_hold(s: Scene) -> Expect:
    s.office.pin("hold")
    deviation = s.tech.deviation("hold:check", passes_hold=True)
    s.tech.strike(deviation)
    return {"deviations": [], "steps[step=check]/hold": "held"}


@vector("The over of a struck value to another key is no finding: the value is taken away", "values")
def the_over_of_a_struck_value_to_another_key_is_no_finding(s: Scene) -> Expect:
    s.office.pin("values")
    left = s.tech.reading(M, "edges", 5, point="left")
    s.tech.strike(s.tech.reading(M, "edges", 6, point="right", over=[left]))
    return {"registers[point=left]/shown": left, "findings": []}
