"""Names what a job lacks before it can be filed without a reason."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from bayleaf.domain.entries import Entry
from bayleaf.domain.state import CardState
from bayleaf.usecases.open_deviations import open_deviations


def what_is_missing(state: CardState, entries: Iterable[Entry], photos_missing: Sequence[str]) -> list[str]:
    """Everything that is not as a finished job has it, as short words with their place."""
    by_hash = {entry.hash: entry for entry in entries}
    deviations = open_deviations(state, by_hash.values())
    not_accepted = [f"deviation {_place(by_hash[one])} not accepted" for one in deviations]
    not_here = [f"photo {sha256[:12]} not here" for sha256 in photos_missing]
    return [*_of_the_job(state), *_of_the_work(state), *not_accepted, *not_here]


def _place(deviation: Entry) -> str:
    return str(deviation.body.get("step") or "of the job")


def _of_the_job(state: CardState) -> Iterator[str]:
    if not state["job"]["closed"]:
        yield "not closed"
    if not state["job"]["pin"]:
        yield "no method pinned"
    for digest in state["missing_methods"]:
        yield f"method {digest[:12]} not here"
    if state["aside"]:
        yield f"{len(state['aside'])} entries set aside"


def _of_the_work(state: CardState) -> Iterator[str]:
    for step in state["steps"]:
        if not step["done"]:
            yield f"step {step['step']} open"
        if step["hold"] == "held":
            yield f"hold point {step['step']} not passed"
    for finding in state["findings"]:
        if not finding["accepted"]:
            yield f"{finding['code']} {' '.join(finding['at'])}".strip()
