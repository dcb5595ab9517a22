"""Method revisions: what answers under the pinned one, what is elsewhere, pinning back, missing methods."""

from vectors.methods import digest
from vectors.scene import Expect, Scene, findings, found, hashes, vector

_ASKS = ["gap", "finish", "words", "edges", "clean"]


def _bare_step(step: str, asks: list[str], needs: list[str]) -> dict[str, object]:
    """A step of the method `values` for which nothing was recorded."""
    row = {"method": "values", "step": step, "done": "", "tick": "", "hold": "none"}
    return {**row, "open": asks, "not_asked": [], "needs_open": needs, "later": []}


@vector("An entry of an earlier revision answers where its step is byte-equal in both", "values", "values_2")
def an_entry_answers_where_its_step_is_byte_equal(s: Scene) -> Expect:
    pin = s.office.pin("values")
    tick = s.tech.tick("values:wipe")
    s.office.pin("values_2", over=[pin])
    return {"steps[step=wipe]/done": "done", "steps[step=wipe]/tick": tick, "elsewhere": [], "findings": []}


@vector(
    "An entry of an earlier revision does not answer where its step changed: the ask is open",
    "values",
    "values_2",
)
def an_entry_is_elsewhere_where_its_step_changed(s: Scene) -> Expect:
    pin = s.office.pin("values")
    gap = s.tech.reading("values:measure", "gap", 12)
    s.office.pin("values_2", over=[pin])
    return {
        "elsewhere": [gap],
        "registers[kind=reading]/shown": "",
        "registers[kind=reading]/standing": [],
        "steps[step=measure]/open": ["gap", "finish", "words", "edges", "clean"],
        "findings": findings(found("made_under_other_revision", ["values", "measure", "gap"], gap)),
    }


@vector("Pinning back makes an entry of that revision count again", "values", "values_2")
def pinning_back_makes_it_count_again(s: Scene) -> Expect:
    first = s.office.pin("values")
    gap = s.tech.reading("values:measure", "gap", 12)
    second = s.office.pin("values_2", over=[first])
    s.office.pin("values", over=[second])
    return {"elsewhere": [], "registers[kind=reading]/shown": gap, "findings": []}


@vector("A value replaced under the new revision stays replaced after pinning back", "values", "values_2")
def over_acts_across_revisions(s: Scene) -> Expect:
    first = s.office.pin("values")
    old = s.tech.reading("values:measure", "gap", 12)
    second = s.office.pin("values_2", over=[first])
    new = s.tech.reading("values_2:measure", "gap", 24, over=[old])
    s.office.pin("values", over=[second])
    return {
        "registers[kind=reading]/standing": [],
        "elsewhere": [new],
        "findings": findings(found("made_under_other_revision", ["values", "measure", "gap"], new)),
    }


@vector("A value of each revision does not make two values: one is elsewhere", "values", "values_2")
def values_of_two_revisions_are_not_two_values(s: Scene) -> Expect:
    s.office.pin("values_2")
    old = s.tech.reading("values:measure", "gap", 12)
    new = s.second.reading("values_2:measure", "gap", 13)
    return {
        "registers[kind=reading]/standing": [new],
        "elsewhere": [old],
        "findings": findings(found("made_under_other_revision", ["values", "measure", "gap"], old)),
    }


@vector(
    "A tick of a changed step leaves it undone; the limits are those of the pinned revision",
    "values",
    "values_2",
)
def a_reading_is_judged_by_the_pinned_revision(s: Scene) -> Expect:
    s.office.pin("values_2")
    s.tech.reading("values_2:measure", "gap", 24)
    old = s.tech.tick("values:measure")
    return {
        "steps[step=measure]/done": "",
        "findings": findings(found("made_under_other_revision", ["values", "measure"], old)),
    }


@vector("A replaced value of another revision is not listed as elsewhere", "values", "values_2")
def only_what_stands_is_elsewhere(s: Scene) -> Expect:
    s.office.pin("values_2")
    first = s.tech.reading("values:measure", "gap", 11)
    second = s.tech.reading("values:measure", "gap", 12, over=[first])
    return {"elsewhere": [second]}


@vector("An entry under a revision that is not held is elsewhere: nothing shows its step equal", "values_2")
def an_entry_of_a_revision_not_held_is_elsewhere(s: Scene) -> Expect:
    s.office.pin("values_2")
    tick = s.tech.tick("values:wipe")
    return {"elsewhere": [tick], "steps[step=wipe]/done": ""}


@vector("A pinned method that is not held is a state: it is named, and its entries are kept")
def a_missing_method_is_a_state(s: Scene) -> Expect:
    pin = s.office.pin("values")
    tick = s.tech.tick("values:wipe")
    return {
        "missing_methods": [digest("values")],
        "steps": [],
        "registers[kind=tick]/shown": tick,
        "elsewhere": [],
        "findings": findings(found("missing_method", [digest("values")], pin)),
    }


@vector("Steps of several methods stand in the order of the pin", "lock", "values")
def steps_stand_in_the_order_of_the_pin(s: Scene) -> Expect:
    s.office.pin("values", "lock")
    return {
        "steps/0/step": "wipe",
        "steps/1/step": "measure",
        "steps/2/step": "lock_out",
        "steps/5/step": "lock_again",
    }


@vector("An entry about a method that is not pinned is kept in its register", "values", "lock")
def an_entry_of_an_unpinned_method_stays_in_its_register(s: Scene) -> Expect:
    s.office.pin("lock")
    tick = s.tech.tick("values:wipe")
    return {"registers[kind=tick]/shown": tick, "elsewhere": [], "findings": []}


@vector("Without a pin there are no steps, and registers stand all the same", "values")
def without_a_pin_registers_stand_all_the_same(s: Scene) -> Expect:
    tick = s.tech.tick("values:wipe")
    return {"steps": [], "registers[kind=tick]/standing": [tick], "job/pin": "", "missing_methods": []}


@vector("A photo and a lot made under a changed step are elsewhere", "evidence", "evidence_2")
def a_photo_and_a_lot_of_a_changed_step_are_elsewhere(s: Scene) -> Expect:
    s.office.pin("evidence_2")
    photo = s.photographer.photo("evidence:show", "before")
    lot = s.tech.lot("evidence:glue", "paste", "paste_x")
    return {
        "slots[slot=before]/photos": [],
        "lots[ask=paste]/answers": [],
        "elsewhere": hashes(photo, lot),
        "loose_photos": [],
        "findings": findings(
            found("made_under_other_revision", ["evidence", "show", "before"], photo),
            found("made_under_other_revision", ["evidence", "glue", "paste"], lot),
        ),
    }


@vector("A deviation made under a changed step passes no hold, and stays listed", "hold", "hold_2")
def a_deviation_of_a_changed_step_passes_no_hold(s: Scene) -> Expect:
    s.office.pin("hold_2")
    deviation = s.tech.deviation("hold:check", passes_hold=True)
    return {
        "steps[step=check]/hold": "held",
        "deviations": [deviation],
        "elsewhere": [deviation],
        "findings": findings(found("made_under_other_revision", ["hold", "check"], deviation)),
    }


@vector(
    "A countersign made under a changed step is elsewhere and not among those that count", "hold", "hold_2"
)
def a_countersign_of_a_changed_step_is_elsewhere(s: Scene) -> Expect:
    s.office.pin("hold_2")
    gap = s.tech.reading("hold_2:check", "gap", 12)
    sign = s.second.countersign("hold:check", "sign", [gap])
    return {
        "countersigns": [],
        "elsewhere": [sign],
        "findings": findings(found("made_under_other_revision", ["hold", "check", "sign"], sign)),
    }


@vector("Tally and notes belong to the job, whatever revision is pinned", "rivets", "values")
def tally_belongs_to_the_job(s: Scene) -> Expect:
    s.office.pin("rivets")
    rivet = s.tech.rivet("H1", "in_place")
    note = s.tech.note(step="values:wipe")
    return {"positions[position=H1]/deciding": rivet, "notes": [note], "elsewhere": []}


@vector("Of two pinned revisions of one method the first counts", "values", "values_2")
def of_two_pinned_revisions_of_one_method_the_first_counts(s: Scene) -> Expect:
    s.office.pin("values_2", "values")
    gap = s.tech.reading("values:measure", "gap", 12)
    return {
        "steps": [_bare_step("wipe", [], []), _bare_step("measure", _ASKS, ["wipe"])],
        "elsewhere": [gap],
        "missing_methods": [],
    }


@vector("A position that two groups list is one position, of its first group", "both", "rivets")
def a_position_of_two_groups_is_one_position(s: Scene) -> Expect:
    s.office.pin("both", "rivets")
    return {
        "positions/0/position": "H1",
        "positions/1/position": "H2",
        "positions/1/group": "first",
        "positions/2/position": "H3",
        "positions/2/group": "second",
        "counts": {"untouched": 3},
    }


@vector("A condition of two methods is one, and a later method's step clears it", "lock", "both")
def a_condition_of_two_methods_is_one(s: Scene) -> Expect:
    s.office.pin("lock", "both")
    s.tech.tick("lock:lock_out")
    closed = s.tech.tick("both:close_up")
    return {"conditions": [{"id": "locked", "on": False, "by": [closed], "asked": ""}]}


@vector("A slot photo of a changed step is elsewhere, even if the pinned step has no such slot", "evidence_2")
def a_slot_photo_of_a_changed_step_is_not_loose(s: Scene) -> Expect:
    s.office.pin("evidence_2")
    photo = s.photographer.photo("evidence:show", "sideways")
    return {"elsewhere": [photo], "loose_photos": []}
