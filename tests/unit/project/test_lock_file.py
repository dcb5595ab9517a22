"""The lock file of the web libraries serves everybody: hashes, and nobody's address."""

from __future__ import annotations

import json
from pathlib import Path

LOCK = Path(__file__).resolve().parents[3] / "web" / "package-lock.json"


def test_the_lock_file_names_no_host() -> None:
    """`npm install` writes addresses of sponsors into it: take the `funding` members out again."""
    assert "://" not in LOCK.read_text(encoding="utf-8")


def test_every_library_of_the_lock_file_has_its_hash() -> None:
    packages = json.loads(LOCK.read_text(encoding="utf-8"))["packages"]
    assert [name for name, row in packages.items() if name and "integrity" not in row] == []
