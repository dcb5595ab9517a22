"""The caller, as the use cases of the record know one."""

from __future__ import annotations

from bayleaf.http.callers import caller, calling_device
from bayleaf.http.parts import now_ms, parts
from bayleaf.ports import NIL, Caller
from bayleaf.usecases.sync import jobs_of


def device_caller() -> Caller:
    """The paired device that calls. A shared one is nobody's own."""
    device = calling_device()
    return Caller("device", device.id, device.person or NIL)


def any_caller() -> Caller:
    """The office where it is signed in, else the device: in a demo's browser both may be."""
    office = caller().office
    if office is None:
        return device_caller()
    return Caller("office", NIL, office.id, office.roles, office.qualifications)


def own_jobs(who: Caller) -> list[str]:
    """The jobs of whoever holds the phone; none for the office, which sees them all."""
    if who.kind == "office":
        return []
    with parts().office.log.reading() as log:
        return jobs_of(log, who.person, now_ms())
