"""Promises between the fields of one body: each takes the body and names the field that breaks it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bayleaf.wire.shapes import Fault, Rule

Body = Mapping[str, Any]


def needs_a_reason_unless_done(body: Body) -> Fault | None:
    """Not applicable is said with a reason."""
    if body["value"] != "done" and not body["reason"]:
        return "reason", 'found nothing, allowed is a reason, since the value is not "done".'
    return None


def all_or_none(*names: str) -> Rule:
    """These fields are all empty, or none of them is."""

    def rule(body: Body) -> Fault | None:
        empty = [name for name in names if not body[name]]
        if empty and len(empty) < len(names):
            return empty[0], f"found nothing, but of {', '.join(names)} either all are given or none."
        return None

    return rule


def a_step_has_a_method(body: Body) -> Fault | None:
    """A step alone names nothing."""
    if body["step"] and not body["method"]:
        return "method", "found nothing, allowed is the method that the step belongs to."
    return None


def a_mark_says_which(body: Body) -> Fault | None:
    """Lost names its piece, found names its lost, a damaged hole neither."""
    piece, lost = body["piece"], body["lost"]
    match body["mark"]:
        case "lost" if not piece:
            return "piece", "found nothing, allowed is head, mandrel or shank, since it is lost."
        case "found" if not lost:
            return "lost", "found nothing, allowed is the hash of the mark that said it was lost."
        case "damaged_hole" if piece:
            return "piece", "found a piece, allowed is nothing at a damaged hole."
        case "lost" | "damaged_hole" if lost:
            return "lost", "found a hash, allowed is nothing unless the mark is found."
        case _:
            return None


def an_act_names_its_pad(body: Body) -> Fault | None:
    """Turning down and lifting are done to one pad, a remark may be about one, the other acts are of none."""
    to_a_pad = body["act"] in ("turn_down", "lift")
    if to_a_pad and not body["pad"]:
        return "pad", f"found nothing, allowed is the pad of this {body['act']}."
    if body["pad"] and not to_a_pad and body["act"] != "remark":
        return "pad", f"found a pad, allowed is nothing for {body['act']}."
    return None


def a_remark_says_something(body: Body) -> Fault | None:
    """A remark without words is none."""
    if body["act"] == "remark" and not body["text"]:
        return "text", "found nothing, allowed is the remark."
    return None


def heads_in_order(body: Body) -> Fault | None:
    """By device, and within a fork by seq and hash."""
    order = [(head["device"], head["seq"], head["hash"]) for head in body["heads"]]
    if order != sorted(set(order)):
        return "heads", "found heads out of order or doubled, allowed is each once, sorted by device."
    return None
