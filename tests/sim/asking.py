"""What travels between a simulated phone and the server, and what goes wrong on the way."""

from __future__ import annotations

from collections.abc import Generator, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar


@dataclass(frozen=True)
class Request:
    """A request with its JSON or its bytes; `token` is the cookie of the phone's login."""

    method: str
    path: str
    json: Mapping[str, Any] | None = None
    content: bytes = b""
    headers: Mapping[str, Any] = field(default_factory=dict)
    token: str = ""


@dataclass(frozen=True)
class Answer:
    """`json` holds the body, or the refusal's code; `headers` the few that tus needs."""

    status: int
    json: Any = None
    headers: Mapping[str, Any] = field(default_factory=dict)


class NoAnswer(Exception):
    """The line broke: nobody here knows whether the request arrived."""


class Refused(Exception):
    """The server heard the request and says no."""

    def __init__(self, status: int, code: str) -> None:
        super().__init__(f"{status} {code}")
        self.status = status
        self.code = code


Result = TypeVar("Result")
Talk = Generator[Request, Answer, Result]
"""A part of a round that asks the server: yields requests, is sent answers or thrown NoAnswer."""
