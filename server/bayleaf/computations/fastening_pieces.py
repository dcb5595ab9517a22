"""Documents about what rivets touch and leave: galvanic pairing, pieces, bits, VIN."""

from __future__ import annotations

from typing import Any

from bayleaf.computations import fastening_sources as src
from bayleaf.computations.fields import flag, listed, record, text, whole
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema
from bayleaf.fastening import bits, galvanic, pieces, vin
from bayleaf.fastening.pieces import PieceEvent
from bayleaf.fastening.refusal import Refused

ALUMINIUM_THROUGH_CARBON = "an aluminium rivet through carbon laminate: a finding, ask for the maker's word"
WORSE_BETWEEN_LAYERS = "figures and caution are the rivet's; two layers that touch are worse"


def _pair(asked: Inputs) -> Outcome:
    pair = galvanic.pair(asked["first"], asked["second"])
    result = {"groups_apart": pair.groups_apart, "caution": pair.caution, "anode": pair.anode}
    return Outcome(result, remarks=("a rivet touches both sides: take the worse of its pairs",))


def _joint(asked: Inputs) -> Outcome:
    joint = galvanic.rivet_pairing(asked["rivet"], asked["layers"], wet=asked["wet"])
    worst = joint.worst_of_rivet
    result: dict[str, Any] = {
        "worst_groups_apart": worst.groups_apart,
        "caution": worst.caution,
        "small_anode": joint.small_anode,
        "needs_maker": joint.needs_maker,
        "worst_pair": {
            "first": joint.worst.first,
            "second": joint.worst.second,
            "groups_apart": joint.worst.groups_apart,
            "caution": joint.worst.caution,
        },
        "contacts": [
            {
                "first": one.first,
                "second": one.second,
                "groups_apart": one.pair.groups_apart,
                "caution": one.pair.caution,
                "counts_as": one.counts_as,
                "anode": one.pair.anode,
            }
            for one in joint.contacts
        ],
    }
    remarks = [ALUMINIUM_THROUGH_CARBON] if joint.needs_maker else []
    if joint.worst != worst:
        remarks.append(f"{WORSE_BETWEEN_LAYERS}: {joint.worst.first} on {joint.worst.second}")
    return Outcome(result, remarks=tuple(remarks))


def _tally(asked: Inputs) -> Outcome:
    taken = {kind: asked[f"{kind}s"] for kind in pieces.KINDS}
    counted = pieces.count_pieces(asked["positions"], asked["positions_removed"], taken)
    result = {
        "missing": counted.missing,
        "surplus": counted.surplus,
        "hold": counted.hold,
        "outstanding_positions": counted.outstanding_positions,
        "complete": counted.complete,
    }
    return Outcome(result, remarks=("each kind by itself: a surplus of one never cancels a loss of another",))


def _story(asked: Inputs) -> Outcome:
    events = [event for told in asked["events"] for event in _events_of(told)]
    story = pieces.story_of(events)
    result = {
        "missing_positions": story.missing_positions,
        "held_positions": story.held_positions,
        "signed_off_positions": story.signed_off_positions,
    }
    return Outcome(result, remarks=("a sign-off passes the hold and does not make the piece found",))


def _events_of(told: dict[str, Any]) -> list[PieceEvent]:
    position = told["position"]
    about = [PieceEvent(position, told[kind], kind) for kind in pieces.KINDS if kind in told]
    if told.get("signed_off_with_photo"):
        about.append(PieceEvent(position, "signed off"))
    if not about:
        raise Refused("events", told, "a piece that was found or not found, or a sign-off")
    return about


def _bits(asked: Inputs) -> Outcome:
    used = bits.holes_per_bit(asked["holes_drilled"], asked["limit_per_bit"], asked["changed_after_hole"])
    result = {
        "holes_per_bit": used.holes_per_bit,
        "bits_over_limit": used.bits_over_limit,
        "bits_needed_at_least": used.bits_needed_at_least,
    }
    return Outcome(result, remarks=("bits are numbered from 1; the limit itself is allowed",))


def _vin(asked: Inputs) -> Outcome:
    if "vin" not in asked:
        whole_vin = vin.joined(asked["characters_1_to_8"], asked["characters_10_to_17"])
        return Outcome(
            {"weighted_sum": vin.weighted_sum(whole_vin), "check_digit": vin.check_digit(whole_vin)}
        )
    checked = vin.check_vin(asked["vin"])
    result: dict[str, Any] = {
        "vin_stored": checked.vin_stored,
        "well_formed": checked.well_formed,
        "refused": False,
        "remark": checked.check_digit_right is not True,
    }
    if checked.well_formed:
        result |= {
            "check_digit": checked.check_digit,
            "check_digit_right": checked.check_digit_right,
            "weighted_sum": checked.weighted_sum,
        }
    return Outcome(result, remarks=checked.remarks)


LONGEST_TYPED = 100_000
FOUND = ("found", "not found")
EVENT: Schema = record(
    "what happened at a position",
    {"position": text("its name")},
    {
        **{kind: text(f"whether its {kind} was found", choices=FOUND) for kind in pieces.KINDS},
        "signed_off_with_photo": flag("its loss was signed off, with a photo"),
    },
)

COMPUTATIONS = (
    Computation(
        "galvanic-pair",
        "How far apart two materials stand, and how careful to be",
        galvanic.MODEL,
        (src.NIU, src.MIL_889),
        _pair,
        asks={"first": text("a material"), "second": text("another")},
    ),
    Computation(
        "galvanic-rivet",
        "A rivet through layers: every pair that touches, wet or dry, with isolating glass plies",
        galvanic.MODEL,
        (src.NIU, src.MIL_889),
        _joint,
        asks={
            "rivet": text("its material"),
            "layers": listed("materials, outside to inside; `glass ply` isolates", text("a material")),
        },
        may={"wet": flag("water can reach the contact", default=True)},
    ),
    Computation(
        "tally",
        "Pieces in the tray against positions taken out, kind by kind",
        pieces.MODEL,
        (src.COUNTING,),
        _tally,
        asks={
            "positions": whole("positions on the map"),
            "positions_removed": whole("of them marked as taken out"),
            "heads": whole("heads in the tray"),
            "mandrels": whole("mandrels in the tray"),
            "shanks": whole("shanks in the tray"),
        },
    ),
    Computation(
        "tally-events",
        "Pieces lost, found and signed off, in the order of the events",
        pieces.MODEL,
        (src.COUNTING,),
        _story,
        asks={"events": listed("events in their order", EVENT, least=0)},
    ),
    Computation(
        "bits",
        "Holes per drill bit against its limit",
        bits.MODEL,
        (src.COUNTING,),
        _bits,
        asks={
            "holes_drilled": whole("holes drilled in all"),
            "limit_per_bit": whole("holes that a bit may drill", low=1),
        },
        may={
            "changed_after_hole": listed(
                "hole after which the bit was changed", whole("hole"), least=0, default=[]
            )
        },
    ),
    Computation(
        "vin",
        "The check digit of a VIN: a remark, never a refusal",
        vin.MODEL,
        (src.VIN_RULE,),
        _vin,
        may={
            "vin": text("as typed", empty=True, longest=LONGEST_TYPED),
            "characters_1_to_8": text("before the check digit"),
            "characters_10_to_17": text("after the check digit"),
        },
        one_of=(("vin",), ("characters_1_to_8", "characters_10_to_17")),
    ),
)
