"""A compiled method as a person reads it at a terminal: stages, steps, and what each asks for."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from .book import Row

INDENT = " " * 10
WIDTH = 100


def told(document: Row) -> Iterator[str]:
    """The lines of a method, in its order."""
    invented = " (invented)" if document["invented"] else ""
    yield f"{document['id']} {document['revision']}: {document['title']}{invented}"
    if document.get("needs_method"):
        yield f"is pinned after {document['needs_method']}"
    for stage in document["stages"]:
        yield ""
        yield stage["title"]
        for step in stage["steps"]:
            yield from _step(step)


def _step(step: Row) -> Iterator[str]:
    yield f"  {step['id']:<8}{step['title']}{' [hold point]' if step['hold'] else ''}"
    yield from wrap(step["instruction"], WIDTH, initial_indent=INDENT, subsequent_indent=INDENT)
    if step["caution"]:
        yield f"{INDENT}caution: {step['caution']}"
    people = f", {step['people']} people" if step["people"] > 1 else ""
    takes = f", {step['minutes']} min" if "minutes" in step else ""
    yield f"{INDENT}who: {', '.join(step['who'])}{people}{takes}"
    for key in ("needs", "meanwhile", "sets", "clears"):
        if step[key]:
            yield f"{INDENT}{key}: {', '.join(step[key])}"
    for ask in step["asks"]:
        yield f"{INDENT}- {ask['name']} ({_asked(ask)})"


def _asked(ask: Row) -> str:
    condition = ask.get("when")
    told_when = f", when {condition['ask']} is {condition['option']}" if condition else ""
    return f"{ask['kind']}{_detail(ask)}{told_when}"


def _detail(ask: Row) -> str:
    match ask["kind"]:
        case "choice":
            return ": " + " / ".join(option["name"] for option in ask["options"])
        case "reading":
            return f" in {ask['unit']}{_limits(ask)}"
        case "photo":
            return f": {ask['show']}" + (f", before {ask['deadline']}" if ask["deadline"] else "")
        case "tally":
            return f": {ask['group']} to {ask['to'].replace('_', ' ')}"
        case "heat_run":
            parts = ", ".join(ask.get("parts", ["ramp", "soak", "release", "cool_down"]))
            return f": {ask['zone']}, {ask['purpose']}, {parts.replace('_', ' ')}"
        case "countersign" | "lot":
            return f" of {ask['of'].replace('_', ' ')}"
        case "compute":
            return f": {ask['computation'].replace('_', ' ')}"
    return ""


def _limits(ask: Row) -> str:
    least, most = (_figure(ask, key) for key in ("min", "max"))
    needed = " where needed" if ask.get("where_needed") else ""
    points = f", at {len(ask['points'])} points{needed}" if ask["points"] else ""
    against = f" against {answer(ask['against'])}" if "against" in ask else ""
    since = f", counted from {answer(ask['since'])}" if "since" in ask else ""
    limits = {
        (True, True): f" {least} to {most}",
        (True, False): f" from {least}",
        (False, True): f" to {most}",
    }
    return limits.get((bool(least), bool(most)), "") + against + points + since


def _figure(ask: Row, key: str) -> str:
    """A scaled limit written out: 30 at two decimals is 0.30; empty where there is none."""
    if key not in ask:
        return ""
    decimals = ask["decimals"]
    digits = f"{abs(ask[key]):0{decimals + 1}d}"
    sign = "-" if ask[key] < 0 else ""
    return sign + (f"{digits[:-decimals]}.{digits[-decimals:]}" if decimals else digits)


def answer(named: Row) -> str:
    """An answer as people name it: `rem-21.pieces.shanks`."""
    return ".".join(str(named[key]) for key in ("step", "ask", "point") if named.get(key))
