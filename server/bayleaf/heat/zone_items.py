"""The items of a zone document's lists, each with its field, and the check that no id is there twice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from bayleaf.heat.faults import Fault

Document = Mapping[str, Any]
Item = tuple[str, Document]


def listed(document: Document, key: str) -> list[Item]:
    """(field, item) of one list; empty where it is left out."""
    return [(f"{key}[{number}]", one) for number, one in enumerate(document.get(key, []))]


def repeated_ids(items: Iterable[Item]) -> Iterator[Fault]:
    """Items whose id an earlier one has."""
    seen: set[str] = set()
    for at, one in items:
        if one["id"] in seen:
            yield Fault(f"{at}.id", f"found {one['id']} a second time, allowed an id of its own")
        seen.add(one["id"])
