"""The adapters that app.py chose, at hand for every view."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from flask import current_app

from bayleaf.door_ports import Doors
from bayleaf.push_ports import Calling
from bayleaf.usecases.board import Board
from bayleaf.usecases.file_job import Filing
from bayleaf.usecases.make_report import Previews
from bayleaf.usecases.office import Office

KEY = "bayleaf"


@dataclass(frozen=True)
class DemoFacts:
    """The facts of the demo's front page, and by slug each phone's (name, person)."""

    facts: dict[str, object]
    phones: dict[str, tuple[str, str]]


@dataclass(frozen=True)
class Shop:
    """How this server shows itself: which Host is which demo device, and whether cookies need HTTPS."""

    hosts: frozenset[str]
    https: bool
    slug_of: dict[str, str]
    demo: DemoFacts | None


@dataclass(frozen=True)
class Parts:
    """`office` for the record, `doors` for who comes in, `board` for its kept folds,
    `calling` for web push; `close` lets go of the store."""

    office: Office
    doors: Doors
    filing: Filing
    shop: Shop
    board: Board
    previews: Previews
    calling: Calling
    close: Callable[[], None]


def parts() -> Parts:
    """The parts of the app that answers this request."""
    found = current_app.extensions[KEY]
    assert isinstance(found, Parts)  # noqa: S101  (set by app.py and nobody else)
    return found


def now_ms() -> int:
    """The server's time."""
    return parts().office.clock.now_ms()
