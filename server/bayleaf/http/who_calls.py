"""The caller, as the use cases of the record know one."""

from __future__ import annotations

from bayleaf.http.callers import caller, calling_device
from bayleaf.ports import NIL, Caller


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
