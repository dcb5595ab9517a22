"""What a report needs of the outside: a typesetter, and where its pictures lie."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol


@dataclass(frozen=True)
class Pictures:
    """Photos by SHA-256: the path of one that lies in a file, or else its bytes; drawings as bytes."""

    path: Callable[[str], str]
    read: Callable[[str], bytes]
    drawings: Mapping[str, bytes]


@dataclass(frozen=True)
class SetReport:
    """A report in type, and what it took; photos that could not be shown say so on their page."""

    pdf: bytes
    peak_bytes: int
    faults: Mapping[str, str]


class Typesetter(Protocol):
    """Sets the contents of a report in type."""

    def typeset(
        self, contents: Mapping[str, Any], pictures: Pictures, told: Callable[[int, int], None] | None = None
    ) -> SetReport:
        """The same bytes for the same contents and pictures; `told` hears of photos done, of how many.

        Raises NotSet.
        """


class NotSet(Exception):
    """Why a report could not be set, in a sentence."""


def nowhere(_: str) -> str:
    """The path of a photo that lies in no file."""
    return ""


def no_path(path: str) -> Path | None:
    """The path, if there is one and something lies there."""
    return Path(path) if path and Path(path).is_file() else None
