"""Rows of a table by the number that names them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bayleaf.computations.parsing import inside
from bayleaf.computations.refusal import DocumentRefused


def by_number(field: str, rows: Mapping[str, Any]) -> dict[float, Any]:
    """Rows by number. Refused: one number written twice, such as 23 and 23.0, since only one row can hold."""
    read: dict[float, Any] = {}
    for name, row in rows.items():
        if float(name) in read:
            raise DocumentRefused(inside(field, name), f"{float(name):g} a second time", "each number once")
        read[float(name)] = row
    return read
