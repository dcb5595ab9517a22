"""How a fault is planted: attributes replaced for a while, and put back."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from typing import Any
from unittest.mock import patch


@dataclass(frozen=True)
class Fault:
    """`swaps` are (owner, name, what stands there instead)."""

    name: str
    about: str
    swaps: tuple[tuple[Any, str, Any], ...]

    @contextmanager
    def planted(self) -> Iterator[None]:
        with ExitStack() as stack:
            for owner, name, instead in self.swaps:
                stack.enter_context(patch.object(owner, name, instead))
            yield
