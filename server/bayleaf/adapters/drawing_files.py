"""Reads a method file and the drawings that lie beside it."""

from __future__ import annotations

from pathlib import Path

LARGEST_DRAWING = 2_000_000


def read_method_file(file: Path) -> tuple[str, dict[str, bytes]]:
    """The YAML's text, and the bytes of every SVG of its folder by file name; larger ones are left out.

    Raises OSError, or UnicodeDecodeError where the YAML is not UTF-8.
    """
    beside = [path for path in sorted(file.parent.glob("*.svg")) if path.stat().st_size <= LARGEST_DRAWING]
    return file.read_text("utf-8"), {path.name: path.read_bytes() for path in beside}
