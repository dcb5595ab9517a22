"""The kinds of entry: what each folds as, which register it belongs to, and who may write it."""

from collections.abc import Iterable
from typing import Final, Literal, TypeGuard, assert_never, get_args

from bayleaf.domain.entries import Entry

Kind = Literal[
    "open",
    "assign",
    "place",
    "pin",
    "close",
    "reopen",
    "file",
    "aside",
    "admit",
    "accept",
    "send_back",
    "tick",
    "text",
    "choice",
    "reading",
    "photo",
    "tally",
    "lot",
    "heat",
    "note",
    "deviation",
    "countersign",
    "strike",
    "result",
    "clock",
    "heard",
    "condition",
    "later",
]
KINDS: Final[tuple[Kind, ...]] = get_args(Kind)

RegisterKey = tuple[str, str, str, str, str]  # (kind, method, step, ask, point)

OFFICE_KINDS: Final = frozenset(
    {"open", "assign", "place", "pin", "close", "reopen", "file", "aside", "admit", "accept", "send_back"}
)
JOB_REGISTERS: Final = frozenset({"open", "assign", "place", "pin", "life", "condition"})
PHONE_KINDS: Final = frozenset(KINDS) - OFFICE_KINDS

WRITES: Final[dict[str, frozenset[str]]] = {
    "photographer": frozenset({"photo", "note", "strike", "clock", "heard", "countersign"}),
    "technician": PHONE_KINDS,
    "office": frozenset(KINDS),
}


_EACH: Final = {"assign": "person", "condition": "condition"}  # registers of the job, one for each of these


def is_known(v: int, kind: str) -> bool:
    """Whether this fold knows that form of envelope and that kind."""
    return v == 1 and is_kind(kind)


def is_kind(kind: str) -> TypeGuard[Kind]:
    """Whether the word is a kind that this program knows."""
    return kind in KIND_SET


KIND_SET: Final = frozenset(KINDS)


def may_write(roles: Iterable[str], kind: str) -> bool:
    """Whether any of the roles permits the kind; the demand of a countersign is judged by the fold."""
    return any(kind in WRITES.get(role, frozenset()) for role in roles)


def register_key(entry: Entry) -> RegisterKey | None:
    """The register that an entry is a value of; None for kinds that are sets or tallies, or unknown."""
    if not is_kind(entry.kind):
        return None
    match entry.kind:
        case "open" | "place" | "pin":
            return (entry.kind, "", "", "", "")
        case "close" | "reopen":
            return ("life", "", "", "", "")
        case "assign" | "condition":
            return (entry.kind, "", "", "", entry.body[_EACH[entry.kind]])
        case "tick" | "text" | "choice" | "result":
            return _step_key(entry)
        case "reading":
            return None if is_run_reading(entry) else _step_key(entry)
        case "file" | "aside" | "admit" | "accept" | "send_back" | "photo" | "tally" | "lot" | "heat":
            return None
        case "note" | "deviation" | "countersign" | "strike" | "clock" | "heard" | "later":
            return None
        case never:
            assert_never(never)


def is_run_reading(entry: Entry) -> bool:
    """Whether a reading belongs to a heat run and not to an ask of a step."""
    return "run" in entry.body


def place_of(entry: Entry) -> tuple[str, ...]:
    """The `at` of a finding about this entry: ids, trimmed of trailing empties."""
    if not is_known(entry.v, entry.kind):
        return ()
    key = register_key(entry)
    if key is not None:
        return register_place(key)
    match entry.kind:
        case "lot" | "countersign" | "note" | "deviation" | "photo" | "later":
            ask = entry.body.get("ask", entry.body.get("slot", ""))
            return trimmed(entry.body["method"], entry.body["step"], ask)
        case "tally":
            return (entry.body["position"],)
        case "heat" if entry.body["act"] == "on":
            return trimmed(entry.body["method"], entry.body["step"], entry.body["ask"])
        case "heat" | "reading":
            return (entry.body["run"],)
        case "clock" | "heard":
            return (entry.device, str(entry.seq))
        case _:
            return ()


def register_place(key: RegisterKey) -> tuple[str, ...]:
    """The `at` of a finding about a register: [kind] or [kind, whose] of the job's own, else its ids."""
    kind, method, step, ask, point = key
    if kind in JOB_REGISTERS:
        return trimmed(kind, point)
    return trimmed(method, step, ask, point)


def trimmed(*ids: str) -> tuple[str, ...]:
    """The ids up to the last that is not empty."""
    kept = len(ids)
    while kept and not ids[kept - 1]:
        kept -= 1
    return ids[:kept]


def _step_key(entry: Entry) -> RegisterKey:
    body = entry.body
    return (entry.kind, body["method"], body["step"], body["ask"], body.get("point", ""))
