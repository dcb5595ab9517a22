"""The one exception of documents: what was asked cannot be answered, with field, found and allowed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


class DocumentRefused(ValueError):
    """Names the field ("" for the document itself), what was found, and what is allowed."""

    def __init__(self, field: str, found: str, allowed: str, shown: Mapping[str, Any] | None = None) -> None:
        super().__init__(f"{field or 'document'}: found {found}; allowed: {allowed}")
        self.field = field
        self.found = found
        self.allowed = allowed
        self.shown = dict(shown or {})
