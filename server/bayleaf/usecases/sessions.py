"""Opens, finds and ends logins. The store keeps keyed hashes, so that reading it gives nobody a login."""

from __future__ import annotations

from dataclasses import dataclass

from bayleaf.door_ports import Device, Doors, Person, Session

MINUTE_MS = 60_000
DAY_MS = 24 * 60 * MINUTE_MS
DEVICE_LOGIN_MS = 60 * DAY_MS
OFFICE_LOGIN_MS = 12 * 60 * MINUTE_MS


@dataclass(frozen=True)
class OpenLogin:
    """A token to hand over once, and how long it opens the door."""

    token: str
    expires_ms: int


def open_device_login(doors: Doors, device: str, now_ms: int) -> OpenLogin:
    """A login for a device."""
    return _open(doors, now_ms + DEVICE_LOGIN_MS, device=device)


def open_office_login(doors: Doors, person: str, now_ms: int) -> OpenLogin:
    """A login for an office person."""
    return _open(doors, now_ms + OFFICE_LOGIN_MS, person=person)


def device_of_token(doors: Doors, token: str, now_ms: int) -> Device | None:
    """The device that this token opens for; a revoked one is returned too, so that it can be told."""
    session = _live(doors, token, now_ms)
    if session is None or not session.device:
        return None
    if session.expires_ms - now_ms < DEVICE_LOGIN_MS // 2:
        doors.sessions.extend(session.token_hash, now_ms + DEVICE_LOGIN_MS)
    return doors.devices.find(session.device)


def office_of_token(doors: Doors, token: str, now_ms: int) -> Person | None:
    """The office person that this token opens for, while they hold the office role."""
    session = _live(doors, token, now_ms)
    if session is None or not session.person:
        return None
    if session.expires_ms - now_ms < OFFICE_LOGIN_MS // 2:
        doors.sessions.extend(session.token_hash, now_ms + OFFICE_LOGIN_MS)
    person = doors.people.find(session.person)
    return person if person is not None and "office" in person.roles else None


def end_login(doors: Doors, token: str) -> None:
    """Nobody comes in by this token again."""
    doors.sessions.end(token_hash(doors, token))


def token_hash(doors: Doors, token: str) -> str:
    """As the store knows the token."""
    return doors.keys.keyed_hash("session", token)


def _live(doors: Doors, token: str, now_ms: int) -> Session | None:
    session = doors.sessions.find(token_hash(doors, token)) if token else None
    return session if session is not None and now_ms < session.expires_ms else None


def _open(doors: Doors, expires_ms: int, *, device: str = "", person: str = "") -> OpenLogin:
    token = doors.chance.token()
    doors.sessions.add(Session(token_hash(doors, token), device, person, expires_ms))
    return OpenLogin(token, expires_ms)
