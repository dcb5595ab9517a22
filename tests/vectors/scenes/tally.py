"""The tally: the ladder, generations, marks, counts, pieces, and the computation over them."""

from vectors.methods import digest
from vectors.scene import Expect, Scene, findings, found, vector

ONE_EACH = {"head": 1, "mandrel": 1, "shank": 1}
NONE = {"head": 0, "mandrel": 0, "shank": 0}


@vector("The furthest state along the ladder decides, whatever the clocks say", "rivets")
def the_furthest_state_decides_whatever_the_clocks_say(s: Scene) -> Expect:
    s.office.pin("rivets")
    far = s.tech.rivet("H1", "head_off", at_ms=1000)
    s.second.rivet("H1", "mandrel_out")
    return {
        "positions[position=H1]/state": "head_off",
        "positions[position=H1]/deciding": far,
        "positions[position=H1]/place": "head_off",
        "findings": [],
    }


@vector("The ladder is one: setting states stand below in place, taking out above", "setting")
def one_ladder_from_setting_to_taking_out(s: Scene) -> Expect:
    s.office.pin("setting")
    s.tech.rivet("P1", "in_place", 1)
    s.tech.rivet("P1", "set_and_checked", 1)
    s.tech.rivet("P2", "hole_checked", 1)
    s.tech.rivet("P2", "rivet_seated", 1)
    return {"positions[position=P1]/state": "in_place", "positions[position=P2]/state": "rivet_seated"}


@vector("Of entries at one state the greatest (at_ms, hash) decides", "rivets")
def of_entries_at_one_state_the_greatest_decides(s: Scene) -> Expect:
    s.office.pin("rivets")
    s.tech.rivet("H1", "head_off")
    later = s.second.rivet("H1", "head_off")
    return {"positions[position=H1]/deciding": later}


@vector("Striking the furthest state brings the next one back", "rivets")
def striking_the_furthest_state_brings_the_next_back(s: Scene) -> Expect:
    s.office.pin("rivets")
    near = s.tech.rivet("H1", "mandrel_out")
    s.tech.strike(s.tech.rivet("H1", "shank_out"))
    return {"positions[position=H1]/deciding": near, "pieces/owed": NONE}


@vector("A position that nobody touched stands as untouched; counts sum to the positions", "rivets")
def untouched_positions_are_counted(s: Scene) -> Expect:
    s.office.pin("rivets")
    s.tech.rivet("H2", "in_place")
    return {"counts": {"untouched": 1, "in_place": 1}, "positions[position=H1]/place": "untouched"}


@vector("The highest generation is shown, however far the one before it came", "setting")
def the_highest_generation_is_shown(s: Scene) -> Expect:
    s.office.pin("setting")
    s.tech.rivet("P1", "shank_out", 0)
    new = s.tech.rivet("P1", "hole_checked", 1)
    return {
        "positions[position=P1]/generation": 1,
        "positions[position=P1]/state": "hole_checked",
        "positions[position=P1]/deciding": new,
        "counts": {"hole_checked": 1, "untouched": 1},
        "pieces/owed": ONE_EACH,
    }


@vector("A rivet taken out owes three pieces, each generation its own", "setting")
def each_generation_taken_out_owes_three_pieces(s: Scene) -> Expect:
    s.office.pin("setting")
    s.tech.rivet("P1", "shank_out", 0)
    s.tech.rivet("P1", "shank_out", 1)
    s.tech.rivet("P2", "head_off", 1)
    return {"pieces": {"owed": {"head": 2, "mandrel": 2, "shank": 2}, "lost": NONE}}


@vector("An open lost outranks the state in the count", "rivets")
def an_open_lost_outranks_the_state(s: Scene) -> Expect:
    s.office.pin("rivets")
    s.tech.rivet("H1", "shank_out")
    lost = s.tech.mark("H1", "lost", "shank")
    return {
        "positions[position=H1]/state": "shank_out",
        "positions[position=H1]/place": "lost",
        "positions[position=H1]/marks": [{"hash": lost, "mark": "lost", "piece": "shank", "open": True}],
        "counts": {"lost": 1, "untouched": 1},
        "pieces": {"owed": ONE_EACH, "lost": {"head": 0, "mandrel": 0, "shank": 1}},
        "findings": findings(found("lost_piece", ["H1"], lost)),
    }


@vector("A mark found that names its lost closes it; both stay listed", "rivets")
def found_closes_the_lost_that_it_names(s: Scene) -> Expect:
    s.office.pin("rivets")
    lost = s.tech.mark("H1", "lost", "head")
    seen = s.second.mark("H1", "found", "head", lost)
    return {
        "positions[position=H1]/marks": [
            {"hash": one, "mark": word, "piece": "head", "open": False}
            for one, word in sorted([(lost, "lost"), (seen, "found")])
        ],
        "positions[position=H1]/place": "untouched",
        "pieces/lost": NONE,
        "findings": [],
    }


@vector("A found closes only the lost that it names", "rivets")
def found_closes_no_other_lost(s: Scene) -> Expect:
    s.office.pin("rivets")
    head = s.tech.mark("H1", "lost", "head")
    shank = s.tech.mark("H1", "lost", "shank")
    s.tech.mark("H1", "found", "head", head)
    return {
        "pieces/lost": {"head": 0, "mandrel": 0, "shank": 1},
        "findings": findings(found("lost_piece", ["H1"], shank)),
    }


@vector("A struck found opens the lost again", "rivets")
def a_struck_found_opens_the_lost_again(s: Scene) -> Expect:
    s.office.pin("rivets")
    lost = s.tech.mark("H1", "lost", "head")
    s.tech.strike(s.tech.mark("H1", "found", "head", lost))
    return {"positions[position=H1]/place": "lost", "findings": findings(found("lost_piece", ["H1"], lost))}


@vector("A found that names no lost of its position is a finding", "rivets")
def a_found_that_names_no_lost_of_its_position_is_found(s: Scene) -> Expect:
    s.office.pin("rivets")
    lost = s.tech.mark("H1", "lost", "head")
    other = s.tech.mark("H2", "found", "head", lost)
    return {
        "positions[position=H1]/place": "lost",
        "findings": findings(
            found("lost_piece", ["H1"], lost),
            found("found_without_lost", ["H2"], other),
        ),
    }


@vector("A damaged hole is a finding, and stands beside the state", "rivets")
def a_damaged_hole_is_found_and_leaves_the_state(s: Scene) -> Expect:
    s.office.pin("rivets")
    s.tech.rivet("H1", "shank_out")
    hole = s.tech.mark("H1", "damaged_hole")
    return {
        "positions[position=H1]/place": "shank_out",
        "positions[position=H1]/marks": [{"hash": hole, "mark": "damaged_hole", "piece": "", "open": True}],
        "findings": findings(found("damaged_hole", ["H1"], hole)),
    }


@vector("A position that no pinned method lists is found, with all its entries", "rivets")
def an_unlisted_position_is_found(s: Scene) -> Expect:
    s.office.pin("rivets")
    one, two = s.tech.rivet("H9", "in_place"), s.tech.rivet("H9", "shank_out")
    return {
        "counts": {"untouched": 2},
        "pieces/owed": ONE_EACH,
        "findings": findings(found("unknown_position", ["H9"], one, two)),
    }


@vector("Without all pinned methods at hand no position is called unlisted")
def positions_are_not_judged_without_the_methods(s: Scene) -> Expect:
    s.tech.rivet("H9", "in_place")
    return {"findings": [], "positions": [], "counts": {}}


@vector("A second rivet set where the first was never recorded is found", "setting")
def a_gap_between_generations_is_found(s: Scene) -> Expect:
    s.office.pin("setting")
    s.tech.rivet("P1", "in_place", 0)
    beyond = s.tech.rivet("P1", "set", 2)
    return {
        "positions[position=P1]/generation": 2,
        "findings": findings(found("position_beyond", ["P1"], beyond)),
    }


@vector("A first rivet set where none was found on the car is in order", "setting")
def generation_one_needs_no_generation_zero(s: Scene) -> Expect:
    s.office.pin("setting")
    s.tech.rivet("P1", "set", 1)
    return {"findings": []}


@vector("No position is called unlisted while a pinned method is missing, for it may list it", "rivets")
def positions_are_not_judged_while_a_pinned_method_is_missing(s: Scene) -> Expect:
    pin = s.office.pin("rivets", "setting")
    s.tech.rivet("P1", "in_place")
    missing = digest("setting")
    return {
        "missing_methods": [missing],
        "counts": {"untouched": 2},
        "findings": findings(found("missing_method", [missing], pin)),
    }
