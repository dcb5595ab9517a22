"""Counts wrong tries at a door and, past a limit, asks for patience."""

from __future__ import annotations

from dataclasses import dataclass

from bayleaf.door_ports import Attempts
from bayleaf.usecases.refusal import Refusal

WINDOW_MS = 15 * 60_000


@dataclass(frozen=True)
class Limit:
    """How many wrong tries one key has within the window."""

    key: str
    tries: int


def ask_for_patience(attempts: Attempts, limits: tuple[Limit, ...], now_ms: int) -> None:
    """Refuse while any limit is reached."""
    for limit in limits:
        if attempts.count(limit.key, now_ms - WINDOW_MS) >= limit.tries:
            message = f"There were {limit.tries} wrong tries. Try again in {WINDOW_MS // 60_000} minutes."
            raise Refusal("too_many_tries", message, named={"retry_s": WINDOW_MS // 1000})


def note_wrong_try(attempts: Attempts, limits: tuple[Limit, ...], now_ms: int) -> None:
    """Count one against each limit."""
    for limit in limits:
        attempts.note(limit.key, now_ms)
