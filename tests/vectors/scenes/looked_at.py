"""Standing conditions that were looked at, and steps that were put off."""

from vectors.scene import Expect, Scene, findings, found, hashes, vector


@vector("A condition looked at and holding is shown, and changes nothing else", "asked")
def a_condition_looked_at_shows_the_look(s: Scene) -> Expect:
    s.office.pin("asked")
    tick = s.tech.tick("asked:first")
    look = s.tech.condition("braced")
    return {
        "conditions": [{"id": "braced", "on": True, "by": [tick], "asked": look}],
        "registers[kind=condition]/shown": look,
        "registers[kind=condition]/point": "braced",
    }


@vector("A condition found gone is a finding while that is shown; what its steps say stays", "asked")
def a_condition_found_gone_is_found(s: Scene) -> Expect:
    s.office.pin("asked")
    look = s.tech.condition("braced", holds=False)
    return {
        "conditions": [{"id": "braced", "on": False, "by": [], "asked": look}],
        "findings": findings(found("condition_gone", ["braced"], look)),
    }


@vector("A later look that replaces the one that found it gone ends the finding", "asked")
def a_condition_that_holds_again_is_no_finding(s: Scene) -> Expect:
    s.office.pin("asked")
    gone = s.tech.condition("braced", holds=False)
    again = s.second.condition("braced", over=[gone])
    return {"conditions[id=braced]/asked": again, "findings": []}


@vector("A struck look is none", "asked")
def a_struck_look_is_none(s: Scene) -> Expect:
    s.office.pin("asked")
    s.tech.strike(s.tech.condition("braced", holds=False))
    return {"conditions[id=braced]/asked": "", "findings": []}


@vector("Striking the look that replaced it brings the condition found gone back", "asked")
def striking_the_later_look_brings_gone_back(s: Scene) -> Expect:
    s.office.pin("asked")
    gone = s.tech.condition("braced", holds=False)
    s.tech.strike(s.tech.condition("braced", over=[gone]))
    return {
        "conditions[id=braced]/asked": gone,
        "findings": findings(found("condition_gone", ["braced"], gone)),
    }


@vector("Two looks that do not know of each other are two values, and the later one is shown", "asked")
def two_looks_side_by_side_are_found(s: Scene) -> Expect:
    s.office.pin("asked")
    gone = s.tech.condition("braced", holds=False)
    holds = s.second.condition("braced")
    return {
        "conditions[id=braced]/asked": holds,
        "findings": findings(found("two_values", ["condition", "braced"], gone, holds)),
    }


@vector("Of two looks side by side the shown one decides: if that found it gone, both are found", "asked")
def of_two_looks_the_shown_one_decides(s: Scene) -> Expect:
    s.office.pin("asked")
    holds = s.second.condition("braced")
    gone = s.tech.condition("braced", holds=False)
    two = found("two_values", ["condition", "braced"], gone, holds)
    return {"findings": findings(found("condition_gone", ["braced"], gone), two)}


@vector("A condition that no pinned method has can be found gone, and has no row")
def a_condition_of_no_method_can_be_gone(s: Scene) -> Expect:
    look = s.tech.condition("braced", holds=False)
    return {"conditions": [], "findings": findings(found("condition_gone", ["braced"], look))}


@vector("Conditions are looked at one by one: each has its own register")
def each_condition_has_its_own_register(s: Scene) -> Expect:
    one = s.tech.condition("braced", holds=False)
    two = s.tech.condition("on_stands", over=[one])
    return {
        "findings": findings(
            found("condition_gone", ["braced"], one),
            found("over_without_effect", ["condition", "on_stands"], one, two),
        )
    }


@vector("A step put off lists it; it is still open and not done", "values")
def a_step_put_off_lists_it(s: Scene) -> Expect:
    s.office.pin("values")
    one, two = s.tech.later("values:wipe"), s.second.later("values:wipe", "the bay is full")
    return {
        "steps[step=wipe]/later": hashes(one, two),
        "steps[step=wipe]/done": "",
        "steps[step=measure]/later": [],
        "findings": [],
    }


@vector("A struck putting off is none", "values")
def a_struck_putting_off_is_none(s: Scene) -> Expect:
    s.office.pin("values")
    s.tech.strike(s.tech.later("values:wipe"))
    return {"steps[step=wipe]/later": []}


@vector("Doing a step that was put off makes no finding", "values")
def doing_a_step_put_off_is_no_finding(s: Scene) -> Expect:
    s.office.pin("values")
    later = s.tech.later("values:wipe")
    s.tech.tick("values:wipe")
    return {"steps[step=wipe]/done": "done", "steps[step=wipe]/later": [later], "findings": []}


@vector("Putting off a step that has changed since is forgotten, and no finding", "values", "values_2")
def putting_off_a_changed_step_is_forgotten(s: Scene) -> Expect:
    pin = s.office.pin("values")
    s.tech.later("values:measure")
    kept = s.tech.later("values:wipe")
    s.office.pin("values_2", over=[pin])
    return {
        "steps[step=measure]/later": [],
        "steps[step=wipe]/later": [kept],
        "elsewhere": [],
        "findings": [],
    }
