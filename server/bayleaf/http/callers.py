"""Who is calling: every view states whom it lets in, and finds them here once they are in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Never

from flask import g

from bayleaf.door_ports import Device, DeviceState, Person
from bayleaf.readings_ports import LoggerKey
from bayleaf.usecases.refusal import Refusal

NO_KEY = "Authorization: needed is `Bearer` and a key that the office made for this logger and did not end."


class Callers(StrEnum):
    """Whom a view lets in. The default for a route that states nothing is nobody."""

    EVERYONE = "everyone"
    WAITING = "waiting"
    DEVICE = "device"
    OFFICE = "office"
    SIGNED_IN = "signed_in"
    LOGGER = "logger"
    DEMO = "demo"


@dataclass(frozen=True)
class Caller:
    """What the cookies of this request proved: nothing, a device, an office person, or both.

    `logger`: the key that it named in its Authorization.
    """

    device: Device | None = None
    office: Person | None = None
    logger: LoggerKey | None = None


def caller() -> Caller:
    """Whoever security.py found at the door of this request."""
    found = g.get("caller")
    return found if isinstance(found, Caller) else Caller()


def calling_device() -> Device:
    """The paired device that calls; the door has let nobody else in."""
    device = caller().device
    if device is None:
        raise Refusal("no_login", "This is for a paired phone. Pair this phone, or renew its login.")
    return device


def calling_office() -> Person:
    """The office person who calls."""
    person = caller().office
    if person is None:
        raise Refusal("no_login", "This is for the office. Sign in by name and password.")
    return person


def calling_logger() -> LoggerKey:
    """The logger that calls, by its key."""
    key = caller().logger
    if key is None:
        raise Refusal("no_login", NO_KEY)
    return key


def let_in(callers: Callers) -> None:
    """Refuse whoever the view is not for."""
    if callers in (Callers.EVERYONE, Callers.DEMO):
        return
    who = caller()
    if callers is Callers.LOGGER and who.logger is not None:
        return
    device = who.device if who.device is not None and _may_call(who.device, callers) else None
    office = who.office is not None and callers in (Callers.OFFICE, Callers.SIGNED_IN)
    if device is None and not office:
        _turn_away(who, callers)


def _may_call(device: Device, callers: Callers) -> bool:
    if callers is Callers.WAITING:
        return device.state is not DeviceState.REVOKED
    return callers in (Callers.DEVICE, Callers.SIGNED_IN) and device.state is DeviceState.PAIRED


def _turn_away(who: Caller, callers: Callers) -> Never:
    if callers is Callers.LOGGER and who.device is None and who.office is None:
        raise Refusal("no_login", NO_KEY)
    if who.device is None and who.office is None:
        raise Refusal("no_login", "Nobody is signed in here. Pair this phone, or sign in to the office.")
    if who.device is not None and who.device.state is DeviceState.REVOKED:
        raise Refusal("revoked_device", "The office has revoked this device. Its records can be handed in.")
    if who.device is not None and who.device.state is not DeviceState.PAIRED:
        raise Refusal("not_paired", f"This device is {who.device.state}; the office has to let it in first.")
    raise Refusal("wrong_door", f"This door is for: {callers}.")
