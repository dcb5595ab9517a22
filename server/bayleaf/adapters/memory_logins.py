"""Pair codes, logins, nonces and wrong tries in memory: twins of the SQL adapters, for tests."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from bayleaf.door_ports import PairCode, Session


class MemoryPairCodes:
    """The port PairCodes."""

    def __init__(self) -> None:
        self._codes: dict[str, PairCode] = {}

    def add(self, code: PairCode) -> None:
        """Keep a code, by its hash."""
        self._codes[code.code_hash] = code

    def find(self, code_hash: str) -> PairCode | None:
        """The code of this hash."""
        return self._codes.get(code_hash)

    def spend(self, code_hash: str) -> bool:
        """True for exactly one caller."""
        found = self._codes.get(code_hash)
        if found is None or found.spent:
            return False
        self._codes[code_hash] = replace(found, spent=True)
        return True


class MemorySessions:
    """The port Sessions."""

    def __init__(self) -> None:
        self._sessions: dict[str, Session] = {}
        self._nonces: dict[str, tuple[str, int]] = {}

    def add(self, opened: Session) -> None:
        """Keep a login."""
        self._sessions[opened.token_hash] = opened

    def find(self, token_hash: str) -> Session | None:
        """The login of this token, expired or not."""
        return self._sessions.get(token_hash)

    def extend(self, token_hash: str, expires_ms: int) -> None:
        """Keep it open longer."""
        found = self._sessions.get(token_hash)
        if found is not None:
            self._sessions[token_hash] = replace(found, expires_ms=expires_ms)

    def end(self, token_hash: str) -> None:
        """Forget one login."""
        self._sessions.pop(token_hash, None)

    def end_of_person(self, person: str) -> None:
        """Forget every login of an office person."""
        self._sessions = {key: one for key, one in self._sessions.items() if one.person != person}

    def sweep(self, now_ms: int) -> None:
        """Forget what has expired."""
        self._sessions = {key: one for key, one in self._sessions.items() if one.expires_ms >= now_ms}
        self._nonces = {key: one for key, one in self._nonces.items() if one[1] >= now_ms}

    def add_nonce(self, nonce_hash: str, device: str, expires_ms: int) -> None:
        """Keep a nonce that waits for its signature."""
        self._nonces[nonce_hash] = (device, expires_ms)

    def take_nonce(self, nonce_hash: str, device: str, now_ms: int) -> bool:
        """True once, for that device, before it expires."""
        found = self._nonces.get(nonce_hash)
        if found is None or found[0] != device or found[1] <= now_ms:
            return False
        del self._nonces[nonce_hash]
        return True


class MemoryAttempts:
    """The port Attempts."""

    def __init__(self) -> None:
        self._tries: dict[str, list[int]] = defaultdict(list)

    def count(self, key: str, since_ms: int) -> int:
        """Wrong tries of this key since then."""
        return sum(1 for at_ms in self._tries[key] if at_ms > since_ms)

    def note(self, key: str, now_ms: int) -> None:
        """One more."""
        self._tries[key].append(now_ms)

    def forget(self, key: str) -> None:
        """They got it right."""
        self._tries.pop(key, None)
