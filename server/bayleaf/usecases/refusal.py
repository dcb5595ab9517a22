"""What a use case raises when its caller broke a promise: a code that never changes, and a sentence."""

from __future__ import annotations

from collections.abc import Mapping


class Refusal(Exception):
    """A request that is no request. `http/refusals.py` alone gives each code its status."""

    def __init__(
        self, code: str, message: str, field: str = "", *, named: Mapping[str, object] | None = None
    ) -> None:
        """`named` are further keys of the answer, such as `retry_s`."""
        super().__init__(message)
        self.code = code
        self.message = message
        self.field = field
        self.named: dict[str, object] = dict(named or {})
