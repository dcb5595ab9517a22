"""Ids made of the words that people read, words made of ids, and what is said at all."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

ID_LENGTH = 64


def slug(words: str) -> str:
    """The id of something named in words: `edge sealant` is `edge_sealant`; empty without letter or digit."""
    return re.sub(r"[^a-z0-9]+", "_", words.lower()).strip("_")[:ID_LENGTH]


def option_id(name: str) -> str:
    """The id of an option as people read it: `taken out, locked` is `taken_out_locked`."""
    return slug(name)


def spaced(name: str) -> str:
    return name.replace("_", " ")


def said(members: Mapping[str, Any]) -> dict[str, Any]:
    """Only the members that say something."""
    return {name: value for name, value in members.items() if value not in ("", [], None)}
