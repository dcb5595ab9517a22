"""send_back: the value stays shown, answers nothing, and gives way to others that stand."""

from vectors.scene import Expect, Scene, findings, found, hashes, vector

M = "values:measure"


@vector("A value sent back stays shown as sent back, and its ask is open", "values")
def a_value_sent_back_stays_shown_and_answers_nothing(s: Scene) -> Expect:
    s.office.pin("values")
    words = s.tech.text(M, "words", "fine")
    s.office.send_back(words)
    return {
        "registers[kind=text]/shown": words,
        "registers[kind=text]/standing": [words],
        "registers[kind=text]/sent_back": [words],
        "steps[step=measure]/open": ["gap", "finish", "words", "edges", "clean"],
    }


@vector("If other values stand, the greatest that was not sent back is shown", "values")
def the_greatest_not_sent_back_is_shown(s: Scene) -> Expect:
    s.office.pin("values")
    lowest = s.tech.text(M, "words", "a")
    middle = s.second.text(M, "words", "b")
    highest = s.tech.text(M, "words", "c")
    s.office.send_back(highest)
    return {
        "registers[kind=text]/shown": middle,
        "registers[kind=text]/standing": hashes(lowest, middle, highest),
        "registers[kind=text]/sent_back": [highest],
        "steps[step=measure]/open": ["gap", "finish", "edges", "clean"],
    }


@vector("When all that stand are sent back, the greatest stays shown", "values")
def when_all_are_sent_back_the_greatest_stays_shown(s: Scene) -> Expect:
    s.office.pin("values")
    one = s.tech.text(M, "words", "a")
    two = s.second.text(M, "words", "b")
    s.office.send_back(one, two)
    return {
        "registers[kind=text]/shown": two,
        "findings": findings(found("two_values", ["values", "measure", "words"], one, two)),
    }


@vector("A new value over the one sent back answers", "values")
def a_new_value_over_the_one_sent_back_answers(s: Scene) -> Expect:
    s.office.pin("values")
    old = s.tech.text(M, "words", "a")
    s.office.send_back(old)
    new = s.tech.text(M, "words", "b", over=[old])
    return {
        "registers[kind=text]/shown": new,
        "registers[kind=text]/sent_back": [],
        "steps[step=measure]/open": ["gap", "finish", "edges", "clean"],
        "findings": [],
    }


@vector("A tick sent back leaves its step undone and still shown", "values")
def a_tick_sent_back_leaves_its_step_undone(s: Scene) -> Expect:
    s.office.pin("values")
    tick = s.tech.tick("values:wipe")
    s.office.send_back(tick)
    return {
        "steps[step=wipe]/done": "",
        "steps[step=wipe]/tick": tick,
        "steps[step=measure]/needs_open": ["wipe"],
    }


@vector("A photo sent back leaves its slot, a lot sent back its ask", "evidence")
def photos_and_lots_sent_back_answer_nothing(s: Scene) -> Expect:
    s.office.pin("evidence")
    photo = s.photographer.photo("evidence:show", "before")
    lot = s.tech.lot("evidence:glue", "paste", "paste_x")
    s.office.send_back(photo, lot)
    return {
        "slots[slot=before]/photos": [],
        "lots[ask=paste]/answers": [],
        "steps[step=show]/open": ["before", "after"],
        "steps[step=glue]/open": ["paste"],
    }


@vector("A struck send_back sends nothing back", "values")
def a_struck_send_back_sends_nothing_back(s: Scene) -> Expect:
    s.office.pin("values")
    words = s.tech.text(M, "words", "fine")
    sent = s.office.send_back(words)
    s.office.strike(sent)
    return {"registers[kind=text]/sent_back": []}


@vector("A send_back that names a note changes nothing", "values")
def sending_a_note_back_changes_nothing(s: Scene) -> Expect:
    note = s.tech.note()
    s.office.send_back(note)
    return {"notes": [note], "findings": []}
