"""Registers: which values stand, which is shown, and what `over` can and cannot do."""

from vectors.scene import MARA, OSKAR, Expect, Scene, findings, found, hashes, vector

M = "values:measure"
AT = ["values", "measure", "gap"]


@vector("A value is shown, stands and answers its ask", "values")
def a_value_is_shown_and_answers_its_ask(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    return {
        "registers[kind=reading]/shown": gap,
        "registers[kind=reading]/standing": [gap],
        "steps[step=measure]/open": ["finish", "words", "edges", "clean"],
        "findings": [],
        "count": 2,
    }


@vector("A value that names another by over replaces it, whatever the clocks say", "values")
def a_correction_replaces_what_it_names_even_with_an_earlier_clock(s: Scene) -> Expect:
    s.office.pin("values")
    wrong = s.tech.reading(M, "gap", 12)
    right = s.tech.reading(M, "gap", 13, over=[wrong], at_ms=1000)
    return {
        "registers[kind=reading]/shown": right,
        "registers[kind=reading]/standing": [right],
        "findings": [],
    }


@vector("A value is replaced through a chain of over though its replacer was replaced in turn", "values")
def over_reaches_through_a_chain(s: Scene) -> Expect:
    s.office.pin("values")
    first = s.tech.reading(M, "gap", 11)
    middle = s.tech.reading(M, "gap", 12, over=[first])
    last = s.tech.reading(M, "gap", 13, over=[middle])
    return {"registers[kind=reading]/standing": [last], "findings": []}


@vector("A struck link of a chain of over still carries the chain", "values")
def a_struck_link_does_not_break_the_chain_of_over(s: Scene) -> Expect:
    s.office.pin("values")
    first = s.tech.reading(M, "gap", 11)
    middle = s.tech.reading(M, "gap", 12, over=[first])
    last = s.tech.reading(M, "gap", 13, over=[middle])
    strike = s.tech.strike(middle)
    return {
        "registers[kind=reading]/standing": [last],
        "struck": [{"target": middle, "by": [strike]}],
        "findings": [],
    }


@vector("When the only replacer is struck, what it replaced stands again", "values")
def striking_the_replacer_brings_the_replaced_back(s: Scene) -> Expect:
    s.office.pin("values")
    first = s.tech.reading(M, "gap", 11)
    second = s.tech.reading(M, "gap", 12, over=[first])
    s.tech.strike(second)
    return {"registers[kind=reading]/shown": first, "registers[kind=reading]/standing": [first]}


@vector(
    "When the last of a chain is struck, the link before it stands and the first stays replaced", "values"
)
def striking_the_last_of_a_chain_leaves_the_link_before_it(s: Scene) -> Expect:
    s.office.pin("values")
    first = s.tech.reading(M, "gap", 11)
    middle = s.tech.reading(M, "gap", 12, over=[first])
    last = s.tech.reading(M, "gap", 13, over=[middle])
    s.tech.strike(last)
    return {"registers[kind=reading]/standing": [middle]}


@vector("Two values side by side both stand; the later is shown and a finding names both", "values")
def two_values_side_by_side_show_the_later_and_are_found(s: Scene) -> Expect:
    s.office.pin("values")
    one = s.tech.reading(M, "gap", 12)
    other = s.second.reading(M, "gap", 14)
    return {
        "registers[kind=reading]/shown": other,
        "registers[kind=reading]/standing": hashes(one, other),
        "findings": findings(found("two_values", AT, one, other)),
    }


@vector("Of values with one wall clock time the greatest hash is shown", "values")
def two_values_of_one_time_show_the_greatest_hash(s: Scene) -> Expect:
    s.office.pin("values")
    one = s.tech.reading(M, "gap", 12, at_ms=5000)
    other = s.second.reading(M, "gap", 14, at_ms=5000)
    return {"registers[kind=reading]/shown": max(one, other)}


@vector("Two people who record the same value still leave two values", "values")
def two_equal_values_are_two_values(s: Scene) -> Expect:
    s.office.pin("values")
    one = s.tech.tick("values:wipe")
    other = s.second.tick("values:wipe")
    return {
        "steps[step=wipe]/done": "done",
        "findings": findings(found("two_values", ["values", "wipe"], one, other)),
    }


@vector("Three values side by side make one finding that names all three", "values")
def two_values_names_all_that_stand(s: Scene) -> Expect:
    s.office.pin("values")
    these = [w.text(M, "words", "fine") for w in (s.tech, s.second, s.office)]
    return {
        "registers[kind=text]/shown": these[2],
        "findings": findings(found("two_values", ["values", "measure", "words"], *these)),
    }


@vector("One value over both of two settles them", "values")
def one_over_both_settles_two_values(s: Scene) -> Expect:
    s.office.pin("values")
    one = s.tech.reading(M, "gap", 12)
    other = s.second.reading(M, "gap", 14)
    settled = s.tech.reading(M, "gap", 13, over=[one, other])
    return {"registers[kind=reading]/standing": [settled], "findings": []}


@vector("Over to a value of another key has no effect and is a finding", "values")
def over_to_another_key_has_no_effect(s: Scene) -> Expect:
    s.office.pin("values")
    left = s.tech.reading(M, "edges", 5, point="left")
    right = s.tech.reading(M, "edges", 6, point="right", over=[left])
    return {
        "registers[point=left]/shown": left,
        "registers[point=right]/shown": right,
        "findings": findings(
            found("over_without_effect", ["values", "measure", "edges", "right"], left, right)
        ),
    }


@vector("Over to a value of another kind has no effect and is a finding", "values")
def over_to_another_kind_has_no_effect(s: Scene) -> Expect:
    s.office.pin("values")
    words = s.tech.text(M, "words", "fine")
    tick = s.tech.tick(M, ask="words", over=[words])
    return {
        "registers[kind=text]/shown": words,
        "findings": findings(found("over_without_effect", ["values", "measure", "words"], tick, words)),
    }


@vector("An over to an entry that has not arrived yet is no finding", "values")
def over_to_an_absent_entry_waits(s: Scene) -> Expect:
    s.office.pin("values")
    late = s.tech.reading(M, "gap", 12)
    value = s.tech.reading(M, "gap", 13, over=[late])
    s.log[:] = [entry for entry in s.log if entry["hash"] != late]
    return {"registers[kind=reading]/standing": [value], "findings": []}


@vector("The points of a reading are registers of their own", "values")
def each_point_of_a_reading_is_its_own_register(s: Scene) -> Expect:
    s.office.pin("values")
    left = s.tech.reading(M, "edges", 5, point="left")
    return {
        "registers[point=left]/shown": left,
        "steps[step=measure]/open": ["gap", "finish", "words", "edges", "clean"],
    }


@vector("A reading of several points is answered when every point is", "values")
def a_reading_of_points_is_answered_by_all_of_them(s: Scene) -> Expect:
    s.office.pin("values")
    s.tech.reading(M, "edges", 5, point="left")
    s.second.reading(M, "edges", 6, point="right")
    return {"steps[step=measure]/open": ["gap", "finish", "words", "clean"]}


@vector("Assign has one register per person, and off takes a person from the job")
def assign_is_a_register_per_person(s: Scene) -> Expect:
    mara = s.office.assign(MARA)
    s.office.assign(OSKAR)
    off = s.office.assign(MARA, on=False, over=[mara])
    return {"job/assigned": [OSKAR], f"registers[point={MARA}]/shown": off, "findings": []}


@vector("Two assigns of one person are found at that person")
def two_assigns_are_found_at_the_person(s: Scene) -> Expect:
    on = s.office.assign(MARA)
    off = s.office.assign(MARA, on=False)
    return {"job/assigned": [], "findings": findings(found("two_values", ["assign", MARA], on, off))}


@vector("Open, place and pin are registers of the job")
def open_place_and_pin_are_registers_of_the_job(s: Scene) -> Expect:
    opened = s.office.open()
    hoist = s.office.place("hoist 1")
    bay = s.office.place("bay 2", over=[hoist])
    pin = s.office.pin()
    return {"job/open": opened, "job/place": bay, "job/pin": pin, "findings": []}


@vector("Two pins side by side: the later is shown, and both are found")
def two_pins_show_the_later(s: Scene) -> Expect:
    one = s.office.pin()
    other = s.office.pin()
    return {"job/pin": other, "findings": findings(found("two_values", ["pin"], one, other))}


@vector("Close and reopen are one register: a reopen over the close opens the job again")
def reopen_replaces_close_in_one_register(s: Scene) -> Expect:
    close = s.office.close()
    reopen = s.office.reopen(over=[close])
    return {
        "job/life": reopen,
        "job/closed": False,
        "registers[kind=life]/standing": [reopen],
        "findings": [],
    }


@vector("A close that stands closes the job")
def close_closes_the_job(s: Scene) -> Expect:
    close = s.office.close()
    return {"job/life": close, "job/closed": True}


@vector("A register whose every value is struck stays listed and shows nothing", "values")
def a_register_with_all_values_struck_shows_nothing(s: Scene) -> Expect:
    s.office.pin("values")
    gap = s.tech.reading(M, "gap", 12)
    s.tech.strike(gap)
    return {"registers[kind=reading]/shown": "", "registers[kind=reading]/standing": []}


@vector("A file entry is listed, and it neither closes nor replaces", "values")
def filing_is_a_set(s: Scene) -> Expect:
    one = s.office.file()
    two = s.office.file()
    return {"job/filed": hashes(one, two), "job/closed": False, "findings": []}


@vector("The same entry twice counts once")
def the_same_entry_twice_counts_once(s: Scene) -> Expect:
    opened = s.office.open()
    s.log.append(dict(s.log[0]))
    return {"count": 1, "job/open": opened, "findings": []}
