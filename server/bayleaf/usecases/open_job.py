"""Opens a job: its opening, pinned methods, assigned people and place, in one transaction."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bayleaf.door_ports import Person
from bayleaf.usecases import write_office_entry
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.server_pen import Draft


@dataclass(frozen=True)
class NewJob:
    """What the office typed."""

    order: str
    vin: str = ""
    vehicle: str = ""
    part: str = ""
    side: str = "none"
    place: str = ""
    invented: bool = False
    methods: Sequence[str] = ()
    people: Sequence[str] = ()


def open_job(office: Office, who: Person, new: NewJob) -> str:
    """The new job's id."""
    _require_methods(office, new.methods)
    _require_people(office, new.people)
    return write_office_entry.open_job(office, who.id, list(_drafts(new)))


def _drafts(new: NewJob) -> Iterable[Draft]:
    yield Draft(
        "open",
        {
            "order": new.order,
            "vin": new.vin,
            "vehicle": new.vehicle,
            "part": new.part,
            "side": new.side,
            "invented": new.invented,
            "over": [],
        },
    )
    yield Draft("pin", {"methods": list(new.methods), "over": []})
    for person in new.people:
        yield Draft("assign", {"person": person, "on": True, "over": []})
    if new.place:
        yield Draft("place", {"place": new.place, "over": []})


def _require_methods(office: Office, digests: Sequence[str]) -> None:
    held = office.methods.texts(digests)
    for number, digest in enumerate(digests):
        if digest not in held:
            message = f"methods[{number}]: no method here has the digest {digest[:12]}..."
            raise Refusal("unknown_method", message, f"methods[{number}]")
    if len(set(digests)) != len(digests):
        raise Refusal("broken_request", "methods: a method is named twice.", "methods")


def _require_people(office: Office, people: Sequence[str]) -> None:
    for number, person in enumerate(people):
        if office.people.find(person) is None:
            message = f"people[{number}]: nobody of the shop has the id {person}."
            raise Refusal("unknown_person", message, f"people[{number}]")
    if len(set(people)) != len(people):
        raise Refusal("broken_request", "people: a person is named twice.", "people")
