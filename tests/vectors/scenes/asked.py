"""Asks with a `when`: asked only while that choice of their step shows that option."""

from vectors.scene import Expect, Scene, findings, found, vector

SORT = "asked:sort"
# of `sort`: joint glued or bolted; if glued: gap (0.5 to 2.0 mm) and paste; if bolted: thread fine or torn,
# where torn stops the work; if torn: why


@vector(
    "While the choice is unanswered what hangs on it is not asked, and the choice itself is open", "asked"
)
def an_unanswered_choice_leaves_what_hangs_on_it_unasked(s: Scene) -> Expect:
    s.office.pin("asked")
    return {
        "steps[step=sort]/open": ["joint", "sign"],
        "steps[step=sort]/not_asked": ["gap", "paste", "thread", "why"],
        "steps[step=sort]/hold": "held",
    }


@vector("When the choice shows the option, what hangs on it is asked", "asked")
def a_met_when_asks(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.choice(SORT, "joint", "glued")
    return {
        "steps[step=sort]/open": ["gap", "paste", "sign"],
        "steps[step=sort]/not_asked": ["thread", "why"],
    }


@vector("A hold passes without the answers of asks that are not asked", "asked")
def a_hold_passes_without_what_is_not_asked(s: Scene) -> Expect:
    s.office.pin("asked")
    joint = s.tech.choice(SORT, "joint", "bolted")
    thread = s.tech.choice(SORT, "thread", "fine")
    s.second.countersign(SORT, "sign", [joint, thread])
    return {"steps[step=sort]/hold": "passed", "steps[step=sort]/open": [], "findings": []}


@vector("A reading outside its limits at an ask that is not asked is not judged and holds no hold", "asked")
def a_value_of_an_unasked_ask_is_not_judged(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.reading(SORT, "gap", 99)
    joint = s.tech.choice(SORT, "joint", "bolted")
    thread = s.tech.choice(SORT, "thread", "fine")
    s.second.countersign(SORT, "sign", [joint, thread])
    return {"steps[step=sort]/hold": "passed", "findings": []}


@vector("The same reading is judged when the choice is corrected to where it is asked", "asked")
def a_corrected_choice_asks_and_judges(s: Scene) -> Expect:
    s.office.pin("asked")
    gap = s.tech.reading(SORT, "gap", 99)
    bolted = s.tech.choice(SORT, "joint", "bolted")
    s.tech.choice(SORT, "joint", "glued", over=[bolted])
    return {
        "steps[step=sort]/open": ["paste", "sign"],
        "findings": findings(found("outside_limits", ["asked", "sort", "gap"], gap)),
    }


@vector("A wrong lot at an ask that is not asked stays in its row, unmarked and not found", "asked")
def a_lot_of_an_unasked_ask_is_not_judged(s: Scene) -> Expect:
    s.office.pin("asked")
    lot = s.tech.lot(SORT, "paste", "paste_y")
    s.tech.choice(SORT, "joint", "bolted")
    return {
        "lots": [{"method": "asked", "step": "sort", "ask": "paste", "answers": [lot], "marked": []}],
        "findings": [],
    }


@vector("A choice that is not asked asks nothing itself, though it shows the option", "asked")
def what_hangs_on_an_unasked_choice_is_not_asked(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.choice(SORT, "joint", "glued")
    s.tech.choice(SORT, "thread", "torn")
    return {"steps[step=sort]/not_asked": ["thread", "why"], "findings": []}


@vector("A choice on which another hangs asks down the chain", "asked")
def a_when_follows_a_chain_of_choices(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.choice(SORT, "joint", "bolted")
    torn = s.tech.choice(SORT, "thread", "torn")
    return {
        "steps[step=sort]/open": ["why", "sign"],
        "steps[step=sort]/not_asked": ["gap", "paste"],
        "findings": findings(found("stop_option", ["asked", "sort", "thread"], torn)),
    }


@vector("A choice that is sent back asks nothing until it is answered again", "asked")
def a_choice_sent_back_asks_nothing(s: Scene) -> Expect:
    s.office.pin("asked")
    joint = s.tech.choice(SORT, "joint", "glued")
    s.office.send_back(joint)
    return {"steps[step=sort]/open": ["joint", "sign"]}


@vector("A done step has open asks only where they are asked", "asked")
def an_unasked_ask_of_a_done_step_is_no_finding(s: Scene) -> Expect:
    s.office.pin("asked")
    joint = s.tech.choice(SORT, "joint", "bolted")
    thread = s.tech.choice(SORT, "thread", "fine")
    s.second.countersign(SORT, "sign", [joint, thread])
    s.tech.tick(SORT)
    return {"steps[step=sort]/done": "done", "findings": []}


@vector("A countersign need not name the value of an ask that is not asked", "asked")
def a_countersign_need_not_name_what_is_not_asked(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.reading(SORT, "gap", 12)
    joint = s.tech.choice(SORT, "joint", "bolted")
    sign = s.second.countersign(SORT, "sign", [joint])
    return {"countersigns": [{"hash": sign, "counts": True, "why": ""}], "findings": []}


@vector("A countersign is void when a correction has asked for a value that it does not name", "asked")
def a_countersign_must_name_what_is_asked_since(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.reading(SORT, "gap", 12)
    bolted = s.tech.choice(SORT, "joint", "bolted")
    glued = s.tech.choice(SORT, "joint", "glued", over=[bolted])
    sign = s.second.countersign(SORT, "sign", [glued])
    return {
        "countersigns": [{"hash": sign, "counts": False, "why": "missing"}],
        "findings": findings(found("void_countersign", ["asked", "sort", "sign"], sign)),
    }


@vector("Choices that hang on each other, and an ask that hangs on no choice, are never asked", "asked")
def a_when_in_a_circle_or_of_no_choice_is_never_met(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.choice("asked:circle", "here", "go")
    s.tech.choice("asked:circle", "there", "go")
    return {"steps[step=circle]/not_asked": ["here", "there", "lost"], "steps[step=circle]/open": []}
