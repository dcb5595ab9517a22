"""A phone's state digest of a job: the fold over what it holds, remembered by what went in."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from bayleaf.canonical.digest import value_digest
from bayleaf.domain.entries import Entry, entry_of
from bayleaf.domain.fold import fold
from bayleaf.domain.kinds import is_known
from bayleaf.domain.method import MethodDoc, method_of
from bayleaf.domain.state import CardState


@lru_cache(maxsize=20_000)
def entry(text: str) -> Entry:
    return entry_of(json.loads(text))


@lru_cache(maxsize=64)
def method(text: str) -> MethodDoc:
    return method_of(json.loads(text))


def state_of(methods: Mapping[str, str], texts: Sequence[str]) -> CardState:
    """The card state as a phone folds it."""
    return fold({digest: method(text) for digest, text in methods.items()}, [entry(text) for text in texts])


def of(methods: Mapping[str, str], texts: Sequence[str]) -> str:
    """Empty where this phone cannot know it: a method that is named is missing, or a kind unknown here."""
    entries = [entry(text) for text in texts]
    known = all(is_known(one.v, one.kind) for one in entries)
    if not known or not methods_named(entries) <= methods.keys():
        return ""
    return value_digest(state_of(methods, texts))


def methods_named(entries: Iterable[Entry]) -> set[str]:
    """Digests that pins name and that entries about a step were made under."""
    known = [one for one in entries if is_known(one.v, one.kind)]
    pinned = {digest for one in known for digest in one.body.get("methods", ())}
    return pinned | {one.body["digest"] for one in known if one.body.get("digest")}
