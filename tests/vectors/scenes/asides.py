"""Setting aside and admitting, unknown kinds and forms."""

from vectors.scene import Expect, Scene, findings, found, hashes, vector

M = "values:measure"


@vector("An entry named by an aside is counted and not folded", "values")
def an_entry_set_aside_is_not_folded(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    s.office.aside(gap)
    return {
        "count": 3,
        "aside": [gap],
        "steps[step=measure]/open": ["gap", "finish", "words", "edges", "clean"],
    }


@vector("Admit takes an entry back in", "values")
def admit_takes_an_entry_back_in(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    s.office.aside(gap)
    s.office.admit(gap)
    return {"aside": [], "registers[kind=reading]/shown": gap}


@vector("Admit wins over an aside that comes after it", "values")
def admit_wins_in_any_order(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    s.office.admit(gap)
    s.office.aside(gap)
    s.office.aside(gap, code="role")
    return {"aside": [], "registers[kind=reading]/shown": gap}


@vector("A struck admit does not admit", "values")
def a_struck_admit_does_not_admit(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    s.office.aside(gap)
    admit = s.office.admit(gap)
    strike = s.office.strike(admit)
    return {"aside": [gap], "struck": [{"target": admit, "by": [strike]}]}


@vector("One unstruck admit suffices though another is struck", "values")
def one_unstruck_admit_suffices(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    s.office.aside(gap)
    s.office.strike(s.office.admit(gap))
    s.office.admit(gap, reason="looked at again")
    return {"aside": []}


@vector("A strike of an aside does not bring its entry back; that is what admit is for", "values")
def a_struck_aside_still_sets_aside(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    aside = s.office.aside(gap)
    strike = s.office.strike(aside)
    return {"aside": [gap], "struck": [{"target": aside, "by": [strike]}]}


@vector("The over of an entry set aside does not act", "values")
def over_of_an_entry_set_aside_does_not_act(s: Scene) -> Expect:
    s.office.pin("values")
    first = s.tech.reading(M, "gap", 11)
    second = s.tech.reading(M, "gap", 12, over=[first])
    s.office.aside(second)
    return {"registers[kind=reading]/standing": [first], "registers[kind=reading]/shown": first}


@vector("An entry set aside is not even a link of a chain of over", "values")
def an_entry_set_aside_breaks_the_chain_of_over(s: Scene) -> Expect:
    s.office.pin("values")
    first = s.tech.reading(M, "gap", 11)
    middle = s.tech.reading(M, "gap", 12, over=[first])
    last = s.tech.reading(M, "gap", 13, over=[middle])
    s.office.aside(middle)
    return {"registers[kind=reading]/standing": hashes(first, last)}


@vector("The strike of an entry set aside does not act", "values")
def a_strike_set_aside_does_not_act(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    strike = s.tech.strike(gap)
    s.office.aside(strike)
    return {"struck": [], "aside": [strike], "registers[kind=reading]/shown": gap}


@vector("A strike of an entry set aside waits until it is admitted", "values")
def a_strike_of_an_entry_set_aside_waits(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    s.tech.strike(gap)
    s.office.aside(gap)
    return {"struck": [], "findings": []}


@vector("An aside that is itself set aside sets nothing aside", "values")
def an_aside_set_aside_does_not_act(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    forged = s.second.aside(gap)
    s.office.aside(forged, code="role")
    return {"aside": [forged], "registers[kind=reading]/shown": gap}


@vector("An admit that is itself set aside admits nothing", "values")
def an_admit_set_aside_does_not_act(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    s.office.aside(gap)
    forged = s.tech.admit(gap)
    s.office.aside(forged, code="role")
    return {"aside": hashes(gap, forged)}


@vector("A strike that is set aside does not undo an admit", "values")
def a_strike_set_aside_does_not_undo_an_admit(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    s.office.aside(gap)
    admit = s.office.admit(gap)
    strike = s.office.strike(admit)
    s.office.aside(strike)
    return {"aside": [strike]}


@vector("A strike of an admit by somebody without the right does not undo it", "values")
def an_idle_strike_does_not_undo_an_admit(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    s.office.aside(gap)
    admit = s.office.admit(gap)
    strike = s.tech.strike(admit)
    return {"aside": [], "findings": findings(found("strike_without_effect", [], strike, admit))}


@vector("An aside of an entry that has not arrived waits for it", "values")
def an_aside_waits_for_its_entry(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    s.office.aside(gap)
    del s.log[0]
    return {"aside": [], "count": 1}


@vector("One aside may name several entries, and an admit one of them", "values")
def an_aside_names_several_and_an_admit_one(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    words = s.tech.text(M, "words", "fine")
    s.office.aside(gap, words)
    s.office.admit(words)
    return {"aside": [gap], "registers[kind=text]/shown": words}


@vector("An entry of a kind not known here is kept, counted and not folded", "values")
def an_unknown_kind_is_kept_and_not_folded(s: Scene) -> Expect:
    unknown = s.tech.write("weather", {"rain": True})
    return {"count": 1, "unknown": [unknown], "registers": [], "findings": []}


@vector("An entry of another form of envelope is kept and not folded, whatever its kind", "values")
def an_unknown_form_is_kept_and_not_folded(s: Scene) -> Expect:
    s.office.pin("values")
    unknown = s.tech.tick("values:wipe", v=2)
    return {"unknown": [unknown], "steps[step=wipe]/done": ""}


@vector("A strike of another form does not act, for its meaning is not known here", "values")
def a_strike_of_another_form_does_not_act(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    strike = s.tech.strike(gap, v=2)
    return {"struck": [], "unknown": [strike]}


@vector("An aside of another form sets nothing aside", "values")
def an_aside_of_another_form_does_not_act(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    aside = s.office.aside(gap, v=2)
    return {"aside": [], "unknown": [aside]}


@vector("An unknown entry that is set aside is listed as set aside only")
def an_unknown_entry_set_aside_is_listed_once(s: Scene) -> Expect:
    unknown = s.tech.write("weather", {"rain": True})
    s.office.aside(unknown, code="not_yet_known")
    return {"aside": [unknown], "unknown": [], "count": 2}


@vector("An unknown entry can be struck: a strike works on any kind")
def an_unknown_entry_can_be_struck(s: Scene) -> Expect:
    unknown = s.tech.write("weather", {"rain": True})
    strike = s.tech.strike(unknown)
    return {"struck": [{"target": unknown, "by": [strike]}], "unknown": [unknown]}


@vector("A member that this fold does not know is passed over, and the rest folds", "values")
def an_unknown_member_of_a_body_is_passed_over(s: Scene) -> Expect:
    s.office.pin("values")
    body = {"method": "values", "digest": s.log[0]["body"]["methods"][0], "step": "wipe", "ask": ""}
    tick = s.tech.write("tick", {**body, "value": "done", "reason": "", "over": [], "mood": "good"})
    return {"steps[step=wipe]/tick": tick, "steps[step=wipe]/done": "done", "unknown": []}


@vector("A fork: two entries of one device and number are both folded, with a finding", "values")
def a_fork_is_folded_and_found(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    s.tech.fork_back(1)
    words = s.tech.text(M, "words", "fine")
    return {
        "registers[kind=reading]/shown": gap,
        "registers[kind=text]/shown": words,
        "findings": findings(found("fork", [s.tech.device, "1"], gap, words)),
    }


@vector("A fork whose other branch is set aside is no finding", "values")
def a_fork_set_aside_is_no_finding(s: Scene) -> Expect:
    gap = s.tech.reading(M, "gap", 12)
    s.tech.fork_back(1)
    s.tech.text(M, "words", "fine")
    s.office.aside(gap)
    return {"aside": [gap], "findings": []}


@vector("One number of two devices is no fork")
def one_number_of_two_devices_is_no_fork(s: Scene) -> Expect:
    s.tech.note()
    s.second.note()
    return {"findings": [], "count": 2}


@vector("A device's numbers count per job: one number in two jobs is no fork")
def one_number_in_two_jobs_is_no_fork(s: Scene) -> Expect:
    s.tech.note()
    s.tech.fork_back(1)
    s.tech.note(job="10000000-0000-4000-8000-000000000002")
    return {"count": 2, "findings": []}
