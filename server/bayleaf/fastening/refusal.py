"""The one exception of this package: a value that no computation here may answer for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


class Refused(ValueError):
    """Names the field, what was found, and what is allowed and why; `shown` are figures that help."""

    def __init__(
        self, field: str, found: object, allowed: str, shown: Mapping[str, Any] | None = None
    ) -> None:
        super().__init__(f"{field}: found {found}; allowed: {allowed}")
        self.field = field
        self.found = found
        self.allowed = allowed
        self.shown: dict[str, Any] = dict(shown or {})
