"""Reads the vector files of a folder, each with exactly the members that its kind of vector has."""

import json
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent


def vectors_in(folder: str, *member_sets: set[str]) -> dict[str, dict[str, Any]]:
    """The vectors of a folder by name; raises ValueError for a wrong member, a stray file, or none at all."""
    loaded = {path.stem: _loaded(path, member_sets) for path in sorted((HERE / folder).glob("*.json"))}
    strays = [path.name for path in (HERE / folder).iterdir() if path.suffix != ".json"]
    if not loaded or strays:
        raise ValueError(f"tests/vectors/{folder}: {len(loaded)} vectors, and files that are none: {strays}")
    return loaded


def _loaded(path: Path, member_sets: tuple[set[str], ...]) -> dict[str, Any]:
    vector: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    if set(vector) not in member_sets:
        raise ValueError(f"{path.name}: has {sorted(vector)}; allowed are {[sorted(s) for s in member_sets]}")
    return vector
