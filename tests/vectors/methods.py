"""The small invented methods of vectors and generated logs, read from `methods/*.json`."""

import functools
import json
from pathlib import Path
from typing import Any

from bayleaf.canonical.digest import value_digest

FOLDER = Path(__file__).parent / "methods"


@functools.cache
def document(name: str) -> dict[str, Any]:
    """The compiled document of that name."""
    loaded: dict[str, Any] = json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))
    return loaded


@functools.cache
def digest(name: str) -> str:
    """The digest of the document of that name."""
    return value_digest(document(name))


def documents(names: list[str]) -> dict[str, dict[str, Any]]:
    """Documents by digest."""
    return {digest(name): document(name) for name in names}


def ask_of(name: str, step_id: str, ask_id: str) -> dict[str, Any]:
    """One ask of one step."""
    steps = (step for stage in document(name)["stages"] for step in stage["steps"])
    step = next(step for step in steps if step["id"] == step_id)
    found: dict[str, Any] = next(ask for ask in step["asks"] if ask["id"] == ask_id)
    return found
